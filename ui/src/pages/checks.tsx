/** Checks: every published number that the program computes, ours beside it. */
import { useMemo, useState } from "preact/hooks";
import { pages as t } from "../texts/pages";
import { useAsked } from "./ask";
import { Head, StateMark, TroubleBox, Waiting } from "./parts";
import type { CheckLine } from "./shapes";

/** Rows that are shown at once. */
const STEP = 60;

/** The page at #/checks. */
export function Checks() {
  const said = useAsked<{ checks: CheckLine[] }>("/checks");
  const rows = said.data?.checks ?? [];
  const [words, setWords] = useState("");
  const [mark, setMark] = useState("");
  const [bad, setBad] = useState(false);
  const [most, setMost] = useState(STEP);
  const marks = useMemo(() => [...new Set(rows.map((row) => row.mark))].sort(), [rows]);
  const found = useMemo(() => sought(rows, words, mark, bad), [rows, words, mark, bad]);
  const anew = <V,>(set: (value: V) => void) => (value: V) => {
    set(value);
    setMost(STEP);
  };
  return (
    <article class="page checks">
      <Head title={t.checks.title} lead={t.checks.lead} />
      <TroubleBox trouble={said.trouble} again={said.again} />
      {!said.data && !said.trouble ? <Waiting text={t.checks.waiting} /> : null}
      {said.data ? (
        <>
          <p class="big">{t.checks.total(rows.filter((row) => row.ok).length, rows.length)}</p>
          <form class="filters no-print" role="search" onSubmit={(event) => event.preventDefault()}>
            <label>
              {t.checks.search}
              <input type="search" value={words} onInput={(event) => anew(setWords)(event.currentTarget.value)} />
            </label>
            <label>
              {t.checks.mark}
              <select value={mark} onChange={(event) => anew(setMark)(event.currentTarget.value)}>
                <option value="">{t.checks.any}</option>
                {marks.map((one) => (
                  <option key={one} value={one}>
                    {one}
                  </option>
                ))}
              </select>
            </label>
            <label class="tick">
              <input type="checkbox" checked={bad} onChange={(event) => anew(setBad)(event.currentTarget.checked)} />
              <span>{t.checks.only_bad}</span>
            </label>
          </form>
          <p role="status">{t.checks.found(found.length, Math.min(found.length, most))}</p>
          <List rows={found.slice(0, most)} />
          {found.length > most ? (
            <button type="button" class="plain no-print" onClick={() => setMost(most + 4 * STEP)}>
              {t.checks.more(found.length - most)}
            </button>
          ) : null}
          <h2>{t.checks.marks_title}</h2>
          <dl class="marks">
            {marks.map((one) => (
              <div key={one}>
                <dt>{one}</dt>
                <dd>{t.checks.marks[one] ?? ""}</dd>
              </div>
            ))}
          </dl>
        </>
      ) : null}
    </article>
  );
}

function sought(rows: CheckLine[], words: string, mark: string, bad: boolean): CheckLine[] {
  const parts = words.toLowerCase().split(/\s+/).filter(Boolean);
  return rows.filter((row) => {
    const text = `${row.id} ${row.quantity} ${row.source} ${row.unit}`.toLowerCase();
    return parts.every((part) => text.includes(part)) && (!mark || row.mark === mark) && !(bad && row.ok);
  });
}

function List({ rows }: { rows: CheckLine[] }) {
  const heads = t.checks.columns;
  return (
    <table class="stacks check-list" role="table">
      <thead role="rowgroup">
        <tr role="row">
          {heads.map((word) => (
            <th key={word} role="columnheader" scope="col">
              {word}
            </th>
          ))}
        </tr>
      </thead>
      <tbody role="rowgroup">
        {rows.map((row) => (
          <tr key={row.id} role="row">
            <th role="rowheader" scope="row">
              {row.quantity}
              <span class="id">{row.id}</span>
            </th>
            <td role="cell" class="number" data-head={heads[1]}>
              {digits(row.value)} {unit(row)}
            </td>
            <td role="cell" class="number" data-head={heads[2]}>
              {digits(row.ours)} {unit(row)}
            </td>
            <td role="cell" class="number" data-head={heads[3]}>
              {digits(row.tolerance, 2)}
            </td>
            <td role="cell" data-head={heads[4]}>
              {row.mark}
            </td>
            <td role="cell" data-head={heads[5]}>
              {row.source}
            </td>
            <td role="cell">
              {row.ok ? t.checks.ok : <StateMark state="stop" word={t.checks.not_ok} />}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function unit(row: CheckLine): string {
  return row.unit === "-" ? "" : row.unit;
}

/** Six figures are enough to compare two numbers. */
export function digits(value: number, figures = 6): string {
  if (!Number.isFinite(value)) return String(value);
  return String(Number(value.toPrecision(figures)));
}
