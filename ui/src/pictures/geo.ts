/** Local metres round a datum, and latitude and longitude; good to a centimetre within a few kilometres. */

const A = 6378137.0; // WGS 84, m
const E2 = 0.00669437999014;

export type LatLon = { lat: number; lon: number };

function metresPerDegree(lat: number): [number, number] {
  const sin = Math.sin((lat * Math.PI) / 180);
  const w = 1 - E2 * sin * sin;
  const north = (A * (1 - E2)) / w ** 1.5;
  const east = (A / Math.sqrt(w)) * Math.cos((lat * Math.PI) / 180);
  return [(east * Math.PI) / 180, (north * Math.PI) / 180];
}

export function toMetres(datum: LatLon, place: LatLon): [number, number] {
  const [east, north] = metresPerDegree((datum.lat + place.lat) / 2);
  return [(place.lon - datum.lon) * east, (place.lat - datum.lat) * north];
}

/** Undo toMetres; the place is rounded to the seventh decimal, about a centimetre. */
export function toLatLon(datum: LatLon, place: readonly [number, number]): LatLon {
  let lat = datum.lat + place[1] / metresPerDegree(datum.lat)[1];
  lat = datum.lat + place[1] / metresPerDegree((datum.lat + lat) / 2)[1];
  const lon = datum.lon + place[0] / metresPerDegree((datum.lat + lat) / 2)[0];
  return { lat: round7(lat), lon: round7(lon) };
}

const round7 = (number: number): number => Math.round(number * 1e7) / 1e7;

/** "52 28.926 N 003 42.924 W": degrees and minutes to the thousandth, about two metres. */
export function inMinutes(place: LatLon): string {
  return `${half(place.lat, 2, "N", "S")} ${half(place.lon, 3, "E", "W")}`;
}

function half(value: number, digits: number, plus: string, minus: string): string {
  const thousandths = Math.round(Math.abs(value) * 60000);
  const degrees = Math.floor(thousandths / 60000);
  const minutes = ((thousandths % 60000) / 1000).toFixed(3).padStart(6, "0");
  return `${String(degrees).padStart(digits, "0")} ${minutes} ${value < 0 ? minus : plus}`;
}

/** Read "52 28.926 N 003 42.924 W" or "52.4821, -3.7154"; null where it is neither. */
export function readPlace(text: string): LatLon | null {
  const plain = text.trim().replace(/[°'′,]/g, " ").replace(/\s+/g, " ");
  const decimal = plain.match(/^(-?\d+(?:\.\d+)?) (-?\d+(?:\.\d+)?)$/);
  if (decimal) return within(Number(decimal[1]), Number(decimal[2]));
  const dm = plain.match(/^(\d+) (\d+(?:\.\d+)?) ?([NS]) (\d+) (\d+(?:\.\d+)?) ?([EW])$/i);
  if (!dm) return null;
  const lat = (Number(dm[1]) + Number(dm[2]) / 60) * (/s/i.test(dm[3] ?? "") ? -1 : 1);
  const lon = (Number(dm[4]) + Number(dm[5]) / 60) * (/w/i.test(dm[6] ?? "") ? -1 : 1);
  return Number(dm[2]) < 60 && Number(dm[5]) < 60 ? within(lat, lon) : null;
}

const within = (lat: number, lon: number): LatLon | null =>
  Math.abs(lat) <= 90 && Math.abs(lon) <= 180 ? { lat, lon } : null;

/** Bearing from true north and distance of metres east and north. */
export function polar(place: readonly [number, number]): { bearing: number; distance: number } {
  const bearing = (Math.atan2(place[0], place[1]) * 180) / Math.PI;
  return { bearing: (bearing + 360) % 360, distance: Math.hypot(place[0], place[1]) };
}

/** Places round a centre, from one true bearing to another. */
export function ringOf(centre: readonly [number, number], radius: number, from = 0, to = 360): [number, number][] {
  const steps = Math.max(8, Math.ceil(Math.abs(to - from) / 5));
  return Array.from({ length: steps + 1 }, (_, n) => {
    const turn = ((from + ((to - from) * n) / steps) * Math.PI) / 180;
    return [centre[0] + radius * Math.sin(turn), centre[1] + radius * Math.cos(turn)];
  });
}
