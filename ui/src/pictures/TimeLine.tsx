/** The dives' tasks against the stream's window, slack, daylight and the latest time off the bottom. */
import type { JSX } from "preact";
import { pictures } from "../texts/pictures";
import { type Board, Picture } from "./board";
import { limits } from "./diving";
import { clock, clockOf, dayOf } from "./figures";
import type { Dive, Units } from "./plan";

const words = pictures.times;
const LANE = 122;
const HEAD = 30;
const DAY = LANE + HEAD + 42; // one dive with its words
const STEPS = [5, 10, 15, 20, 30, 60, 120, 180, 240];

export function TimeLine(props: { dives: Dive[] | null | undefined; daylight_until?: string | null; units?: Units }): JSX.Element {
  const dives = (props.dives ?? []).filter((dive) => minutesOf(dive.start) !== null);
  if (!dives.length) return <p class="pic-empty">{words.none}</p>;
  const rows = dives.flatMap((dive) => pieces(dive).map((one) => [dive.label, one.name, clockOf(one.from), clockOf(one.to)]));
  const more = dives.flatMap((dive) => [
    ...(dive.window?.opens && dive.window.closes ? [[dive.label, words.window("", ""), clock(dive.window.opens.likely), clock(dive.window.closes.likely)]] : []),
    ...limits(dive).map((one) => [dive.label, `${words.noStop("")}, ${pictures.exposure[one.name]}`, clockOf((minutesOf(dive.start) ?? 0) + Math.floor(one.at)), ""]),
    ...(dive.latest_leave_bottom ? [[dive.label, words.latest(""), clock(dive.latest_leave_bottom), ""]] : []),
  ]);
  return (
    <Picture
      title={words.title}
      caption={`${words.caption}${dives.some((dive) => dive.window?.opens) ? ` ${words.hatched}` : ""}`}
      heightOf={() => dives.length * DAY}
      draw={(board) => (
        <g>
          {dives.map((dive, n) => (
            <Day key={dive.label} dive={dive} top={n * DAY} board={board} light={props.daylight_until ?? null} />
          ))}
        </g>
      )}
      below={
        <ol class="pic-unnumbered">
          {dives.map((dive) => (
            <li key={dive.label}>
              {dive.label}: {dive.tasks.map((task, n) => `${n + 1} ${task.does}`).join(", ")}
            </li>
          ))}
        </ol>
      }
      table={{ head: [...words.columns], rows: [...rows, ...more] }}
    />
  );
}

/** Minutes of the written day; the clock is that of the site, whatever zone this machine is in. */
export function minutesOf(iso: string | null | undefined): number | null {
  const told = iso?.match(/T(\d\d):(\d\d)/);
  return told ? Number(told[1]) * 60 + Number(told[2]) : null;
}

/** Way down, tasks and way up one after the other, likely lengths. */
export function pieces(dive: Dive): { name: string; from: number; to: number; n: number | null }[] {
  const start = minutesOf(dive.start) ?? 0;
  const work = dive.tasks.reduce((sum, task) => sum + task.min.likely, 0);
  let now = start + Math.max(dive.bottom_time_min.likely - work, 0);
  const rows: { name: string; from: number; to: number; n: number | null }[] = [{ name: words.down, from: start, to: now, n: null }];
  dive.tasks.forEach((task, n) => {
    rows.push({ name: task.does, from: now, to: now + task.min.likely, n: n + 1 });
    now += task.min.likely;
  });
  rows.push({ name: words.wayUp, from: now, to: now + dive.way_up_min.likely, n: null });
  return rows.filter((row) => row.to > row.from);
}

function Day({ dive, top, board, light }: { dive: Dive; top: number; board: Board; light: string | null }): JSX.Element {
  const { width, labels } = board;
  const rows = pieces(dive);
  const start = minutesOf(dive.start) ?? 0;
  const end = rows[rows.length - 1]?.to ?? start;
  const longest = start + dive.bottom_time_min.high + dive.way_up_min.high;
  const window = dive.window;
  const told = [window?.opens?.low, window?.opens?.high, window?.closes?.low, window?.closes?.high].map(minutesOf).filter((one): one is number => one !== null);
  const latest = minutesOf(dive.latest_leave_bottom);
  const dark = light && dive.start && light.slice(0, 10) === dive.start.slice(0, 10) ? minutesOf(light) : null;
  const [limit] = limits(dive);
  const stop = limit ? start + Math.floor(limit.at) : null; // still without a stop when it leaves the bottom by then
  const near = [latest, dark].filter((one): one is number => one !== null && one - longest < 90);
  const from = Math.min(start, ...told) - 6;
  const soon = stop !== null && stop - longest < 45 ? stop : null;
  const to = Math.max(longest, ...told, ...near, soon ?? 0) + 8;
  const x = (minute: number): number => 2 + ((minute - from) / (to - from)) * (width - 4);
  const step = STEPS.find((one) => ((to - from) / one) * 62 <= width) ?? 240;
  const first = Math.ceil(from / step) * step;
  const marks = Array.from({ length: Math.max(0, Math.floor((to - first) / step) + 1) }, (_, n) => first + n * step);
  const bar = top + HEAD + 26;
  const foot = bar + 58;
  const far = [latest !== null && !near.includes(latest) ? words.latest(clockOf(latest)) : "", dark !== null && !near.includes(dark) ? words.light(clockOf(dark)) : "", stop !== null && soon === null ? words.noStop(clockOf(stop)) : ""].filter(Boolean);
  labels.keep([0, bar - 2, width, bar + 24]);
  labels.keep([0, foot, width, foot + 24]);
  labels.keep([0, top, width, top + 24]);
  for (const row of [...rows].sort((a, b) => Number(a.n === null) - Number(b.n === null))) {
    const middle = x((row.from + row.to) / 2);
    labels.put(row.n === null ? row.name : String(row.n), [[middle, bar + 42, "middle"]]);
  }
  if (window?.opens && window.closes) {
    const opens = x(minutesOf(window.opens.likely) ?? from);
    const closes = x(minutesOf(window.closes.likely) ?? to);
    labels.put(words.window(clock(window.opens.likely), clock(window.closes.likely)), [[(opens + closes) / 2, bar - 7, "middle"], [opens, bar - 7, "start"], [width - 2, bar - 7, "end"], [2, bar - 7, "start"]], true);
  } else labels.put(words.noWindow, [[width - 2, bar - 7, "end"]]);
  const slack = minutesOf(window?.slack?.likely);
  if (slack !== null) labels.put(words.slack(clockOf(slack)), [[x(slack) + 5, foot - 6, "start"], [x(slack) - 5, foot - 6, "end"], [x(slack), foot - 6, "middle"]]);
  const under = (minute: number): [number, number, "start" | "middle" | "end"][] =>
    [42, 61].flatMap((down): [number, number, "start" | "middle" | "end"][] => [
      [x(minute) - 5, foot + down, "end"],
      [x(minute), foot + down, "middle"],
      [x(minute) + 5, foot + down, "start"],
    ]);
  for (const minute of near) {
    const text = minute === latest ? words.latest(clockOf(minute)) : words.light(clockOf(minute));
    labels.put(text, [[x(minute) - 5, foot - 6, "end"], ...under(minute)], true, true);
  }
  if (soon !== null) labels.put(words.noStop(clockOf(soon)), [[x(soon) - 5, foot - 6, "end"], [x(soon) + 5, foot - 6, "start"], ...under(soon)], false, true);
  if (far.length && width <= 560) for (const text of far) labels.put(text, [[2, foot + 42, "start"], [width - 2, foot + 42, "end"], [2, foot + 61, "start"], [width - 2, foot + 61, "end"]], false, true);
  return (
    <g aria-hidden="true">
      <text x={2} y={top + 18} class="pic-word pic-bold">
        {`${dive.label}, ${dayOf(dive.start)}`}
      </text>
      {width > 560 ? (
        <text x={width - 2} y={top + 18} text-anchor="end" class="pic-word pic-quiet">
          {far.join(", ")}
        </text>
      ) : null}
      <Stream window={window} x={x} from={from} to={to} top={bar - 2} height={foot - bar + 2} board={board} />
      {rows.map((row, n) => (
        <g key={n}>
          <rect x={x(row.from)} y={bar + (row.n === null ? 7 : 0)} width={Math.max(x(row.to) - x(row.from), 1)} height={row.n === null ? 8 : 22} class={row.n === null ? "pic-thin" : "pic-ink"} />
          {row.n !== null ? <rect x={x(row.from)} y={bar} width={x(row.to) - x(row.from)} height={22} class="pic-parted" /> : null}
        </g>
      ))}
      <path d={`M${x(end)},${bar + 11}H${x(longest)}M${x(longest)},${bar + 4}V${bar + 18}`} class="pic-thin" />
      {slack !== null ? <path d={`M${x(slack)},${bar - 2}V${foot}`} class="pic-firm pic-dash" /> : null}
      {soon !== null ? <path d={`M${x(soon)},${bar - 2}V${foot}`} class="pic-firm pic-dot" /> : null}
      {near.map((minute) => (
        <path key={minute} d={`M${x(minute)},${bar - 6}V${foot + 4}`} class="pic-line pic-go" />
      ))}
      <path d={`M2,${foot}H${width - 2}`} class="pic-thin" />
      {marks.map((minute) => (
        <g key={minute}>
          <path d={`M${x(minute)},${foot}v5`} class="pic-thin" />
          <text x={Math.min(Math.max(x(minute), 20), width - 20)} y={foot + 20} text-anchor="middle" class="pic-word">
            {clockOf(minute)}
          </text>
        </g>
      ))}
    </g>
  );
}

/** Water tint while the stream is under the limit; hatched where slack's error leaves it open; ground tint outside. */
function Stream(props: { window: Dive["window"]; x: (minute: number) => number; from: number; to: number; top: number; height: number; board: Board }): JSX.Element | null {
  const { window, x, top, height } = props;
  if (!window?.opens || !window.closes) return null;
  const [a, b, c, d] = [window.opens.low, window.opens.high, window.closes.low, window.closes.high].map((iso) => x(minutesOf(iso) ?? props.from));
  const [one, two, three, four] = [a ?? 0, b ?? 0, c ?? 0, d ?? 0];
  const ends: [number, number][] = [
    [x(props.from), one],
    [four, x(props.to)],
  ];
  return (
    <g>
      <rect x={one} y={top} width={Math.max(four - one, 0)} height={height} class="pic-sea" />
      {[
        [one, Math.min(two, four)],
        [Math.max(three, one), four],
      ].map(([left = 0, right = 0], n) => (
        <rect key={n} x={left} y={top} width={Math.max(right - left, 0)} height={height} fill={props.board.hatch("rise")} />
      ))}
      {ends.map(([left, right], n) => (
        <rect key={`e${n}`} x={left} y={top} width={Math.max(right - left, 0)} height={height} fill={props.board.hatch("nogo")} />
      ))}
      <path d={`M${x(minutesOf(window.opens.likely) ?? 0)},${top}v${height}M${x(minutesOf(window.closes.likely) ?? 0)},${top}v${height}`} class="pic-thin" />
    </g>
  );
}
