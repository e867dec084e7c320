/** Axes: depth downward in metres and feet, and what runs across. */
import type { JSX } from "preact";
import { inUnits, one, other, oneOf, unitOf, THIN, figures } from "./figures";
import { TYPE, type Labels } from "./labels";
import type { Units } from "./plan";
import { niceStep } from "./scale";

export type Field = {
  left: number;
  top: number;
  right: number;
  bottom: number;
  x: (value: number) => number;
  y: (value: number) => number;
};

export function fieldOf(
  box: { left: number; top: number; right: number; bottom: number },
  widest: number,
  deepest: number,
): Field {
  const across = (box.right - box.left) / Math.max(widest, 1e-9);
  const down = (box.bottom - box.top) / Math.max(deepest, 1e-9);
  return { ...box, x: (value) => box.left + value * across, y: (value) => box.top + value * down };
}

/** Room that the depths need at the left, px. */
export const DEPTH_ROOM = 62;
const APART = 42;

/** Depths in the chosen unit, the other unit under each; the surface is a firm line. */
export function DepthAxis(props: {
  field: Field;
  deepest: number;
  units: Units;
  last?: boolean; // tick the deepest depth itself
  surface?: boolean;
}): JSX.Element {
  const { field, deepest, units } = props;
  const [shown] = inUnits(deepest, "length", units);
  let step = niceStep(shown / 3) * oneOf("length", units);
  while (field.y(step) - field.y(0) < APART) step *= 2;
  const marks: number[] = [];
  for (let n = 0; n * step <= deepest + 1e-9; n += 1) marks.push(n * step);
  const kept = props.last ? [...marks.filter((mark) => field.y(deepest) - field.y(mark) >= APART), deepest] : marks;
  return (
    <g aria-hidden="true">
      <path d={`M${field.left},${field.top}V${field.bottom}`} class="pic-thin" />
      {props.surface === false ? null : <path d={`M${field.left},${field.y(0)}H${field.right}`} class="pic-firm" />}
      {kept.map((mark) => (
        <g key={mark}>
          {mark > 0 ? <path d={`M${field.left},${field.y(mark)}H${field.right}`} class="pic-grid" /> : null}
          <path d={`M${field.left - 5},${field.y(mark)}H${field.left}`} class="pic-thin" />
          <text x={field.left - 8} y={field.y(mark) + 5} text-anchor="end" class="pic-word">
            {one(mark, "length", units, 3)}
          </text>
          {mark > 0 ? (
            <text x={field.left - 8} y={field.y(mark) + 21} text-anchor="end" class="pic-word pic-quiet">
              {one(mark, "length", other(units))}
            </text>
          ) : null}
        </g>
      ))}
    </g>
  );
}

/** What runs across, at the foot; the last tick gives way to the name of the axis. */
export function AcrossAxis(props: {
  field: Field;
  marks: { at: number; text: string }[];
  name?: string;
  grid?: boolean;
}): JSX.Element {
  const { field, marks, name } = props;
  const y = field.bottom;
  return (
    <g aria-hidden="true">
      <path d={`M${field.left},${y}H${field.right}`} class="pic-thin" />
      {marks.map((mark) => (
        <g key={mark.at}>
          {props.grid && mark.at > 0 ? <path d={`M${field.x(mark.at)},${field.top}V${y}`} class="pic-grid" /> : null}
          <path d={`M${field.x(mark.at)},${y}v5`} class="pic-thin" />
          <text x={field.x(mark.at)} y={y + 5 + TYPE} text-anchor={mark.at === 0 ? "start" : field.right - field.x(mark.at) < 14 ? "end" : "middle"} class="pic-word">
            {mark.text}
          </text>
        </g>
      ))}
      {name ? (
        <text x={field.right} y={y + 7 + TYPE * 2.1} text-anchor="end" class="pic-word pic-quiet">
          {name}
        </text>
      ) : null}
    </g>
  );
}

/** Keep the axes' room free of words. */
export function keepAxes(labels: Labels, field: Field): void {
  labels.keep([0, 0, field.left - 1, labels.height]);
  labels.keep([0, field.bottom, labels.width, labels.height]);
}

/** A length for a scale bar that fits, and its text. */
export function barOf(scale: number, room: number, units: Units): { length: number; text: string } {
  const [shown] = inUnits(room / Math.max(scale, 1e-9), "length", units);
  const step = niceStep(shown);
  return { length: step * oneOf("length", units) * scale, text: `${figures(step)}${THIN}${unitOf("length", units)}` };
}
