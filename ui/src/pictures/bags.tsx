/** A bag on its ring: gas white with a firm outline, water hatched, an empty one hanging. */
import type { JSX } from "preact";
import { path } from "./board";
import { balloon, cutBelow } from "./shapes";

const NECK = 0.12;

export function Bag(props: {
  ring: readonly [number, number];
  x: number;
  width: number;
  height: number;
  share: number;
  water: string;
}): JSX.Element {
  const { ring, x, width, height, share } = props;
  const foot = ring[1] - height * NECK;
  const tall = height * (1 - NECK);
  const sling = <path d={`M${ring[0]},${ring[1]}L${x},${foot}`} class="pic-thin" />;
  if (share <= 0) {
    const loose = balloon(x, foot, width * 0.35, tall * 0.7);
    return (
      <g>
        {sling}
        <path d={path(loose, true)} class="pic-thin pic-paper" style={{ fill: "var(--paper)" }} />
      </g>
    );
  }
  const outline = balloon(x, foot, width, tall);
  const water = share < 1 ? cutBelow(outline, foot - tall * (1 - Math.min(share, 1))) : [];
  return (
    <g>
      {sling}
      <path d={path(outline, true)} class="pic-gas" />
      {water.length > 2 ? <path d={path(water, true)} class="pic-sea" /> : null}
      {water.length > 2 ? <path d={path(water, true)} fill={props.water} /> : null}
      <path d={path(outline, true)} class="pic-firm" />
    </g>
  );
}

export const crownOf = (ring: readonly [number, number], height: number, share: number): number =>
  ring[1] - height * NECK - height * (1 - NECK) * (share <= 0 ? 0.7 : 1);
