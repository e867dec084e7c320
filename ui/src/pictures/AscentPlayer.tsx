/** The way up played in time: depth, rate against its ceiling, and the gas in each bag. */
import type { JSX } from "preact";
import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import { pictures } from "../texts/pictures";
import { AcrossAxis, DEPTH_ROOM, DepthAxis, fieldOf } from "./axes";
import { Bag } from "./bags";
import { type Board, Picture, path } from "./board";
import { THIN, both, duration, inUnits, one } from "./figures";
import type { LiftBag, Sketch, TraceRow, Units } from "./plan";
import { timeTicks } from "./scale";
import { at, dumps, fulls } from "./tracing";

const words = pictures.player;
const TOP = 34;
const FOOT = 44;
const SPEEDS = [1, 4, 16];

type Props = {
  trace: TraceRow[];
  traceOf?: string | null; // "under control" or "left alone"
  bags: LiftBag[];
  ceiling_m_min?: number | null;
  sketch?: Sketch | null;
  units?: Units;
};

export function AscentPlayer(props: Props): JSX.Element {
  const { trace, units = "metric" } = props;
  const end = trace[trace.length - 1]?.t_s ?? 0;
  const [t, setT] = useState(0);
  const [playing, setPlaying] = useState(false);
  const [times, setTimes] = useState(4);
  const still = useMemo(() => typeof matchMedia !== "undefined" && matchMedia("(prefers-reduced-motion: reduce)").matches, []);
  const seen = useMemo(() => dumps(trace), [trace]);
  const clock = useRef(0);
  useEffect(() => {
    setT(0);
    setPlaying(false);
  }, [trace]);
  useEffect(() => {
    if (!playing) return undefined;
    let last: number | null = null;
    const step = (now: number): void => {
      const passed = last === null ? 0 : ((now - last) / 1000) * times;
      last = now;
      setT((then) => {
        const next = Math.min(then + passed, end);
        if (next >= end) setPlaying(false);
        return next;
      });
      clock.current = requestAnimationFrame(step);
    };
    clock.current = requestAnimationFrame(step);
    return () => cancelAnimationFrame(clock.current);
  }, [playing, times, end]);
  const now = at(trace, t);
  if (!now || end <= 0) return <p class="pic-empty">{pictures.nothing}</p>;
  const every = Math.max(1, Math.floor(trace.length / 12));
  return (
    <Picture
      class="pic-player"
      title={words.title}
      caption={`${props.traceOf === "left alone" ? `${words.alone} ` : ""}${words.middle}`}
      heightOf={(width) => (width < 560 ? 680 : 400)}
      draw={(board) => drawMoment(board, props, now, seen, units)}
      below={
        <div class="pic-keys">
          {still ? (
            <span class="pic-note">{words.still}</span>
          ) : (
            <button
              type="button"
              onClick={() => {
                if (t >= end) setT(0);
                setPlaying(!playing);
              }}
            >
              {playing ? words.pause : t >= end ? words.again : words.play}
            </button>
          )}
          <label class="pic-slide">
            <span class="pic-unseen">{words.slider}</span>
            <input
              type="range"
              min={0}
              max={end}
              step={0.5}
              value={t}
              aria-valuetext={`${duration(now.t_s)}, ${both(now.depth_m, "length", units)}`}
              onInput={(event) => {
                setPlaying(false);
                setT(Number(event.currentTarget.value));
              }}
            />
          </label>
          {still ? null : (
            <label>
              {words.speed}{" "}
              <select value={String(times)} onChange={(event) => setTimes(Number(event.currentTarget.value))}>
                {SPEEDS.map((one) => (
                  <option key={one} value={String(one)}>
                    {one === 1 ? words.realTime : words.faster(one)}
                  </option>
                ))}
              </select>
            </label>
          )}
        </div>
      }
      table={{
        head: [...words.columns],
        rows: trace
          .filter((_, n) => n % every === 0 || n === trace.length - 1)
          .map((row) => [
            duration(row.t_s),
            both(row.depth_m, "length", units),
            one(row.speed_m_s, "rise", units),
            Object.entries(row.bag_volumes_l)
              .map(([id, litres]) => `${id} ${one(litres, "volume", units)}`)
              .join(", "),
          ]),
      }}
    />
  );
}

/** To the tenth, with its sign: it moves about zero. */
function tenth(kg: number, units: Units): string {
  const [number, unit] = inUnits(kg, "mass", units);
  const text = Math.abs(number).toFixed(1);
  return `${number < 0 && text !== "0.0" ? "−" : ""}${text}${THIN}${unit}`;
}

function drawMoment(board: Board, props: Props, now: TraceRow, seen: ReturnType<typeof dumps>, units: Units): JSX.Element {
  const { width, height } = board;
  const narrow = width < 560;
  const trace = props.trace;
  const deepest = Math.max(1, ...trace.map((row) => row.depth_m));
  const end = Math.max(1, trace[trace.length - 1]?.t_s ?? 1);
  const field = fieldOf(
    { left: DEPTH_ROOM, top: TOP, right: narrow ? width - 12 : width * 0.6, bottom: narrow ? 300 : height - FOOT },
    end,
    deepest,
  );
  const done = trace.filter((row) => row.t_s <= now.t_s).map((row): [number, number] => [field.x(row.t_s), field.y(row.depth_m)]);
  const first = seen[Math.min(2, seen.length - 1)];
  const full = fulls(trace, Object.fromEntries(props.bags.map((bag) => [bag.id, bag.really_l.likely])));
  for (const row of full) {
    const [x, y] = [field.x(row.t_s), field.y(row.depth_m)];
    board.labels.put(words.full(row.bag, one(row.depth_m, "length", units)), [[x - 12, y - 4, "end"], [x - 12, y + 16, "end"], [x + 12, y + 20, "start"]], true);
  }
  const here: [number, number] = [field.x(now.t_s), field.y(now.depth_m)];
  const panel = narrow
    ? { left: 4, right: width - 8, top: 352, bottom: height - 4 }
    : { left: width * 0.6 + 34, right: width - 6, top: TOP - 14, bottom: height - 8 };
  return (
    <g>
      <rect x={field.left} y={field.top} width={field.right - field.left} height={field.bottom - field.top} class="pic-sea" />
      <DepthAxis field={field} deepest={deepest} units={units} />
      <AcrossAxis field={field} marks={timeTicks(end, narrow ? 4 : 5)} />
      <path d={path(trace.map((row): [number, number] => [field.x(row.t_s), field.y(row.depth_m)]))} class="pic-hair" />
      <path d={path([...done, here])} class="pic-line pic-go" />
      {seen.map((row) => (
        <path key={`${row.t_s}${row.bag}`} d={`M${field.x(row.t_s)},${field.y(row.depth_m)}v9`} class={row.t_s <= now.t_s ? "pic-firm" : "pic-hair"} />
      ))}
      {full.map((row) => (
        <circle key={row.bag} cx={field.x(row.t_s)} cy={field.y(row.depth_m)} r={4.5} class="pic-firm" style={{ fill: "var(--paper)" }} />
      ))}
      {first ? (
        <text x={field.x(first.t_s) + 4} y={Math.min(field.y(first.depth_m) + 26, field.bottom - 5)} class="pic-word">
          {words.dump}
        </text>
      ) : null}
      <path d={`M${field.left},${here[1]}H${here[0]}`} class="pic-hair pic-dash" />
      <circle cx={here[0]} cy={here[1]} r={7} class="pic-go-fill" />
      <Panel panel={panel} board={board} props={props} now={now} units={units} narrow={narrow} />
    </g>
  );
}

function Panel(props: {
  panel: { left: number; right: number; top: number; bottom: number };
  board: Board;
  props: Props;
  now: TraceRow;
  units: Units;
  narrow: boolean;
}): JSX.Element {
  const { panel, now, units, board } = props;
  const { bags, ceiling_m_min, sketch } = props.props;
  const rate = now.speed_m_s * 60;
  const most = Math.max(ceiling_m_min ?? 0, ...props.props.trace.map((row) => row.speed_m_s * 60)) * 1.1 || 1;
  const wide = panel.right - panel.left;
  const barTop = panel.top + 66;
  const bar = (value: number): number => panel.left + (Math.max(value, 0) / most) * wide;
  const over = ceiling_m_min !== null && ceiling_m_min !== undefined && rate > ceiling_m_min + 1e-9;
  const filled = bags.filter((bag) => now.bag_volumes_l[bag.id] !== undefined);
  const floor = panel.bottom - 26;
  const room = floor - (barTop + (now.surplus_kg === undefined ? 64 : 82));
  const heights = filled.map((bag) => sketch?.bags.find((one) => one.id === bag.id)?.height_m ?? bag.height_m ?? 0.6);
  const widths = filled.map((bag, n) => sketch?.bags.find((one) => one.id === bag.id)?.width_m ?? (heights[n] ?? 0.6) * 0.35);
  const scale = Math.min((room - 8) / Math.max(0.2, ...heights), (wide / Math.max(filled.length, 1)) * 0.6 / Math.max(0.1, ...widths));
  return (
    <g>
      <text x={panel.left} y={panel.top + 18} class="pic-word pic-large">
        {one(now.depth_m, "length", units)}
      </text>
      <text x={panel.right} y={panel.top + 18} text-anchor="end" class="pic-word pic-large">
        {duration(now.t_s)}
      </text>
      <text x={panel.left} y={panel.top + 48} class={over ? "pic-word pic-bold pic-alarm-fill" : "pic-word pic-bold"}>
        {`${words.rate} ${one(now.speed_m_s, "rise", units)}`}
        {over ? `: ${words.over}` : ""}
      </text>
      <rect x={panel.left} y={barTop - 8} width={wide} height={12} class="pic-thin" />
      <rect x={panel.left} y={barTop - 8} width={Math.max(bar(rate) - panel.left, 0)} height={12} class={over ? "pic-alarm-fill" : "pic-ink"} />
      {ceiling_m_min ? (
        <g>
          <path d={`M${bar(ceiling_m_min)},${barTop - 14}V${barTop + 10}`} class="pic-line" />
          <text x={Math.max(Math.min(bar(ceiling_m_min), panel.right - 54), panel.left + 54)} y={barTop + 26} text-anchor="middle" class="pic-word">
            {words.ceiling(one(ceiling_m_min, "rate", units))}
          </text>
        </g>
      ) : null}
      {now.surplus_kg === undefined ? null : (
        <text x={panel.left} y={barTop + 50} class="pic-word">
          {words.surplus(tenth(now.surplus_kg, units))}
        </text>
      )}
      {filled.map((bag, n) => {
        const litres = now.bag_volumes_l[bag.id] ?? 0;
        const share = Math.min(litres / bag.really_l.likely, 1);
        const x = panel.left + (wide * (n + 0.5)) / filled.length;
        const high = (heights[n] ?? 0.6) * scale;
        return (
          <g key={bag.id}>
            <Bag ring={[x, floor]} x={x} width={(widths[n] ?? 0.2) * scale} height={high} share={share >= 0.999 ? 1 : Math.max(share, 0.01)} water={board.hatch("water")} />
            <text x={x} y={floor + 20} text-anchor="middle" class="pic-word">
              {`${bag.id} ${one(litres, "volume", units)}`}
            </text>
          </g>
        );
      })}
    </g>
  );
}
