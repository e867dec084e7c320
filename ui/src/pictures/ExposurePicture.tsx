/** The exposure of one dive: depth over time with its limits and stops, and the dive that takes longer. */
import type { JSX } from "preact";
import { pictures } from "../texts/pictures";
import { AcrossAxis, DEPTH_ROOM, DepthAxis, fieldOf, keepAxes } from "./axes";
import { type Board, Picture, path } from "./board";
import { type Corner, late, limits, planned, stays } from "./diving";
import { THIN, band, both, one } from "./figures";
import type { Dive, Units } from "./plan";
import { timeTicks } from "./scale";

const words = pictures.exposure;
const FAR = 1.4; // a limit beyond so many times the longest dive is told, not drawn
const BELOW = 28;

const min = (minutes: number): string => `${Math.round(minutes)}${THIN}min`;

/** ceilings: pairs of minute and depth that a model forbids to be shallower than, where the plan has them. */
export function ExposurePicture(props: {
  dive: Dive | null | undefined;
  units?: Units;
  ceilings?: { name: string; points: [number, number][] }[];
}): JSX.Element {
  const { dive, units = "metric", ceilings = [] } = props;
  if (!dive?.depth_m || !dive.bottom_time_min) return <p class="pic-empty">{pictures.nothing}</p>;
  const way = planned(dive);
  const long = late(dive);
  const ends = limits(dive);
  const longest = Math.max(...[...way, ...long].map(([at]) => at));
  const beyond = ends.filter((row) => row.at > longest * FAR).map((row) => words.beyond(words[row.name], `${Math.floor(row.at)}${THIN}min`));
  const dashed = dive.over_run ? words.dashed(min(dive.over_run.longer_by_min)) : "";
  return (
    <Picture
      title={words.title(dive.label)}
      caption={[words.caption, dashed, ...beyond].filter(Boolean).join(" ")}
      heightOf={(width) => Math.min(Math.max(width * 0.5, 300), 400)}
      draw={(board) => drawDive(board, dive, way, long, ends.filter((row) => row.at <= longest * FAR), ceilings, units)}
      below={
        <ol class="pic-tasks">
          {dive.tasks.map((task, n) => (
            <li key={n}>
              {task.does}, {band(task.min, "minutes", units)}
            </li>
          ))}
        </ol>
      }
      table={{
        head: [...words.columns],
        rows: [
          [words.down, min(way[1]?.[0] ?? 0), both(way[1]?.[1], "length", units)],
          [words.leaving, min(way[2]?.[0] ?? 0), both(way[2]?.[1], "length", units)],
          ...stays(way.slice(2)).map((row) => [`${words.stopping}, ${min(row.end - row.begin)}`, min(row.begin), both(row.depth, "length", units)]),
          [words.surface, min(way[way.length - 1]?.[0] ?? 0), one(0, "length", units)],
          ...ends.map((row) => [words.noStop("", words[row.name]), `${Math.floor(row.at)}${THIN}min`, ""]),
        ],
      }}
    />
  );
}

function drawDive(
  board: Board,
  dive: Dive,
  way: Corner[],
  long: Corner[],
  ends: ReturnType<typeof limits>,
  ceilings: { name: string; points: [number, number][] }[],
  units: Units,
): JSX.Element {
  const { width, height, labels } = board;
  const deepest = dive.depth_m.likely;
  const last = Math.max(...[...way, ...long].map(([at]) => at), ...ends.map((row) => row.at)) * 1.06;
  const box = { left: DEPTH_ROOM, top: 70, right: width - 12, bottom: height - 46 };
  const reach = (deepest * (box.bottom - box.top)) / (box.bottom - box.top - BELOW);
  const field = fieldOf(box, last, reach);
  const on = (line: Corner[]): [number, number][] => line.map(([at, depth]) => [field.x(at), field.y(depth)]);
  keepAxes(labels, field);
  labels.keepLine(on(way));
  const over = field.top - 12;
  const up = (x: number, row: number): [number, number, "middle" | "end" | "start"][] =>
    ["middle" as const, "end" as const, "start" as const].map((anchor) => [x, over - row * 19, anchor]);
  const rows = (x: number): [number, number, "middle" | "end" | "start"][] => [...up(x, 0), ...up(x, 1), ...up(x, 2)];
  ends.forEach((row, n) => labels.put(words.noStop(`${Math.floor(row.at)}${THIN}min`, words[row.name]), rows(field.x(row.at)), n === 0));
  const [down, leave, surface] = [way[1], way[2], way[way.length - 1]];
  if (down && leave) labels.put(words.work(both(deepest, "length", units)), [[field.x((down[0] + leave[0]) / 2), field.y(deepest) - 9, "middle"], [field.x(leave[0]) - 8, field.y(deepest) - 9, "end"]], true);
  if (surface) labels.put(words.up(min(surface[0])), rows(field.x(surface[0])), true);
  if (leave) {
    const [x, y] = [field.x(leave[0]), field.y(deepest)];
    labels.put(words.leave(min(leave[0])), [[x + 16, y - 4, "start"], [x - 10, y - 30, "end"], [x - 10, y - 50, "end"], [x + 16, y + 18, "start"]], true);
  }
  const told = stays(way.slice(2));
  for (const row of told) stop(board, field.x(row.begin), field.x(row.end), field.y(row.depth), words.stop(min(row.end - row.begin), both(row.depth, "length", units)), true);
  const tail = long[long.length - 1];
  if (tail) {
    labels.put(words.late(min(tail[0])), rows(field.x(tail[0])));
    for (const row of stays(long.slice(1)))
      if (!told.some((one) => one.depth === row.depth && Math.round(one.end - one.begin) === Math.round(row.end - row.begin)))
        stop(board, field.x(row.begin), field.x(row.end), field.y(row.depth), words.stop(min(row.end - row.begin), both(row.depth, "length", units)), false);
  }
  let start = down?.[0] ?? 0;
  const pieces = dive.tasks.map((task, n) => {
    const from = start;
    start += task.min.likely;
    labels.put(String(n + 1), [[field.x((from + start) / 2), field.y(deepest) + 19, "middle"]]);
    return field.x(start);
  });
  return (
    <g>
      <rect x={field.left} y={field.top} width={field.right - field.left} height={field.bottom - field.top} class="pic-sea" />
      <DepthAxis field={{ ...field, bottom: field.bottom }} deepest={deepest} units={units} />
      <AcrossAxis field={field} marks={timeTicks(last * 60, width < 500 ? 4 : 8).map((row) => ({ ...row, at: row.at / 60 }))} />
      {ceilings.map((row) => (
        <g key={row.name}>
          <path d={path([[field.x(row.points[0]?.[0] ?? 0), field.y(0)], ...on(row.points), [field.x(row.points[row.points.length - 1]?.[0] ?? 0), field.y(0)]], true)} fill={board.hatch("nogo")} />
          <path d={path(on(row.points))} class="pic-firm" />
        </g>
      ))}
      {ends.map((row, n) => (
        <path key={row.name} d={`M${field.x(row.at)},${field.top - 6}V${field.bottom}`} class={`${n === 0 ? "pic-firm" : "pic-thin"} pic-dot`} />
      ))}
      {long.length ? <path d={path(on(long))} class="pic-thin pic-dash" /> : null}
      <path d={path(on(way))} class="pic-line pic-go" />
      {pieces.map((x) => (
        <path key={x} d={`M${x},${field.y(deepest) - 6}v12`} class="pic-thin" />
      ))}
      {leave ? <circle cx={field.x(leave[0])} cy={field.y(deepest)} r={4.5} class="pic-firm" style={{ fill: "var(--paper)" }} /> : null}
      {surface ? <circle cx={field.x(surface[0])} cy={field.y(0)} r={4.5} class="pic-firm" style={{ fill: "var(--paper)" }} /> : null}
    </g>
  );
}

function stop(board: Board, begin: number, end: number, y: number, text: string, bold: boolean): void {
  board.labels.put(text, [[begin - 10, y + 5, "end"], [end + 10, y + 20, "start"], [begin - 10, y + 24, "end"], [end + 10, y + 40, "start"], [begin - 10, y - 8, "end"]], bold);
}
