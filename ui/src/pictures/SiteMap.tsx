/** The map of the site: where it may be, what is swum, and places of the case that are moved by hand or key. */
import type { JSX } from "preact";
import { useEffect, useId, useMemo, useRef, useState } from "preact/hooks";
import { pictures } from "../texts/pictures";
import { ChartPlacer, type Chart, chartMatrix } from "./ChartPlacer";
import { AsTable, Hatches, ScaleBar, Written, type Board, type HatchName, useTypeface, useWidth } from "./board";
import { short } from "./Bars";
import { barOf } from "./axes";
import { one } from "./figures";
import { inMinutes, polar, toLatLon, toMetres, type LatLon } from "./geo";
import { Labels } from "./labels";
import { Ink, legPlaces, nameInk, placesOf } from "./map_ink";
import { type MapHandle, handlesOf } from "./map_handles";
import { MapMark } from "./MapMark";
import { passOf, shifted } from "./map_pass";
import { boundsOf, useMap, type Bounds, type View } from "./map_view";
import type { Place, Search, Units } from "./plan";

const words = pictures.map;

export type Moved = { path: (string | number)[]; value: LatLon; name: string };

/** written: the case as it is written, for what can be moved; onMove gets the path of {lat, lon} in it and the new value. */
export function SiteMap(props: {
  search: Search | null | undefined;
  written?: unknown;
  units?: Units;
  onMove?: (moved: Moved) => void;
  swath?: boolean;
  onPass?: (pass: Record<string, unknown>) => void; // a row of search.pass: the lanes were swum here and found nothing
}): JSX.Element {
  const { search, units = "metric" } = props;
  const id = useId();
  const [room, width] = useWidth();
  useTypeface();
  const height = Math.round(Math.min(Math.max(width * 0.72, 340), 620));
  const [moved, setMoved] = useState<Record<string, Place>>({});
  const pointer = useRef<HTMLParagraphElement | null>(null); // written past the drawing: it follows every move of the hand
  const [tints, setTints] = useState(false);
  const [said, setSaid] = useState("");
  const [chart, setChart] = useState<Chart | null>(null);
  const handles = useMemo(() => handlesOf(props.written), [props.written]);
  useEffect(() => setMoved({}), [props.written]);
  const datum = search?.datum ?? handles.find((row) => row.kind === "datum") ?? null;
  const places = useMemo(() => (search ? placesOf(search) : datum ? handles.map((row) => toMetres(datum, row)) : []), [search, handles]);
  const seen = useRef<Bounds | null>(null); // while the plan is away, the view stays
  const bounds = useMemo(() => {
    const found = boundsOf(places);
    if (search && found) seen.current = found;
    return search ? found : (seen.current ?? found);
  }, [places]);
  const grip = useRef<Place | null>(null);
  const { ground, view, moves } = useMap(bounds, width, height);
  const [lanes, setLanes] = useState<Place>([0, 0]);
  useEffect(() => setLanes([0, 0]), [search]);
  const best = props.onPass && search?.best && passOf(search.best, search.datum, [0, 0]) ? search.best : null;
  const ends = (best?.legs ?? []).flatMap(legPlaces);
  const end = ends[ends.length - 1] ?? null; // the mark stands at the end of the last lane, where no account lies
  const laid: MapHandle | null = end && datum ? { ...toLatLon(datum, [end[0] + lanes[0], end[1] + lanes[1]]), id: "lanes", path: [], name: words.lanes, kind: "lanes" } : null;
  const away = Math.hypot(lanes[0], lanes[1]) > 0.01;
  if (!datum || !view) return <p class="pic-empty">{pictures.nothing}</p>;
  const here = (row: MapHandle): Place => moved[row.id] ?? toMetres(datum, row);
  const labels = new Labels(width, height);
  const board: Board = { width, height, labels, hatch: (name: HatchName) => `url(#${id}-${name})` };
  const points = handles.map((row) => view.at(here(row)));
  labels.keep([0, height - 30, 150, height]);
  labels.keep([width - 36, 0, width, 56]);
  if (search) nameInk(search, view, board, units, points);
  nameHandles(board, handles, points);
  const done = (row: MapHandle, place: Place): void => {
    const value = toLatLon(datum, place);
    setSaid(words.moved(row.name, inMinutes(value)));
    props.onMove?.({ path: row.path, value, name: row.name });
  };
  const point = (text: string): void => {
    if (pointer.current) pointer.current.textContent = text;
  };
  const bar = barOf(view.scale, Math.min(width * 0.28, 130), units);
  return (
    <figure class="pic pic-site">
      <div class="pic-room" ref={room}>
        <div
          class="pic-map"
          style={{ height: `${height}px` }}
          onPointerMove={(event) => point(pointerText(datum, metresAt(event, view), units))}
          onPointerLeave={() => point(words.noPointer)}
        >
          <div class="pic-map-ground" ref={ground} role="group" aria-label={words.ground} />
          <svg class="pic-svg pic-map-ink" width={width} height={height} viewBox={`0 0 ${width} ${height}`} role="group" aria-label={words.title}>
            <Hatches id={id} />
            {chart ? <image href={chart.url} width={chart.width} height={chart.height} preserveAspectRatio="none" transform={chartMatrix(chart, datum, view)} opacity={0.8} /> : null}
            {search ? <Ink search={search} view={view} board={board} units={units} swath={props.swath ?? true} tints={tints} ghost={best?.legs && away ? shifted(best.legs, lanes) : []} /> : null}
            <Written labels={labels} />
            <path d={`M${width - 18},48V14M${width - 18},14l-6,11M${width - 18},14l6,11`} class="pic-firm" />
            <text x={width - 18} y={64} text-anchor="middle" class="pic-word pic-bold">
              {words.north}
            </text>
            <ScaleBar x={10} y={height - 14} {...bar} />
            {laid && end ? (
              <MapMark
                handle={laid}
                at={view.at([end[0] + lanes[0], end[1] + lanes[1]])}
                fixed={false}
                place={`${words.lanes}, ${inMinutes(laid)}`}
                onSeen={() => undefined}
                onMove={(dx, dy, letGo) => {
                  const from = grip.current ?? lanes;
                  grip.current = letGo ? null : from;
                  setLanes([from[0] + dx / view.scale, from[1] - dy / view.scale]);
                }}
                onStep={(east, north) => setLanes((then) => [then[0] + east, then[1] + north])}
              />
            ) : null}
            {handles.map((row) => (
              <MapMark
                key={row.id}
                handle={row}
                at={view.at(here(row))}
                fixed={!props.onMove}
                place={`${row.name}, ${inMinutes(toLatLon(datum, here(row)))}`}
                onMove={(dx, dy, let_go) => {
                  const from = toMetres(datum, row);
                  const to: Place = [from[0] + dx / view.scale, from[1] - dy / view.scale];
                  setMoved((then) => ({ ...then, [row.id]: to }));
                  if (let_go) done(row, to);
                }}
                onSeen={() => moves.show(here(row))}
                onStep={(east, north) => {
                  const from = here(row);
                  const to: Place = [from[0] + east, from[1] + north];
                  setMoved((then) => ({ ...then, [row.id]: to }));
                  done(row, to);
                }}
              />
            ))}
          </svg>
        </div>
      </div>
      <p class="pic-pointer" ref={pointer}>
        {words.noPointer}
      </p>
      <p class="pic-unseen" role="status">
        {said}
      </p>
      {best && away && datum ? (
        <div class="pic-keys" role="group" aria-label={words.lanes}>
          <button
            type="button"
            onClick={() => {
              const pass = passOf(best, datum, lanes);
              if (pass) props.onPass?.(pass);
              setLanes([0, 0]);
            }}
          >
            {words.writePass}
          </button>
          <button type="button" onClick={() => setLanes([0, 0])}>
            {words.putBack}
          </button>
        </div>
      ) : null}
      <div class="pic-keys">
        <button type="button" onClick={moves.nearer}>
          {words.nearer}
        </button>
        <button type="button" onClick={moves.farther}>
          {words.farther}
        </button>
        <button type="button" onClick={moves.all}>
          {words.all}
        </button>
        {search ? (
          <button type="button" aria-pressed={tints} onClick={() => setTints(!tints)}>
            {tints ? words.noTints : words.tints}
          </button>
        ) : null}
        <ChartPlacer chart={chart} datum={datum} onChart={setChart} />
      </div>
      <figcaption class="pic-caption">
        {search ? words.caption : words.captionPlaces} {props.onMove && handles.length ? <span class="pic-hint">{words.keys}</span> : null} {chart ? words.chartShows : ""}
      </figcaption>
      <AsTable title={words.title} table={{ head: [...words.columns], rows: rowsOf(handles, search, datum, here, units) }} />
    </figure>
  );
}

function metresAt(event: PointerEvent, view: View): Place {
  const box = (event.currentTarget as HTMLElement).getBoundingClientRect();
  return view.back([event.clientX - box.left, event.clientY - box.top]);
}

function pointerText(datum: LatLon, place: Place, units: Units): string {
  const { bearing, distance } = polar(place);
  return words.pointer(inMinutes(toLatLon(datum, place)), `${String(Math.round(bearing) % 360).padStart(3, "0")}°`, one(distance, "length", units));
}

function nameHandles(board: Board, handles: readonly MapHandle[], points: readonly [number, number][]): void {
  handles.forEach((row, n) => {
    const point = points[n];
    if (!point) return;
    const [x, y] = point;
    const name = row.kind === "account" || row.kind === "datum" ? row.name.replace(/^account: /, "") : row.kind === "stood" ? row.name : "";
    if (name) board.labels.put(short(name, 150), [[x + 13, y + 5, "start"], [x - 13, y + 5, "end"], [x, y - 14, "middle"], [x, y + 24, "middle"]], true);
  });
}

function rowsOf(handles: readonly MapHandle[], search: Search | null | undefined, datum: LatLon, here: (row: MapHandle) => Place, units: Units): string[][] {
  const row = (name: string, place: Place): string[] => [name, one(place[0], "length", units), one(place[1], "length", units), inMinutes(toLatLon(datum, place))];
  const told = handles.map((one) => row(one.name, here(one)));
  const start = search?.best?.start;
  const accounts = (search?.accounts ?? []).map((one) => row(words.account(one.who), [one.centre_east_m, one.centre_north_m]));
  return [...(start ? [row(words.start, [start.east_m, start.north_m])] : []), ...(told.length ? told : accounts)];
}
