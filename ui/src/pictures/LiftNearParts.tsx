/** Parts of the drawing near the load: depths, sling, lines, divers. */
import type { JSX } from "preact";
import { DEPTH_ROOM } from "./axes";
import type { Board } from "./board";
import { THIN, inUnits, one, other } from "./figures";
import type { Sketch, Units } from "./plan";
import { diver } from "./shapes";

/** A depth to the tenth: nobody sounds closer. */
function tenth(metres: number, units: Units): string {
  const [number, unit] = inUnits(metres, "length", units);
  return `${number.toFixed(1).replace(/\.0$/, "")}${THIN}${unit}`;
}

export function Marks({ depth, marks, units }: { depth: number; marks: [number, number][]; units: Units }): JSX.Element {
  return (
    <g aria-hidden="true">
      {marks.map(([y, above]) => (
        <g key={y}>
          <path d={`M${DEPTH_ROOM - 5},${y}H${DEPTH_ROOM}`} class="pic-thin" />
          <text x={DEPTH_ROOM - 8} y={y + 5} text-anchor="end" class="pic-word">
            {tenth(depth - above, units)}
          </text>
          <text x={DEPTH_ROOM - 8} y={y + 21} text-anchor="end" class="pic-word pic-quiet">
            {one(depth - above, "length", other(units))}
          </text>
        </g>
      ))}
    </g>
  );
}

export function Sling(props: { sketch: Sketch; ring: readonly [number, number]; top: number; long: number; board: Board }): JSX.Element {
  const { ring, top, long, sketch } = props;
  if (sketch.sling_angle_deg === null) return <path d={`M${ring[0]},${ring[1]}V${top}`} class="pic-firm" />;
  const angle = Math.round(sketch.sling_angle_deg);
  props.board.labels.put(`${angle}°`, [
    [ring[0] + long / 2 + 8, (ring[1] + top) / 2, "start"],
    [ring[0] - long / 2 - 8, (ring[1] + top) / 2, "end"],
  ]);
  return <path d={`M${ring[0] - long / 2},${top}L${ring[0]},${ring[1]}L${ring[0] + long / 2},${top}`} class="pic-firm" />;
}

export function Lines(props: { sketch: Sketch; ring: readonly [number, number]; bottom: number; scale: number; width: number; crown: number }): JSX.Element {
  const { sketch, ring, bottom, scale } = props;
  return (
    <g>
      {sketch.restraint ? <path d={`M${ring[0]},${(ring[1] + bottom) / 2}L${ring[0] + 1.2 * scale},${bottom}`} class="pic-firm pic-dash" /> : null}
      {sketch.crown_line ? (
        <path d={`M${ring[0]},${props.crown}L${ring[0] + 0.5 * scale},${ring[1]}L${ring[0] + 3},${bottom - 5}`} class="pic-thin pic-dot" />
      ) : null}
      {sketch.line_to_surface ? (
        <path d={`M${ring[0] + 0.1 * scale},${bottom - 0.2 * scale}L${Math.min(ring[0] + 0.9 * scale, props.width)},0`} class="pic-hair pic-dash" />
      ) : null}
    </g>
  );
}

export function Diver({ at, length, towards }: { at: [number, number]; length: number; towards: 1 | -1 }): JSX.Element {
  const drawn = diver(at[0], at[1], length, towards);
  const [x, y, r] = drawn.head;
  return (
    <g>
      <path d={drawn.tank} class="pic-thin" style={{ fill: "var(--paper)" }} />
      <path d={drawn.legs} class="pic-ink-line" style={{ strokeWidth: `${Math.max(length * 0.05, 1.5)}px` }} />
      <path d={drawn.fins} class="pic-ink" />
      <path d={drawn.body} class="pic-ink" />
      <circle cx={x} cy={y} r={Math.max(r, 3)} class="pic-thin" style={{ fill: "var(--paper)" }} />
    </g>
  );
}
