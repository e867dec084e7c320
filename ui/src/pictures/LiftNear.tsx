/** The load, its sling and its bags to scale, with the people who are beside them. */
import type { JSX } from "preact";
import { pictures } from "../texts/pictures";
import { DEPTH_ROOM, barOf } from "./axes";
import { Bag, crownOf } from "./bags";
import { type Board, Picture, ScaleBar } from "./board";
import { both, figures, one } from "./figures";
import { Handle } from "./Handle";
import type { Try } from "./labels";
import { Diver, Lines, Marks, Sling } from "./LiftNearParts";
import type { Sketch, SketchPerson, Units } from "./plan";

const words = pictures.lift;
const DIVER = 1.7; // with fins stretched out, m
const ASIDE = 0.5; // m
const HEAD = 62;
const FOOT = 46;
const NAME = 58; // from one bag's name to the next, px

/** A size that is tried for a bag: its litres, and whether the hand has let go. */
export type TryBag = { id: string; index: number; litres: number; done: boolean };

type Props = {
  sketch: Sketch;
  units: Units;
  tall?: number;
  litres?: Record<string, number>;
  weight_kg?: number | null;
  onTryBag?: (told: TryBag) => void;
  onTryWeight?: (kg: number, done: boolean) => void;
};

export function LiftNear(props: Props): JSX.Element {
  const { sketch, units } = props;
  const people = sketch.people.filter((person) => person.x_m !== null);
  const signs = [
    sketch.restraint ? words.restraint(sketch.restraint) : "",
    sketch.crown_line ? words.crown(sketch.crown_line) : "",
  ].filter(Boolean);
  const tries = [props.onTryBag && props.litres && sketch.bags.length ? words.drag : "", props.onTryWeight && props.weight_kg ? words.dragWeight : ""].filter(Boolean).join(" ");
  return (
    <Picture
      title={`${words.nearTitle}. ${people.map((person) => `${person.name}, ${person.role}, ${person.side ?? ""}`).join(". ")}`}
      caption={
        <>
          {[sketch.bags.length ? words.near : words.noBags, ...signs].join(" ")} {tries ? <span class="pic-hint">{tries}</span> : null}
        </>
      }
      live={Boolean(props.onTryBag || props.onTryWeight)}
      heightOf={(width) => props.tall ?? Math.min(Math.max(fit(sketch, width).scale * fit(sketch, width).up, 150), 400) + HEAD + FOOT}
      draw={(board) => drawNear(board, props)}
      table={{
        head: [words.what, words.where, words.size, words.fill],
        rows: [
          [words.load, both(sketch.depth_m, "length", units), `${one(sketch.load?.length_m, "length", units)} × ${one(sketch.load?.height_m, "length", units)}`, ""],
          ...sketch.bags.map((bag) => [
            bag.id,
            "",
            `${one(bag.width_m, "length", units)} × ${one(bag.height_m, "length", units)}`,
            bag.fill_share >= 1 ? words.full : bag.fill_share > 0 ? one(bag.fill_share, "share", units) : words.empty,
          ]),
          ...people.map((person) => [`${person.name}, ${person.role}`, `${person.side ?? ""}, ${both(person.depth_m, "length", units)}`, "", ""]),
        ],
      }}
    />
  );
}

/** Scale that fills the width, and how high the drawing reaches over the bottom, m. */
function fit(sketch: Sketch, width: number): { scale: number; up: number; left: number; right: number } {
  const people = sketch.people.filter((one): one is SketchPerson & { x_m: number; depth_m: number } => one.x_m !== null && one.depth_m !== null);
  const tall = sketch.load?.height_m ?? 0.5;
  const long = sketch.load?.length_m ?? 0.5;
  const span = sketch.bags.reduce((sum, bag) => sum + bag.width_m, 0);
  const crown = tall + (sketch.strop_m ?? 0) + Math.max(0, ...sketch.bags.map((bag) => bag.height_m));
  const up = Math.max(crown, ...people.map((one) => sketch.depth_m - one.depth_m + 0.3));
  const side = (sign: number): number =>
    Math.max(long / 2, span / 2, ...people.filter((one) => Math.sign(one.x_m || 1) === sign).map((one) => Math.abs(one.x_m) + DIVER));
  const [left, right] = [side(-1), side(1)];
  return { scale: (width - DEPTH_ROOM) / (left + right + ASIDE), up, left, right };
}

function drawNear(board: Board, props: Props): JSX.Element {
  const { sketch, units } = props;
  const { width, height, labels } = board;
  const bags = sketch.bags;
  const people = sketch.people.filter((one): one is SketchPerson & { x_m: number; depth_m: number } => one.x_m !== null && one.depth_m !== null);
  const depth = sketch.depth_m;
  const tall = sketch.load?.height_m ?? 0.5;
  const long = sketch.load?.length_m ?? 0.5;
  const strop = sketch.strop_m ?? 0;
  const span = bags.reduce((sum, bag) => sum + bag.width_m, 0);
  const { scale: filling, up, left, right } = fit(sketch, width);
  const room = width - DEPTH_ROOM;
  const scale = Math.min((height - FOOT - HEAD) / up, filling);
  const bottom = height - FOOT;
  const x = DEPTH_ROOM + (left + ASIDE / 2) * scale + Math.max((room - (left + right + ASIDE) * scale) / 2, 0);
  const top = bottom - tall * scale;
  const ring: [number, number] = [x, bottom - (tall + strop) * scale];
  let at = x - (span * scale) / 2;
  const placed = bags.map((bag) => {
    const wide = bag.width_m * scale;
    const middle = at + wide / 2;
    at += wide;
    return { bag, x: middle, wide, high: bag.height_m * scale, head: crownOf(ring, bag.height_m * scale, bag.fill_share) };
  });
  labels.keep([0, 0, DEPTH_ROOM, height]);
  labels.keep([0, bottom - 3, width, bottom + 13]);
  labels.keep([0, height - 18, DEPTH_ROOM + room * 0.35 + 50, height]);
  for (const one of placed) labels.keep([one.x - one.wide / 2, one.head, one.x + one.wide / 2, ring[1]]);
  labels.keep([x - (long * scale) / 2, ring[1], x + (long * scale) / 2, bottom]);
  const highest = Math.min(ring[1], ...placed.map((one) => one.head));
  const names = placed.map((one, n) => ({ one, x: x + NAME * (n - (placed.length - 1) / 2) }));
  for (const { one, x: at } of names) {
    const beside: [number, number, "start" | "end"] = one.x < x - 1 ? [x - (span * scale) / 2 - 22, one.head + 20, "end"] : [x + (span * scale) / 2 + 22, one.head + 20, "start"];
    labels.strings.push({ x1: one.x, y1: one.head + 2, x2: at, y2: highest - 9 });
    labels.put(one.bag.id, [[at, highest - 12, "middle"], beside], true, true);
  }
  const divers = people.map((person) => {
    const towards = person.x_m < 0 ? 1 : -1;
    const place: [number, number] = [x + person.x_m * scale, bottom - (depth - person.depth_m) * scale];
    const length = DIVER * scale;
    const feet = place[0] - towards * length;
    labels.keep([Math.min(place[0], feet), place[1] - 0.2 * scale, Math.max(place[0], feet), place[1] + 0.2 * scale]);
    return { person, place, towards: towards as 1 | -1, length };
  });
  for (const { person, place, towards, length } of divers) {
    const middle = place[0] - (towards * length) / 2;
    const body = 0.2 * scale;
    const tries: Try[] = [
      [middle, place[1] + body + 16, "middle"],
      [middle, place[1] - body - 6, "middle"],
      [towards > 0 ? DEPTH_ROOM + 2 : width - 2, place[1] + body + 16, towards > 0 ? "start" : "end"],
      [towards > 0 ? DEPTH_ROOM + 2 : width - 2, place[1] - body - 6, towards > 0 ? "start" : "end"],
    ];
    const long = person.side ? `${person.name}, ${person.side}` : person.name;
    if (!labels.put(long, tries, true)) labels.put(person.name, [...tries, [middle, bottom + 34, "middle"]], true, true);
  }
  const bar = barOf(scale, room * 0.35, units);
  return (
    <g>
      <rect x={DEPTH_ROOM} y={0} width={room} height={bottom} class="pic-sea" />
      <rect x={DEPTH_ROOM} y={bottom} width={room} height={12} class="pic-soil" />
      <rect x={DEPTH_ROOM} y={bottom} width={room} height={12} fill={board.hatch("ground")} />
      <path d={`M${DEPTH_ROOM},${bottom}H${width}`} class="pic-firm" />
      <Marks depth={depth} marks={[[bottom, 0], [ring[1], tall + strop]]} units={units} />
      <Lines sketch={sketch} ring={ring} bottom={bottom} scale={scale} width={width} crown={highest} />
      <Sling sketch={sketch} ring={ring} top={top} long={long * scale} board={board} />
      <rect x={x - (long * scale) / 2} y={top} width={long * scale} height={tall * scale} class="pic-paper" />
      <rect x={x - (long * scale) / 2} y={top} width={long * scale} height={tall * scale} fill={board.hatch("load")} />
      <rect x={x - (long * scale) / 2} y={top} width={long * scale} height={tall * scale} class="pic-firm" />
      {placed.map((one) => (
        <Bag key={one.bag.id} ring={ring} x={one.x} width={one.wide} height={one.high} share={one.bag.fill_share} water={board.hatch("water")} />
      ))}
      {divers.map(({ person, place, towards, length }) => (
        <Diver key={person.name} at={place} length={length} towards={towards} />
      ))}
      <ScaleBar x={DEPTH_ROOM + 6} y={height - 8} {...bar} />
      {props.onTryBag && props.litres
        ? names.map(({ one, x: at }, index) => {
            const litres = props.litres?.[one.bag.id];
            if (litres === undefined) return null;
            return <BagHandle key={one.bag.id} index={index} litres={litres} at={[at, highest - 38]} placed={one} props={props} />;
          })
        : null}
      {props.onTryWeight && props.weight_kg ? (
        <Handle
          x={x + (long * scale) / 2 + 18}
          y={bottom - 12}
          label={words.weight(one(props.weight_kg, "mass", units))}
          value={props.weight_kg}
          onMove={(dx, _dy, done) => props.onTryWeight?.(round(Math.max((props.weight_kg ?? 0) * (1 + dx / 120), 0.1)), done)}
        />
      ) : null}
    </g>
  );
}

/** The mark over a bag's name: pulled up it tries a larger bag, height and width alike, so litres go as the cube. */
function BagHandle({ index, litres, at, placed, props }: { index: number; litres: number; at: [number, number]; placed: { bag: { id: string }; high: number }; props: Props }): JSX.Element {
  const text = one(litres, "volume", props.units);
  return (
    <Handle
      x={at[0]}
      y={at[1]}
      label={words.bagSize(placed.bag.id, text)}
      value={litres}
      onMove={(_dx, dy, done) => {
        const times = Math.max(1 - dy / Math.max(placed.high, 20), 0.3);
        props.onTryBag?.({ id: placed.bag.id, index, litres: round(litres * times ** 3), done });
      }}
    />
  );
}

const round = (number: number): number => Number(figures(number, 2));
