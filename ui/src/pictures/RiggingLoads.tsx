/** What each piece of the rigging carries, as a share of its limit. */
import type { JSX } from "preact";
import { pictures } from "../texts/pictures";
import { Bars } from "./Bars";
import { one } from "./figures";
import type { RiggingRow, Units } from "./plan";

const words = pictures.rigging;

export function RiggingLoads(props: { rows: RiggingRow[] | null | undefined; units?: Units }): JSX.Element {
  const { units = "metric" } = props;
  const rows = props.rows ?? [];
  if (!rows.length) return <p class="pic-empty">{pictures.nothing}</p>;
  const text = (row: RiggingRow): string =>
    row.used === null || row.limit_n === null
      ? words.unknown
      : `${one(row.used, "share", units)}${row.ok === false ? `, ${words.over}` : ""}`;
  const most = Math.max(1, ...rows.map((row) => row.used ?? 0)) * 1.02;
  return (
    <Bars
      title={words.title}
      caption={words.caption}
      rows={rows.map((row) => ({ name: `${row.item}, ${row.kind}`, value: row.used, text: text(row), bad: row.ok === false }))}
      most={most}
      line={{ at: 1, text: words.limit }}
      table={{
        head: [...words.columns],
        rows: rows.map((row) => [row.item, row.kind, one(row.load_n, "load", units), one(row.limit_n, "load", units), text(row), row.source]),
      }}
    />
  );
}
