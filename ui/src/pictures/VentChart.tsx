/** Venting by depth: what is needed to keep the rate, and what the dump lets out. */
import type { JSX } from "preact";
import { pictures } from "../texts/pictures";
import { AcrossAxis, DEPTH_ROOM, DepthAxis, fieldOf, keepAxes } from "./axes";
import { type Board, Picture, path } from "./board";
import { band, both, one, unitOf } from "./figures";
import type { Band, Units, VentRow } from "./plan";
import { ticks } from "./scale";

const words = pictures.vent;
const MUCH = 4; // a dump that passes more than so many times the need runs out of the picture

export function VentChart(props: { rows: VentRow[] | null | undefined; units?: Units }): JSX.Element {
  const { units = "metric" } = props;
  const rows = [...(props.rows ?? [])].sort((a, b) => b.depth_m - a.depth_m);
  const most = Math.max(0, ...rows.map((row) => row.needed));
  if (most <= 0) return <p class="pic-empty">{pictures.nothing}</p>;
  const known = rows.filter((row): row is VentRow & { can: Band } => row.can !== null);
  const short = known.some((row) => row.can.low < row.needed);
  return (
    <Picture
      title={words.title}
      caption={!known.length ? words.unknown : short ? words.short : words.enough}
      heightOf={(width) => Math.min(Math.max(width * 0.55, 280), 380)}
      draw={(board) => drawVent(board, rows, known, most, units)}
      table={{
        head: [...words.columns],
        rows: rows.map((row) => [both(row.depth_m, "length", units), one(row.needed, "venting", units), band(row.can, "venting", units)]),
      }}
    />
  );
}

function drawVent(board: Board, rows: VentRow[], known: (VentRow & { can: Band })[], most: number, units: Units): JSX.Element {
  const { width, height, labels } = board;
  const highest = Math.max(most, ...known.map((row) => row.can.high));
  const widest = Math.min(highest * 1.15, most * MUCH);
  const deepest = rows[0]?.depth_m ?? 1;
  const field = fieldOf({ left: DEPTH_ROOM, top: 16, right: width - 16, bottom: height - 56 }, widest, deepest);
  const needed = rows.map((row): [number, number] => [field.x(row.needed), field.y(row.depth_m)]);
  const can = (key: "low" | "likely" | "high"): [number, number][][] =>
    inside(known.map((row) => [field.x(row.can[key]), field.y(row.depth_m)]), field.right);
  const lacking = known.filter((row) => row.can.low < row.needed);
  const hatched: [number, number][] = [
    ...lacking.map((row): [number, number] => [field.x(row.can.low), field.y(row.depth_m)]),
    ...[...lacking].reverse().map((row): [number, number] => [field.x(row.needed), field.y(row.depth_m)]),
  ];
  keepAxes(labels, field);
  labels.keepLine(needed);
  for (const key of ["low", "likely", "high"] as const) for (const line of can(key)) labels.keepLine(line);
  const named = needed[Math.floor((needed.length * 2) / 3)];
  if (named) labels.beside(words.needed, named, [named[0] + 12, named[0] - 12], true);
  const dump = can("likely")[0];
  const middle = dump?.[Math.floor(dump.length / 3)];
  if (middle) labels.beside(words.dump, middle, [middle[0] + 12, middle[0] - 12], true);
  else if (known.length) {
    const row = known[Math.floor(known.length / 2)];
    if (row) labels.put(words.dumpRight(band(row.can, "venting", units)), [0, -22, 22].map((move): [number, number, "end"] => [field.right, field.y(row.depth_m) + 5 + move, "end"]), true);
  }
  return (
    <g>
      <rect x={field.left} y={field.top} width={field.right - field.left} height={field.bottom - field.top} class="pic-sea" />
      {lacking.length > 1 ? <path d={path(hatched, true)} fill={board.hatch("short")} /> : null}
      <DepthAxis field={field} deepest={deepest} units={units} />
      <AcrossAxis field={field} marks={ticks(widest, "venting", units, width < 500 ? 4 : 8, false)} name={`${words.name}, ${unitOf("venting", units)}`} />
      {(["low", "likely", "high"] as const).flatMap((key) =>
        can(key).map((line, n) => <path key={`${key}${n}`} d={path(line)} class={`${key === "likely" ? "pic-firm" : "pic-thin"} pic-dash`} />),
      )}
      <path d={path(needed)} class="pic-line pic-go" />
    </g>
  );
}

/** The runs of a line that lie in the picture. */
function inside(points: [number, number][], right: number): [number, number][][] {
  const runs: [number, number][][] = [[]];
  for (const point of points) {
    if (point[0] <= right) runs[runs.length - 1]?.push(point);
    else if (runs[runs.length - 1]?.length) runs.push([]);
  }
  return runs.filter((run) => run.length > 1);
}
