/** The view of the map: metres to pixels and back, moved and zoomed by Leaflet where it is loaded. */
import type { Map as LeafletMap } from "leaflet";
import { useEffect, useRef, useState } from "preact/hooks";

export type View = {
  scale: number; // px to a metre
  at: (place: readonly [number, number]) => [number, number];
  back: (point: readonly [number, number]) => [number, number];
  size: readonly [number, number];
};
export type Bounds = { west: number; south: number; east: number; north: number };
export type Moves = { nearer: () => void; farther: () => void; all: () => void; show: (place: readonly [number, number]) => void };

const EDGE = 26; // px

export function boundsOf(places: readonly (readonly [number, number])[]): Bounds | null {
  if (!places.length) return null;
  const [east, north] = [places.map((one) => one[0]), places.map((one) => one[1])];
  const box = { west: Math.min(...east), south: Math.min(...north), east: Math.max(...east), north: Math.max(...north) };
  const least = 10; // m
  const grow = (low: number, high: number): [number, number] => (high - low >= least ? [low, high] : [(low + high - least) / 2, (low + high + least) / 2]);
  const [west, eastEnd] = grow(box.west, box.east);
  const [south, northEnd] = grow(box.south, box.north);
  return { west, south, east: eastEnd, north: northEnd };
}

/** All of it in the middle. */
export function fitted(bounds: Bounds, width: number, height: number): View {
  const scale = Math.min((width - 2 * EDGE) / (bounds.east - bounds.west), (height - 2 * EDGE) / (bounds.north - bounds.south));
  return viewOf(scale, [(bounds.west + bounds.east) / 2, (bounds.south + bounds.north) / 2], width, height);
}

function viewOf(scale: number, middle: readonly [number, number], width: number, height: number): View {
  return {
    scale,
    size: [width, height],
    at: ([east, north]) => [width / 2 + (east - middle[0]) * scale, height / 2 - (north - middle[1]) * scale],
    back: ([x, y]) => [middle[0] + (x - width / 2) / scale, middle[1] - (y - height / 2) / scale],
  };
}

/** The same ground on a room of another size, as on paper. */
export function onSize(view: View, width: number, height: number): View {
  const times = Math.min(width / view.size[0], height / view.size[1]);
  if (Math.abs(times - 1) < 0.01) return view;
  return viewOf(view.scale * times, view.back([view.size[0] / 2, view.size[1] / 2]), width, height);
}

/** Let Leaflet pan and zoom an empty ground; the ink is drawn over it from the view that this gives. */
export function useMap(
  bounds: Bounds | null,
  width: number,
  height: number,
): { ground: { current: HTMLDivElement | null }; view: View | null; moves: Moves } {
  const ground = useRef<HTMLDivElement | null>(null);
  const map = useRef<LeafletMap | null>(null);
  const whole = useRef<Bounds | null>(bounds);
  const own = useRef(false); // the hand has chosen another view: keep it
  const fitting = useRef(false);
  const [view, setView] = useState<View | null>(null);
  whole.current = bounds;
  const fit = (): void => {
    const [made, box] = [map.current, whole.current];
    if (!made || !box) return;
    const size = made.getSize();
    if (size.x < 2 * EDGE + 1 || size.y < 2 * EDGE + 1) return;
    const scale = Math.min((size.x - 2 * EDGE) / (box.east - box.west), (size.y - 2 * EDGE) / (box.north - box.south));
    fitting.current = true;
    made.setView([(box.south + box.north) / 2, (box.west + box.east) / 2], Math.log2(scale), { animate: false });
    fitting.current = false;
  };
  useEffect(() => {
    const node = ground.current;
    if (!node) return undefined;
    let there = true;
    void import("leaflet").then(({ default: L }) => {
      if (!there) return;
      const coarse = typeof matchMedia !== "undefined" && matchMedia("(pointer: coarse)").matches;
      const made = L.map(node, {
        crs: L.CRS.Simple,
        zoomControl: false,
        attributionControl: false,
        zoomSnap: 0,
        zoomDelta: 0.5,
        minZoom: -8,
        maxZoom: 8,
        zoomAnimation: false,
        fadeAnimation: false,
        markerZoomAnimation: false,
        inertia: false,
        scrollWheelZoom: false, // the page scrolls; buttons and keys zoom
        dragging: !coarse, // one finger scrolls the page, two move the map
      });
      map.current = made;
      fit();
      const read = (): void => {
        const size = made.getSize();
        const middle = made.getCenter();
        setView(viewOf(2 ** made.getZoom(), [middle.lng, middle.lat], size.x, size.y));
      };
      made.on("move zoom resize viewreset", read);
      made.on("dragstart zoomstart", () => {
        if (!fitting.current) own.current = true;
      });
      read();
    });
    return () => {
      there = false;
      map.current?.remove();
      map.current = null;
    };
  }, [bounds !== null]);
  const key = bounds ? [bounds.west, bounds.south, bounds.east, bounds.north].map((one) => one.toFixed(1)).join(",") : "";
  useEffect(() => {
    map.current?.invalidateSize({ animate: false, pan: false });
    if (!own.current) fit();
  }, [key, width, height]);
  return {
    ground,
    view: view ? onSize(view, width, height) : bounds ? fitted(bounds, width, height) : null,
    moves: {
      nearer: () => map.current?.zoomIn(0.5),
      farther: () => map.current?.zoomOut(0.5),
      all: () => {
        own.current = false;
        fit();
      },
      show: ([east, north]) => {
        own.current = true;
        map.current?.panInside([north, east], { padding: [40, 40], animate: false });
      },
    },
  };
}
