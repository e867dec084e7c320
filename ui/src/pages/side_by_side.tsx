/** The table of variants: one row to a number, one column to a variant; on a phone each row is a block. */
import { Fragment, type ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import { pages as t } from "../texts/pages";
import { StateMark } from "./parts";
import type { Column, Compared, Comparison, Level } from "./shapes";

/** Rows of the rules are named by their level. */
const LEVELS: Record<string, Level> = { stop: "stop", unanswered: "unanswered", caution: "caution" };

interface Props {
  said: Comparison;
  /** Whether the numbers belong to the revisions above them. */
  holds: boolean;
  below: (column: Column, place: number) => ComponentChildren;
}

/** Variants side by side; what differs is marked by a shape, a word and weight. */
export function SideBySide({ said, holds, below }: Props) {
  const [only, setOnly] = useState(true);
  const differing = said.rows.filter((row) => row.differs).length;
  const shown = said.rows.filter((row) => row.differs || !only);
  const sections = [...new Set(shown.map((row) => row.section))];
  const heads = said.columns.map((column) => column.variant ?? t.compare.the_case);
  return (
    <section class="side-by-side" aria-busy={!holds}>
      <p class="no-print">
        <button type="button" class="plain" aria-pressed={only} onClick={() => setOnly(!only)}>
          {t.compare.only}
        </button>
      </p>
      <p class="how-many" role="status">{holds ? t.compare.count(differing, said.rows.length) : t.waiting}</p>
      <div class="wide-table" tabIndex={0} role="region" aria-label={t.compare.title}>
        <table class="stacks variants" role="table">
          <thead role="rowgroup">
            <tr role="row">
              <th role="columnheader" scope="col" class="name">
                {t.compare.what}
              </th>
              {said.columns.map((column, place) => (
                <th key={column.id} role="columnheader" scope="col">
                  <a href={`#/case/${column.id}/lift`}>{column.variant ?? column.title}</a>
                  <span class="belongs">{t.revision(column.revision)}</span>
                  {below(column, place)}
                </th>
              ))}
            </tr>
          </thead>
          {sections.map((section) => (
            <tbody key={section} role="rowgroup">
              <tr role="row" class="section">
                <th role="rowheader" scope="rowgroup" colSpan={said.columns.length + 1}>
                  {section}
                </th>
              </tr>
              {shown
                .filter((row) => row.section === section)
                .map((row, place) => (
                  <Row key={`${row.name} ${place}`} row={row} heads={heads} holds={holds} />
                ))}
            </tbody>
          ))}
        </table>
      </div>
      {holds && !shown.length ? <p>{t.compare.alike}</p> : null}
    </section>
  );
}

function Row({ row, heads, holds }: { row: Compared; heads: string[]; holds: boolean }) {
  const level = LEVELS[row.name.toLowerCase()];
  return (
    <tr role="row" class={row.differs ? "differs" : ""}>
      <th role="rowheader" scope="row" class="name">
        {row.differs ? (
          <span class="differ-mark">
            <svg viewBox="0 0 12 12" width="12" height="12" aria-hidden="true" focusable="false">
              <path class="full" d="M6 0 12 6 6 12 0 6z" />
            </svg>
            <span class="hidden-words">{t.compare.differs}</span>
          </span>
        ) : null}
        {level ? <StateMark state={level} /> : row.name}
      </th>
      {row.cells.map((cell, place) => (
        <Fragment key={place}>
          <td role="cell" data-head={heads[place]} class={holds ? "" : "away"}>
            {cell}
          </td>
        </Fragment>
      ))}
    </tr>
  );
}
