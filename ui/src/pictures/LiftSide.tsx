/** Surface, bottom, load, bags and the two strips to keep clear of, seen from the side, to scale. */
import type { JSX } from "preact";
import { pictures } from "../texts/pictures";
import { type Board, Picture, ScaleBar, path } from "./board";
import { DEPTH_ROOM, DepthAxis, barOf, fieldOf } from "./axes";
import { balloon } from "./shapes";
import { both, safe, safeBoth } from "./figures";
import type { Sketch, Units } from "./plan";

const words = pictures.lift;
const TOP = 48;
const FOOT = 44;
const STRIP = 9;

export function LiftSide(props: { sketch: Sketch; units: Units; tall?: number }): JSX.Element {
  const { sketch, units } = props;
  const reach = Math.max(sketch.surface_circle_m ?? 0, sketch.bottom_circle_m ?? 0);
  const told = reach > 0;
  return (
    <Picture
      title={`${words.sideTitle}. ${both(sketch.depth_m, "length", units)}.`}
      caption={told ? words.side : undefined}
      heightOf={(width) => props.tall ?? heightOf(sketch, width)}
      draw={(board) => drawSide(board, sketch, units)}
      table={{
        head: [words.what, words.where],
        rows: [
          [words.ground, both(sketch.depth_m, "length", units)],
          [words.keepClear(""), safeBoth(sketch.bottom_circle_m, "length", units, true)],
          [words.mayComeUp(""), safeBoth(sketch.surface_circle_m, "length", units, true)],
        ],
      }}
    />
  );
}

/** As tall as the widest circle lets the way up be drawn, so that nothing stays empty. */
function heightOf(sketch: Sketch, width: number): number {
  const half = (width - DEPTH_ROOM) / 2;
  const reach = Math.max(sketch.bottom_circle_m ?? 0, sketch.surface_circle_m ?? 0, sketch.depth_m / 8);
  return Math.min(Math.max((half / reach) * 0.96 * sketch.depth_m, 150), 340) + TOP + FOOT;
}

function drawSide(board: Board, sketch: Sketch, units: Units): JSX.Element {
  const { width, height, labels } = board;
  const depth = sketch.depth_m;
  const below = sketch.bottom_circle_m;
  const above = sketch.surface_circle_m;
  const room = { left: DEPTH_ROOM, top: TOP, right: width, bottom: height - FOOT };
  const half = (room.right - room.left) / 2;
  const tall = (room.bottom - room.top) / depth;
  const wide = half / Math.max(below ?? 0, above ?? 0, depth / 8);
  const scale = Math.max(Math.min(tall, wide * 0.96), tall * 0.6);
  const field = fieldOf({ ...room, bottom: room.top + depth * scale }, 1, depth);
  const middle = room.left + half;
  const bottom = field.bottom;
  const bar = barOf(scale, half * 0.6, units);
  if (above) {
    labels.put(words.mayComeUp(safe(above, "length", units, true)), [[middle, TOP - 18, "middle"]], true, true);
  }
  if (below) {
    labels.put(words.keepClear(safe(below, "length", units, true)), [[middle, bottom + 31, "middle"]], true, true);
  }
  return (
    <g>
      <rect x={room.left} y={room.top} width={half * 2} height={bottom - room.top} class="pic-sea" />
      <rect x={room.left} y={bottom} width={half * 2} height={12} class="pic-soil" />
      <rect x={room.left} y={bottom} width={half * 2} height={12} fill={board.hatch("ground")} />
      <DepthAxis field={field} deepest={depth} units={units} last />
      {above ? <Strip x={middle} y={room.top} reach={above * scale} half={half} thick={STRIP} fill={board.hatch("rise")} /> : null}
      {below ? <Strip x={middle} y={bottom} reach={below * scale} half={half} thick={-STRIP} fill={board.hatch("nogo")} /> : null}
      <path d={`M${room.left},${bottom}H${room.right}`} class="pic-firm" />
      <Chain sketch={sketch} x={middle} bottom={bottom} top={room.top} scale={scale} board={board} />
      <ScaleBar x={room.left + 8} y={(room.top + bottom) / 2} {...bar} />
    </g>
  );
}

function Strip(props: { x: number; y: number; reach: number; half: number; thick: number; fill: string }): JSX.Element {
  const { x, y, reach, half, thick } = props;
  const shown = Math.min(reach, half);
  const top = Math.min(y, y + thick);
  const ends = [-1, 1].map((side) => {
    const end = x + side * shown;
    return shown < reach
      ? `M${end - side * 7},${y - 5}L${end},${y}L${end - side * 7},${y + 5}`
      : `M${end},${y - thick * 0.5}V${y + thick * 1.5}`;
  });
  return (
    <g>
      <rect x={x - shown} y={top} width={shown * 2} height={Math.abs(thick)} class="pic-paper" />
      <rect x={x - shown} y={top} width={shown * 2} height={Math.abs(thick)} fill={props.fill} />
      <path d={ends.join("")} class="pic-firm" />
    </g>
  );
}

function Chain(props: { sketch: Sketch; x: number; bottom: number; top: number; scale: number; board: Board }): JSX.Element {
  const { sketch, x, bottom, scale, board } = props;
  const tall = (sketch.load?.height_m ?? 0.5) * scale;
  const long = (sketch.load?.length_m ?? 0.5) * scale;
  const top = bottom - tall;
  const ring = top - (sketch.strop_m ?? 0) * scale;
  const gas = sketch.bags.filter((bag) => bag.fill_share > 0);
  let left = x - gas.reduce((sum, bag) => sum + bag.width_m * scale, 0) / 2;
  if (sketch.line_to_surface) {
    board.labels.put(words.line(sketch.line_to_surface), [
      [x + 30, (props.top + ring) / 2, "start"],
      [x + 30, (props.top + ring) / 2 + 24, "start"],
    ]);
  }
  return (
    <g>
      {sketch.line_to_surface ? <path d={`M${x + long / 2},${top}L${x + long / 2 + 18},${props.top}`} class="pic-thin pic-dash" /> : null}
      <path d={`M${x},${top}V${ring}`} class="pic-thin" />
      {gas.map((bag) => {
        const wide = bag.width_m * scale;
        const at = left + wide / 2;
        left += wide;
        return <path key={bag.id} d={path(balloon(at, ring, wide, bag.height_m * scale), true)} class="pic-thin" style={{ fill: "var(--sheet)" }} />;
      })}
      <rect x={x - long / 2} y={top} width={Math.max(long, 2)} height={Math.max(tall, 2)} class="pic-ink" />
    </g>
  );
}
