/** Rows of one kind: added, copied, moved, taken out by buttons; the focus stays with the row. */
import type { RefObject } from "preact";
import { useEffect, useRef } from "preact/hooks";

import { at, named } from "../state/paths";
import type { Change, FormField, Path } from "../state/types";
import { forms as t } from "../texts/forms";
import { gesture } from "./active";
import { faultText, type Store } from "./FieldFrame";
import { Fields } from "./Fields";

interface Props {
  store: Store;
  /** A section of rows, or a field of rows. */
  field: Pick<FormField, "label" | "fields">;
  path: Path;
}

/** Draw them; every row can be done without a mouse. */
export function Rows({ store, field, path }: Props) {
  const room = useRef<HTMLDivElement>(null);
  const raw = at(store.document.value, path);
  const rows = Array.isArray(raw) ? (raw as unknown[]) : [];
  const act = (changes: Change[], what: string, focus: number | null) => {
    store.edit(changes, what, gesture());
    requestAnimationFrame(() => {
      const target =
        focus === null
          ? room.current?.querySelector<HTMLElement>(":scope > .row-add")
          : room.current?.querySelector<HTMLElement>(`:scope > .row:nth-of-type(${focus + 1}) .row-head`);
      target?.focus();
    });
  };
  const add = () => {
    const row: Change = Array.isArray(raw)
      ? { op: "insert", path: [...path, rows.length], value: {} }
      : { op: "set", path: [...path], value: [{}] };
    act([row], t.did.add(field.label), rows.length);
  };
  const copy = (index: number) =>
    act(
      [{ op: "insert", path: [...path, index + 1], value: structuredClone(rows[index]) }],
      t.did.copy(field.label),
      index + 1,
    );
  const move = (index: number, to: number) =>
    act([{ op: "move", path: [...path, index], to }], t.did.move(field.label), to);
  const drop = (index: number) =>
    act(
      [{ op: "remove", path: [...path, index] }],
      t.did.drop(field.label),
      rows.length > 1 ? Math.max(0, index - 1) : null,
    );
  useKeptFocus(room, rows.length);
  const whole = store.faults.value.filter((fault) => named(fault.path) === named(path));
  return (
    <div class="rows" ref={room} data-key={named(path)}>
      {rows.map((row, index) => {
        const name = rowName(row) ?? t.row(field.label, index + 1);
        const wrong = store.faults.value.filter((fault) => named(fault.path) === named([...path, index]));
        return (
          <div key={index} class="row" role="group" aria-label={name} data-key={named([...path, index])}>
            <div class="row-head" tabIndex={-1}>
              <span class="row-name">{name}</span>
              <span class="row-doings no-print">
                <Doing word={t.up} name={name} off={index === 0} run={() => move(index, index - 1)} />
                <Doing word={t.down} name={name} off={index === rows.length - 1} run={() => move(index, index + 1)} />
                <Doing word={t.copy} name={name} run={() => copy(index)} />
                <Doing word={t.take_out} name={name} run={() => drop(index)} />
              </span>
            </div>
            {wrong.map((fault) => (
              <p key={fault.what} class="fault">
                {faultText(fault)}
              </p>
            ))}
            <Fields store={store} fields={field.fields} path={[...path, index]} />
          </div>
        );
      })}
      {whole.map((fault) => (
        <p key={fault.what} class="fault">
          {faultText(fault)}
        </p>
      ))}
      <button type="button" class="plain row-add no-print" onClick={add}>
        {t.add(field.label)}
      </button>
    </div>
  );
}

/** A row that goes (undone, or taken out elsewhere) hands its focus on instead of losing it. */
function useKeptFocus(room: RefObject<HTMLDivElement | null>, count: number): void {
  const inside = useRef(false);
  useEffect(() => {
    const seen = () => {
      inside.current = document.activeElement !== null && (room.current?.contains(document.activeElement) ?? false);
    };
    document.addEventListener("focusin", seen);
    return () => document.removeEventListener("focusin", seen);
  }, [room]);
  useEffect(() => {
    if (!inside.current || document.activeElement !== document.body) return;
    const heads = room.current?.querySelectorAll<HTMLElement>(":scope > .row > .row-head");
    (heads?.[heads.length - 1] ?? room.current?.querySelector<HTMLElement>(":scope > .row-add"))?.focus();
  }, [room, count]);
}

function Doing({ word, name, run, off = false }: { word: string; name: string; run: () => void; off?: boolean }) {
  return (
    <button type="button" class="plain small" disabled={off} onClick={run} aria-label={`${word}: ${name}`}>
      {word}
    </button>
  );
}

function rowName(row: unknown): string | null {
  const told = row as Record<string, unknown> | null;
  const name = [
    "name",
    "id",
    "who",
    "by",
    "person",
    "do",
    "does",
    "code",
    "connector",
    "sling",
    "line",
    "pattern",
    "time",
  ]
    .map((key) => told?.[key])
    .find((value) => typeof value === "string" && value !== "");
  return typeof name === "string" ? name : null;
}
