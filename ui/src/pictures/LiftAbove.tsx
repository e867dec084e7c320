/** The circle on the bottom, the circle at the surface and the drift, seen from above, to one scale. */
import type { JSX } from "preact";
import { pictures } from "../texts/pictures";
import { barOf } from "./axes";
import { type Board, Picture, ScaleBar } from "./board";
import { safe, safeBoth } from "./figures";
import type { Circles, Sketch, Units } from "./plan";

const words = pictures.lift;
const EDGE = 12;
const HEAD = 30;
const FOOT = 52;

export function LiftAbove(props: { sketch: Sketch; circles: Circles | null; units: Units; tall?: number }): JSX.Element | null {
  const { sketch, circles, units } = props;
  const below = circles?.bottom_m ?? sketch.bottom_circle_m;
  const above = circles?.surface_m ?? sketch.surface_circle_m;
  if (!below && !above) return null;
  const drift = circles?.drift_towards_deg ?? null;
  return (
    <Picture
      title={words.aboveTitle}
      caption={words.above}
      heightOf={(width) => props.tall ?? Math.min(width * 0.92, 420)}
      draw={(board) => drawAbove(board, below, above, drift, units)}
      table={{
        head: [words.what, words.size],
        rows: [
          [words.bottom(""), safeBoth(below, "length", units, true)],
          [words.surface(""), safeBoth(above, "length", units, true)],
          [drift === null ? words.noDrift : words.drift(`${String(Math.round(drift)).padStart(3, "0")}°`), ""],
        ],
      }}
    />
  );
}

function drawAbove(board: Board, below: number | null, above: number | null, drift: number | null, units: Units): JSX.Element {
  const { width, height, labels } = board;
  const most = Math.max(below ?? 0, above ?? 0);
  const scale = Math.min(width - 2 * EDGE, height - HEAD - FOOT) / 2 / most;
  const x = width / 2;
  const y = HEAD + (height - HEAD - FOOT) / 2;
  if (above) labels.put(words.surface(safe(above, "length", units, true)), [[x, y - above * scale - 8, "middle"], [x, HEAD - 8, "middle"]], true, true);
  if (below) labels.put(words.bottom(safe(below, "length", units, true)), [[x, y - below * scale * 0.45, "middle"]], true, true);
  const text = drift === null ? words.noDrift : words.drift(`${String(Math.round(drift)).padStart(3, "0")}°`);
  labels.put(text, [[width - 4, height - 8, "end"]], false, true);
  const bar = barOf(scale, width * 0.3, units);
  return (
    <g>
      {above ? <circle cx={x} cy={y} r={above * scale} class="pic-sea" /> : null}
      {above ? <circle cx={x} cy={y} r={above * scale} fill={board.hatch("rise")} /> : null}
      {above ? <circle cx={x} cy={y} r={above * scale} class="pic-firm" /> : null}
      {below ? <circle cx={x} cy={y} r={below * scale} class="pic-paper" /> : null}
      {below ? <circle cx={x} cy={y} r={below * scale} fill={board.hatch("nogo")} /> : null}
      {below ? <circle cx={x} cy={y} r={below * scale} class="pic-firm pic-dash" /> : null}
      <circle cx={x} cy={y} r={4} class="pic-ink" />
      {drift === null ? null : <Arrow x={x} y={y} reach={most * scale} towards={drift} />}
      <ScaleBar x={6} y={height - 34} {...bar} />
    </g>
  );
}

function Arrow({ x, y, reach, towards }: { x: number; y: number; reach: number; towards: number }): JSX.Element {
  const turn = (towards * Math.PI) / 180;
  const tip = [x + Math.sin(turn) * reach, y - Math.cos(turn) * reach] as const;
  const barbs = [-0.5, 0.5].map((side) => {
    const back = turn + Math.PI + side;
    return `M${tip[0]},${tip[1]}L${tip[0] + 12 * Math.sin(back)},${tip[1] - 12 * Math.cos(back)}`;
  });
  return <path d={`M${x},${y}L${tip[0]},${tip[1]}${barbs.join("")}`} class="pic-line pic-go" />;
}
