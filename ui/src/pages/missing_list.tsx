/** What is missing, by how much it matters: first what a stage cannot do without, last what only narrows a number. */
import { useState } from "preact/hooks";
import { named } from "../state/paths";
import { caseHash } from "../state/route";
import { pages as t } from "../texts/pages";
import { } from "./parts";
import type { Missing } from "../state/types";

/** Rows of one kind that are shown before somebody asks for all. */
const FIRST = 5;

type Weight = "needed" | "open" | "spread" | "default";

/** The list, with a link to the field of each row. */
export function MissingList({ id, rows }: { id: string; rows: Missing[] }) {
  if (!rows.length) return <p>{t.first.nothing_missing}</p>;
  return (
    <>
      {(["needed", "open", "spread", "default"] as const).map((weight) => (
        <Group key={weight} id={id} weight={weight} rows={rows.filter((row) => weightOf(row) === weight)} />
      ))}
    </>
  );
}

function Group({ id, weight, rows }: { id: string; weight: Weight; rows: Missing[] }) {
  const [all, setAll] = useState(false);
  if (!rows.length) return null;
  const shown = all ? rows : rows.slice(0, FIRST);
  return (
    <section class="missing">
      <h3>{t.first.weights[weight]}</h3>
      <ul>
        {shown.map((row) => (
          <li key={`${row.key} ${row.what}`}>
            <a href={caseHash(id, row.stage, row.path?.length ? named(row.path) : row.key)}>{row.what}</a>
            {weight === "open" && row.why ? <span> {row.why}</span> : null}
            {row.share !== null ? <span class="quiet-words"> {t.first.share(percent(row.share))}</span> : null}
          </li>
        ))}
      </ul>
      {shown.length < rows.length ? (
        <button type="button" class="plain" onClick={() => setAll(true)}>
          {t.first.all(rows.length)}
        </button>
      ) : null}
    </section>
  );
}

/** How much a row matters. */
export function weightOf(row: Missing): Weight {
  if (row.why === "needed") return "needed";
  if (row.share !== null) return "spread";
  return row.why === "a wide default stands in" ? "default" : "open";
}

function percent(share: number): string {
  return new Intl.NumberFormat("en-GB", { style: "percent" }).format(share);
}
