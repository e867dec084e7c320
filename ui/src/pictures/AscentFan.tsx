/** Depth over time on the way up: one firm line for the likely, two thin for the band, marks where something happens. */
import type { JSX } from "preact";
import { pictures } from "../texts/pictures";
import { AcrossAxis, DEPTH_ROOM, DepthAxis, fieldOf, keepAxes, type Field } from "./axes";
import { type Board, Picture, path } from "./board";
import { band, both, duration, one } from "./figures";
import type { Ascent, EventRow, FanRow, Units } from "./plan";
import { timeTicks } from "./scale";

const words = pictures.fan;
const TOP = 64;
const FOOT = 46;
const RIGHT = 14;

type Line = [number, number][];

export function AscentFan(props: { ascent: Ascent | null | undefined; units?: Units }): JSX.Element {
  const { ascent, units = "metric" } = props;
  const control = ascent?.under_control ?? null;
  const fan = (control?.fan?.length ? control.fan : ascent?.fan) ?? [];
  if (!ascent || fan.length < 2) return <p class="pic-empty">{pictures.nothing}</p>;
  const events = control?.events ?? [];
  const alone = control?.fan?.length ? (ascent.fan ?? []) : [];
  return (
    <Picture
      title={words.title}
      caption={`${words.caption}${alone.length ? ` ${words.dotted}` : ""}`}
      heightOf={(width) => Math.min(Math.max(width * 0.55, 320), 440)}
      draw={(board) => drawFan(board, fan, events, alone, ascent, units)}
      table={{
        head: [...words.columns],
        rows: [
          ...fan.map((row) => [
            duration(row.t_s),
            one(Math.min(row.low, row.high), "length", units),
            one(row.likely, "length", units),
            one(Math.max(row.low, row.high), "length", units),
          ]),
          ...events.map((row) => [row.words, band(row.t_s, "seconds", units), band(row.depth_m, "length", units), ""]),
        ],
      }}
    />
  );
}

function drawFan(board: Board, fan: FanRow[], events: EventRow[], alone: FanRow[], ascent: Ascent, units: Units): JSX.Element {
  const { width, height, labels } = board;
  const deepest = Math.max(1, ...fan.map((row) => Math.max(row.low, row.high)));
  const last = Math.max(1, fan[fan.length - 1]?.t_s ?? 1);
  const field = fieldOf({ left: DEPTH_ROOM, top: TOP, right: width - RIGHT, bottom: height - FOOT }, last, deepest);
  const curve = (rows: FanRow[], pick: (row: FanRow) => number): Line => untilStill(rows.map((row) => [field.x(row.t_s), field.y(pick(row))]));
  const sooner = curve(fan, (row) => Math.min(row.low, row.high));
  const later = curve(fan, (row) => Math.max(row.low, row.high));
  const likely = curve(fan, (row) => row.likely);
  const free = curve(alone, (row) => row.likely).filter(([x]) => x <= field.right);
  keepAxes(labels, field);
  labels.keepLine(likely);
  names(board, field, { sooner, likely, later });
  const marks = events.filter((row) => row.depth_m && row.depth_m.likely > 0);
  const dots = marks.map((row) => {
    const y = field.y(row.depth_m?.likely ?? 0);
    return { row, at: [crossing(likely, y), y] as [number, number] };
  });
  for (const { at } of dots) labels.keep([at[0] - 5, at[1] - 5, at[0] + 5, at[1] + 5]);
  for (const { row, at } of dots) {
    if ((row.depth_m?.likely ?? 0) >= deepest * 0.995 || row.what === "surface") continue;
    const sides: [number, number] = [crossing(later, at[1]) + 10, crossing(sooner, at[1]) - 10];
    const long = `${row.what}, ${both(row.depth_m?.likely, "length", units)}`;
    const brief = `${row.what}, ${one(row.depth_m?.likely, "length", units)}`;
    if (!labels.beside(long, at, sides, true, 2)) labels.beside(brief, at, sides, true, 6);
  }
  const full = ascent.under_control?.fan?.length ? null : ascent.full_at_m;
  if (full && full < deepest) labels.put(words.full(one(full, "length", units)), [[field.right, field.y(full) - 6, "end"], [field.right, field.y(full) + 18, "end"], [field.left + 6, field.y(full) - 6, "start"]]);
  const half = free[Math.floor(free.length / 2)];
  if (half && free.length > 1) {
    labels.keepLine(free);
    labels.beside(words.alone, half, [half[0] + 10, half[0] - 10]);
  }
  return (
    <g>
      <rect x={field.left} y={field.top} width={field.right - field.left} height={field.bottom - field.top} class="pic-sea" />
      <path d={path([...sooner, [later[later.length - 1]?.[0] ?? 0, sooner[sooner.length - 1]?.[1] ?? 0], ...[...later].reverse()], true)} class="pic-paper" opacity={0.75} />
      <DepthAxis field={field} deepest={deepest} units={units} />
      <AcrossAxis field={field} marks={timeTicks(last, width < 500 ? 4 : 8)} />
      {full && full < deepest ? <path d={`M${field.left},${field.y(full)}H${field.right}`} class="pic-hair pic-dash" /> : null}
      {free.length > 1 ? <path d={path(free)} class="pic-thin pic-dot" /> : null}
      <path d={path(sooner)} class="pic-thin" />
      <path d={path(later)} class="pic-thin" />
      <path d={path(likely)} class="pic-line pic-go" />
      {dots.map(({ row, at }) => (
        <circle key={row.what} cx={at[0]} cy={at[1]} r={4.5} class="pic-firm" style={{ fill: "var(--paper)" }} />
      ))}
    </g>
  );
}

/** The names of the lines stand over the surface, each at the end of its own, in three rows. */
function names(board: Board, field: Field, lines: { sooner: Line; likely: Line; later: Line }): void {
  const rows: [Line, string, boolean][] = [
    [lines.likely, words.likely, true],
    [lines.sooner, words.sooner, false],
    [lines.later, words.later, false],
  ];
  for (const [line, name, bold] of rows) {
    const end = line[line.length - 1];
    if (!end || end[1] > (field.top + field.bottom) / 2) continue;
    const tries = [0, 1, 2].flatMap((row): [number, number, "start" | "middle" | "end"][] => [
      [end[0], field.top - 10 - row * 18, "middle"],
      [end[0], field.top - 10 - row * 18, "end"],
      [end[0], field.top - 10 - row * 18, "start"],
    ]);
    const before = board.labels.words.length;
    if (board.labels.put(name, tries, bold)) {
      const at = board.labels.words[before];
      if (at) board.labels.strings.push({ x1: end[0], y1: end[1], x2: end[0], y2: at.y + 4 });
    }
  }
}

/** Leave out the flat end: there it floats. */
export function untilStill(points: Line): Line {
  let end = points.length;
  while (end > 1 && Math.abs((points[end - 2]?.[1] ?? 0) - (points[points.length - 1]?.[1] ?? 0)) < 1.5) end -= 1;
  return points.slice(0, end);
}

/** How far to the right a line comes to a depth; its nearer end where it never does. */
export function crossing(line: readonly (readonly [number, number])[], y: number): number {
  for (let n = 1; n < line.length; n += 1) {
    const [a, b] = [line[n - 1], line[n]];
    if (a && b && (a[1] - y) * (b[1] - y) <= 0 && a[1] !== b[1]) return a[0] + ((y - a[1]) / (b[1] - a[1])) * (b[0] - a[0]);
  }
  const [first, last] = [line[0], line[line.length - 1]];
  if (!first || !last) return 0;
  return Math.abs(last[1] - y) < Math.abs(first[1] - y) ? last[0] : first[0];
}
