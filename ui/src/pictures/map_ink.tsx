/** The ink of the map: chances, accounts, lanes in their order, what was covered and what is closed. */
import type { ComponentChildren, JSX } from "preact";
import { pictures } from "../texts/pictures";
import type { Board } from "./board";
import { path } from "./board";
import { one } from "./figures";
import { ringOf } from "./geo";
import type { Leg, Place, Search, Units } from "./plan";
import type { View } from "./map_view";

const words = pictures.map;
const STROKES = ["pic-line", "pic-firm", "pic-thin", "pic-hair"];

export function legPlaces(leg: Leg): [number, number][] {
  if (leg.ring) return ringOf(leg.ring.centre, leg.ring.radius_m, leg.ring.from_deg, leg.ring.to_deg);
  return [leg.from, leg.to];
}

/** All places that the map must hold. */
export function placesOf(search: Search): Place[] {
  const rings = search.contours.flatMap((row) => row.rings.flat());
  const lanes = (search.best?.legs ?? []).flatMap(legPlaces);
  const area = search.area ?? [];
  const passes = (search.passes ?? []).flatMap((row) => [...(row.legs ?? []).flatMap(legPlaces), ...(row.places ?? [])]);
  const seen = [...rings, ...lanes, ...area, ...passes];
  return seen.length ? seen : [...search.dots];
}

export function Ink(props: { search: Search; view: View; board: Board; units: Units; swath: boolean; ghost?: Leg[]; tints?: boolean; children?: ComponentChildren }): JSX.Element {
  const { search, view, board } = props;
  const at = (places: readonly Place[]): [number, number][] => places.map(view.at);
  const contours = [...search.contours].sort((a, b) => a.share - b.share);
  const lanes = (search.best?.legs ?? []).map((leg) => ({ leg, points: at(legPlaces(leg)) }));
  const width = search.sweep_width_m?.likely ?? 0;
  return (
    <g>
      {(search.closed ?? []).map((outline, n) => (
        <g key={`c${n}`}>
          <path d={path(at(outline), true)} fill={board.hatch("nogo")} />
          <path d={path(at(outline), true)} class="pic-thin" />
        </g>
      ))}
      {props.tints ? contours.map((row, n) => <path key={`t${n}`} d={row.rings.map((ring) => path(at(ring), true)).join("")} class="pic-tint" />) : null}
      {search.area && search.area.length > 2 ? <path d={path(at(search.area), true)} class="pic-firm pic-dash" /> : null}
      {props.swath && width
        ? lanes.filter(({ leg }) => leg.kind !== "shift").map(({ points }, n) => <path key={`s${n}`} d={path(points)} class="pic-swath" style={{ strokeWidth: `${width * view.scale}px` }} />)
        : null}
      <g>
        <path d={search.dots.map((dot) => view.at(dot)).map(([x, y]) => `M${x.toFixed(1)},${y.toFixed(1)}h0`).join("")} class="pic-dots" />
      </g>
      {contours.map((row, n) => row.rings.map((ring, k) => <path key={`${n}.${k}`} d={path(at(ring), true)} class={STROKES[Math.min(n, STROKES.length - 1)]} />))}
      {(search.passes ?? []).map((pass, n) => (
        <g key={`p${n}`}>
          {(pass.legs ?? []).map((leg, k) => (
            <path key={k} d={path(at(legPlaces(leg)))} class="pic-thin pic-dash" />
          ))}
          {pass.places ? <path d={path(at(pass.places))} class="pic-thin pic-dash" /> : null}
        </g>
      ))}
      {lanes.map(({ leg, points }) => (
        <g key={leg.n}>
          <path d={path(points)} class={leg.kind === "shift" ? "pic-hair pic-dot" : "pic-thin pic-go"} />
          {leg.kind === "shift" ? null : <path d={head(points)} class="pic-thin pic-go" />}
        </g>
      ))}
      {(props.ghost ?? []).map((leg) => (
        <path key={`g${leg.n}`} d={path(at(legPlaces(leg)))} class={leg.kind === "shift" ? "pic-hair pic-dot" : "pic-firm pic-go pic-dash"} />
      ))}
      {search.accounts.map((row) =>
        row.radius95_m ? (
          <path key={row.who} d={path(at(ringOf([row.centre_east_m, row.centre_north_m], row.radius95_m)), true)} class="pic-hair pic-dash" />
        ) : null,
      )}
    </g>
  );
}

/** Words of the map: shares on their lines, numbers on their lanes, start and end. */
export function nameInk(search: Search, view: View, board: Board, units: Units, handles: readonly [number, number][]): void {
  const { labels } = board;
  for (const [x, y] of handles) labels.keep([x - 9, y - 9, x + 9, y + 9]);
  const lanes = (search.best?.legs ?? []).filter((leg) => leg.kind !== "shift").map((leg) => ({ leg, points: legPlaces(leg).map(view.at) }));
  const first = search.best?.legs?.[0];
  if (first) {
    const [x, y] = view.at(legPlaces(first)[0] ?? [0, 0]);
    labels.put(words.start, [[x + 10, y + 5, "start"], [x - 10, y + 5, "end"], [x, y - 10, "middle"], [x, y + 20, "middle"]], true);
  }
  const pitch = (search.best?.spacing_m ?? 5) * view.scale;
  const step = Math.max(1, Math.ceil(20 / Math.max(pitch, 1)));
  const order = lanes.length > 1 ? [0, lanes.length - 1, ...range(step, lanes.length - 1, step)] : lanes.map((_, n) => n);
  for (const n of order) {
    const lane = lanes[n];
    if (!lane) continue;
    const number = lane.leg.lane ?? n + 1;
    labels.put(words.lane(number), spots(lane.points).map(([x, y]): [number, number, "middle"] => [x, y + 5, "middle"]), true);
  }
  for (const row of search.contours) {
    const ring = [...row.rings].sort((a, b) => b.length - a.length)[0] ?? [];
    const points = ring.map(view.at).sort((a, b) => a[1] - b[1]);
    const tries = [points[0], points[Math.floor(points.length * 0.2)], points[points.length - 1], points[Math.floor(points.length * 0.8)], points[Math.floor(points.length / 2)]];
    labels.put(one(row.share, "share", units), tries.filter((p) => p !== undefined).map(([x, y]): [number, number, "middle"] => [x, y + 5, "middle"]));
  }
}

function range(from: number, to: number, step: number): number[] {
  const rows: number[] = [];
  for (let n = from; n < to; n += step) rows.push(n);
  return rows;
}

function spots(points: [number, number][]): [number, number][] {
  const shares = [0.5, 0.35, 0.65, 0.2, 0.8, 0.08, 0.92];
  if (points.length > 2) return shares.map((share) => points[Math.round(share * (points.length - 1))] ?? [0, 0]);
  const a: [number, number] = points[0] ?? [0, 0];
  const b: [number, number] = points[1] ?? a;
  return shares.map((share) => [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])]);
}

/** An arrow head at four fifths of a lane: the way it is swum. */
function head(points: [number, number][]): string {
  const many = points.length > 2;
  const n = many ? Math.max(1, Math.round((points.length - 1) * 0.82)) : 1;
  const [a, b] = [points[n - 1], points[n]];
  if (!a || !b) return "";
  const tip = many ? b : ([a[0] + 0.75 * (b[0] - a[0]), a[1] + 0.75 * (b[1] - a[1])] as const);
  const way = Math.atan2(b[1] - a[1], b[0] - a[0]);
  if (many && Math.hypot(b[0] - a[0], b[1] - a[1]) < 0.3) return "";
  return [2.65, -2.65].map((side) => `M${tip[0]},${tip[1]}L${tip[0] + 8 * Math.cos(way + side)},${tip[1] + 8 * Math.sin(way + side)}`).join("");
}
