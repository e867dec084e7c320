/** What the spread of the weight comes from, the most first. */
import type { JSX } from "preact";
import { pictures } from "../texts/pictures";
import { Bars } from "./Bars";
import { one } from "./figures";
import type { DriverRow, Units } from "./plan";

const words = pictures.drivers;

export function Drivers(props: { rows: DriverRow[] | null | undefined; units?: Units; most?: number }): JSX.Element {
  const { units = "metric", most = 6 } = props;
  const rows = [...(props.rows ?? [])].filter((row) => row.share >= 0.005).sort((a, b) => b.share - a.share);
  if (!rows.length) return <p class="pic-empty">{pictures.nothing}</p>;
  return (
    <Bars
      title={words.title}
      caption={words.caption}
      rows={rows.slice(0, most).map((row) => ({ name: row.input, value: row.share, text: one(row.share, "share", units) }))}
      most={1}
      table={{ head: [...words.columns], rows: rows.map((row) => [row.input, one(row.share, "share", units)]) }}
    />
  );
}
