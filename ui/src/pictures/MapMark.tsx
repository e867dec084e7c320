/** A place on the map that is moved by mouse, finger or arrow keys: 1 m, with Shift 10 m. */
import type { JSX } from "preact";
import { useRef } from "preact/hooks";
import type { MapHandle } from "./map_handles";

const WAYS: Record<string, [number, number]> = { ArrowUp: [0, 1], ArrowDown: [0, -1], ArrowLeft: [-1, 0], ArrowRight: [1, 0] };
const LEAST = 4; // px; less is a press, not a move

export function MapMark(props: {
  handle: MapHandle;
  at: [number, number];
  place: string;
  fixed: boolean;
  onMove: (dx: number, dy: number, letGo: boolean) => void; // px from where it stood at the grip
  onStep: (east: number, north: number) => void; // m
  onSeen: () => void; // the focus came to it
}): JSX.Element {
  const grip = useRef<[number, number] | null>(null);
  const far = useRef(false);
  const [x, y] = props.at;
  const shape = <Sign kind={props.handle.kind} x={x} y={y} />;
  if (props.fixed) return <g aria-label={props.place}>{shape}</g>;
  const follow = (event: PointerEvent, letGo: boolean): void => {
    if (!grip.current) return;
    const [dx, dy] = [event.clientX - grip.current[0], event.clientY - grip.current[1]];
    far.current ||= Math.hypot(dx, dy) >= LEAST;
    if (far.current) props.onMove(dx, dy, letGo);
    if (letGo) grip.current = null;
  };
  return (
    <g
      class="pic-drag pic-mark"
      tabindex={0} // in SVG its case is kept, and only lower case is heard
      role="button"
      aria-roledescription="place"
      aria-label={props.place}
      onPointerDown={(event) => {
        (event.currentTarget as Element).setPointerCapture?.(event.pointerId);
        grip.current = [event.clientX, event.clientY];
        far.current = false;
        (event.currentTarget as SVGGElement).focus?.({ preventScroll: true });
        event.preventDefault();
        event.stopPropagation();
      }}
      onPointerMove={(event) => follow(event, false)}
      onPointerUp={(event) => follow(event, true)}
      onPointerCancel={() => {
        grip.current = null;
        if (far.current) props.onMove(0, 0, false);
      }}
      onFocus={() => {
        if (!grip.current) props.onSeen();
      }}
      onKeyDown={(event) => {
        const way = WAYS[event.key];
        if (!way) return;
        event.preventDefault();
        event.stopPropagation();
        const step = event.shiftKey ? 10 : 1;
        props.onStep(way[0] * step, way[1] * step);
      }}
    >
      <circle cx={x} cy={y} r={22} fill="transparent" />
      {shape}
    </g>
  );
}

/** Datum: a cross in a ring. Account: a ring. Where a witness stood: a triangle. Corner: a square. Pass: a diamond. Lanes: a crossed square. */
function Sign({ kind, x, y }: { kind: MapHandle["kind"]; x: number; y: number }): JSX.Element {
  if (kind === "datum")
    return (
      <g>
        <circle cx={x} cy={y} r={7} class="pic-handle" />
        <path d={`M${x - 12},${y}H${x + 12}M${x},${y - 12}V${y + 12}`} class="pic-thin" />
      </g>
    );
  if (kind === "stood") return <path d={`M${x},${y - 9}L${x + 8},${y + 6}L${x - 8},${y + 6}Z`} class="pic-handle" />;
  if (kind === "corner") return <rect x={x - 6} y={y - 6} width={12} height={12} class="pic-handle" />;
  if (kind === "pass") return <path d={`M${x},${y - 8}L${x + 8},${y}L${x},${y + 8}L${x - 8},${y}Z`} class="pic-handle" />;
  if (kind === "lanes") return <path d={`M${x - 9},${y}H${x + 9}M${x},${y - 9}V${y + 9}M${x - 5},${y - 5}h10v10h-10Z`} class="pic-handle" />;
  return <circle cx={x} cy={y} r={7} class="pic-handle" />;
}
