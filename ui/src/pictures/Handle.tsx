/** A round mark that is moved by mouse, finger or arrow keys. */
import type { JSX } from "preact";
import { useRef } from "preact/hooks";

const KEYS: Record<string, [number, number]> = {
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
};
const STEP = 3; // px of a key press; ten times with Shift

/** onMove gets how far the mark was moved from where it stood at the grip, in px; done when the hand lets go. */
export function Handle(props: {
  x: number;
  y: number;
  label: string;
  value: number;
  onMove: (dx: number, dy: number, done: boolean) => void;
}): JSX.Element {
  const grip = useRef<[number, number] | null>(null);
  const move = (event: PointerEvent, done: boolean): void => {
    if (!grip.current) return;
    props.onMove(event.clientX - grip.current[0], event.clientY - grip.current[1], done);
    if (done) grip.current = null;
  };
  return (
    <g
      class="pic-drag"
      tabindex={0} // in SVG its case is kept, and only lower case is heard
      role="slider"
      aria-label={props.label}
      aria-valuemin={0}
      aria-valuemax={props.value * 10}
      aria-valuenow={props.value}
      aria-valuetext={props.label}
      onPointerDown={(event) => {
        (event.currentTarget as Element).setPointerCapture?.(event.pointerId);
        grip.current = [event.clientX, event.clientY];
        event.preventDefault();
        (event.currentTarget as SVGGElement).focus?.();
      }}
      onPointerMove={(event) => move(event, false)}
      onPointerUp={(event) => move(event, true)}
      onPointerCancel={() => {
        grip.current = null;
      }}
      onKeyDown={(event) => {
        const way = KEYS[event.key];
        if (!way) return;
        event.preventDefault();
        const step = STEP * (event.shiftKey ? 10 : 1);
        props.onMove(way[0] * step, way[1] * step, true);
      }}
    >
      <circle cx={props.x} cy={props.y} r={22} fill="transparent" />
      <circle cx={props.x} cy={props.y} r={7} class="pic-handle" />
    </g>
  );
}
