/** The chance to find it by each pattern, against what is possible in the time. */
import type { JSX } from "preact";
import { pictures } from "../texts/pictures";
import { Bars } from "./Bars";
import { one } from "./figures";
import type { Search, Units } from "./plan";

const words = pictures.cover;

export function SearchCover(props: { search: Search | null | undefined; units?: Units }): JSX.Element {
  const { search, units = "metric" } = props;
  const all = [search?.best, search?.second, ...(search?.alternatives ?? [])].filter((row) => row !== null && row !== undefined);
  const rows = all.filter((row) => typeof row.chance === "number").sort((a, b) => (b.chance ?? 0) - (a.chance ?? 0));
  if (!rows.length) return <p class="pic-empty">{pictures.nothing}</p>;
  const bound = search?.bound?.chance ?? null;
  return (
    <Bars
      title={words.title}
      caption={bound === null ? "" : words.caption}
      rows={rows.map((row) => ({ name: row.pattern, value: row.chance, text: one(row.chance, "share", units) }))}
      most={1}
      line={bound === null ? null : { at: bound, text: words.bound(one(bound, "share", units)) }}
      table={{ head: [...words.columns], rows: all.map((row) => [row.pattern, one(row.chance, "share", units), row.why_not ?? row.words]) }}
    />
  );
}
