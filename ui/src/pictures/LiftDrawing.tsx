/** The lift to scale: from the side, near the load, and from above. */
import type { JSX } from "preact";
import { pictures } from "../texts/pictures";
import { LiftAbove } from "./LiftAbove";
import { LiftNear, type TryBag } from "./LiftNear";
import { LiftSide } from "./LiftSide";
import { useWidth } from "./board";
import type { Circles, Sketch, Units } from "./plan";

export type { TryBag } from "./LiftNear";

/** Three drawings; onTryBag is told, while a bag's mark is dragged or moved by keys, which size is tried. */
export function LiftDrawing(props: {
  sketch: Sketch | null | undefined;
  circles?: Circles | null;
  units?: Units;
  name?: string;
  litres?: Record<string, number>; // size of each bag, l
  weight_kg?: number | null; // likely weight in water
  onTryBag?: (told: TryBag) => void;
  onTryWeight?: (kg: number, done: boolean) => void;
}): JSX.Element {
  const { sketch, circles = null, units = "metric" } = props;
  const [place, width] = useWidth();
  if (!sketch?.depth_m) return <p class="pic-empty">{pictures.nothing}</p>;
  const tall = width >= 640 ? Math.min(width * 0.42, 380) : undefined;
  const reach = sketch.bottom_circle_m || sketch.surface_circle_m || circles?.bottom_m || circles?.surface_m;
  return (
    <div ref={place} class={width >= 640 && reach ? "pic-pair" : "pic-stack"}>
      <LiftNear
        sketch={sketch}
        units={units}
        litres={props.litres}
        weight_kg={props.weight_kg}
        onTryBag={props.onTryBag}
        onTryWeight={props.onTryWeight}
      />
      <LiftSide sketch={sketch} units={units} tall={tall} />
      <LiftAbove sketch={sketch} circles={circles} units={units} tall={tall} />
    </div>
  );
}
