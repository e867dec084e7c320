/** What can be held: the share of the lift that can grow against reaction time, with this team's place in it. */
import type { JSX } from "preact";
import { pictures } from "../texts/pictures";
import { AcrossAxis, fieldOf, type Field } from "./axes";
import { type Board, Picture, path } from "./board";
import { band, one } from "./figures";
import type { MapOfControl, Units } from "./plan";
import { ticks, timeTicks } from "./scale";

const words = pictures.control;
const HELD = 0.9;
const LOST = 0.1;

export function ControlMap(props: { map: MapOfControl | null | undefined; units?: Units }): JSX.Element {
  const { map, units = "metric" } = props;
  if (!map || map.share.length < 2 || map.delay_s.length < 2) return <p class="pic-empty">{pictures.nothing}</p>;
  const last = map.delay_s[map.delay_s.length - 1] ?? 1;
  const say = (row: number[], level: number): string => {
    const end = lastHeld(map.delay_s, row, level);
    return end >= last ? words.always : end <= 0 ? words.never : one(end, "seconds", units);
  };
  return (
    <Picture
      title={`${words.title}. ${words.team(band(map.here?.delay_s, "seconds", units))}`}
      caption={words.caption}
      heightOf={(width) => Math.min(Math.max(width * 0.6, 320), 420)}
      draw={(board) => drawMap(board, map, units)}
      table={{
        head: [...words.columns],
        rows: map.share.map((share, n) => [one(share, "share", units), say(map.held[n] ?? [], HELD), say(map.held[n] ?? [], LOST)]),
      }}
    />
  );
}

function drawMap(board: Board, map: MapOfControl, units: Units): JSX.Element {
  const { width, height, labels } = board;
  const widest = Math.max(...map.delay_s, map.here?.delay_s?.high ?? 0);
  const most = Math.max(...map.share);
  const field = fieldOf({ left: 60, top: 34, right: width - 14, bottom: height - 56 }, widest, most);
  const up = (share: number): number => field.bottom + field.top - field.y(share);
  const border = (level: number): [number, number][] => {
    const points = map.held.map((row, n): [number, number] => [Math.min(field.x(lastHeld(map.delay_s, row, level)), field.right), up(map.share[n] ?? 0)]);
    return [[points[0]?.[0] ?? field.right, field.bottom], ...points];
  };
  const [inside, outside] = [border(HELD), border(LOST)];
  const edge = outside.map(([, y]): [number, number] => [field.right, y]);
  labels.keep([0, 0, field.left - 1, height]);
  labels.keep([0, field.bottom, width, height]);
  labels.keep([0, 0, field.left + 210, field.top - 2]);
  const here = map.here?.delay_s && map.here.share !== null ? { delay: map.here.delay_s, share: map.here.share } : null;
  const mark = here ? { y: up(here.share), low: field.x(here.delay.low), mid: field.x(here.delay.likely), high: field.x(here.delay.high) } : null;
  if (mark && here) {
    labels.keep([mark.low - 3, mark.y - 9, mark.high + 3, mark.y + 9]);
    labels.put(words.team(band(here.delay, "seconds", units)), [
      [mark.mid, mark.y - 16, "middle"],
      [mark.low, mark.y - 16, "start"],
      [mark.high, mark.y - 16, "end"],
      [mark.mid, mark.y + 28, "middle"],
      [mark.low, mark.y + 28, "start"],
      [mark.high, mark.y + 28, "end"],
    ], true, true);
  }
  regions(board, field, inside, outside);
  return (
    <g>
      <path d={path([...outside, ...[...edge].reverse()], true)} fill={board.hatch("short")} />
      <path d={path([...inside, ...[...outside].reverse()], true)} fill={board.hatch("rise")} />
      <path d={path(inside)} class="pic-firm" />
      <path d={path(outside)} class="pic-firm pic-dash" />
      <AcrossAxis field={field} marks={timeTicks(widest, width < 500 ? 4 : 8)} name={words.across} />
      <path d={`M${field.left},${field.top}V${field.bottom}`} class="pic-thin" />
      {ticks(most, "share", units, 4).map((row) => (
        <g key={row.at} aria-hidden="true">
          <path d={`M${field.left - 5},${up(row.at)}H${field.left}`} class="pic-thin" />
          <text x={field.left - 8} y={up(row.at) + 5} text-anchor="end" class="pic-word">
            {row.text}
          </text>
        </g>
      ))}
      <text x={2} y={16} class="pic-word pic-quiet">
        {words.up}
      </text>
      {mark ? (
        <g>
          <path d={`M${mark.low},${mark.y - 7}V${mark.y + 7}M${mark.low},${mark.y}H${mark.high}M${mark.high},${mark.y - 7}V${mark.y + 7}`} class="pic-line pic-go" />
          <circle cx={mark.mid} cy={mark.y} r={6} class="pic-go-fill" />
        </g>
      ) : null}
    </g>
  );
}

/** Into each region what it means, where it is widest. */
function regions(board: Board, field: Field, inside: [number, number][], outside: [number, number][]): void {
  const left = inside.map(([, y]): [number, number] => [field.left, y]);
  const right = outside.map(([, y]): [number, number] => [field.right, y]);
  for (const [text, a, b] of [
    [words.held, left, inside],
    [words.lost, outside, right],
    [words.edge, inside, outside],
  ] as [string, [number, number][], [number, number][]][]) {
    const rows = a
      .map((from, n) => ({ from, to: b[n] ?? from }))
      .sort((one, two) => two.to[0] - two.from[0] - (one.to[0] - one.from[0]));
    board.labels.put(text, rows.map(({ from, to }): [number, number, "middle"] => [(from[0] + to[0]) / 2, Math.min(Math.max(from[1], field.top + 14), field.bottom - 6), "middle"]), true);
  }
}

/** From the lowest share up, the reaction time at which a row falls under a level; 0 where it never reaches it. */
export function lastHeld(delays: readonly number[], row: readonly number[], level: number): number {
  if ((row[0] ?? 0) < level) return 0;
  for (let n = 1; n < delays.length; n += 1) {
    const [first, second] = [row[n - 1] ?? 0, row[n] ?? 0];
    const [before, after] = [delays[n - 1] ?? 0, delays[n] ?? 0];
    if (second < level) return before + ((first - level) / (first - second)) * (after - before);
  }
  return delays[delays.length - 1] ?? 0;
}
