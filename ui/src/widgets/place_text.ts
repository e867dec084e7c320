/** Latitude and longitude as people write them. */

/** A place of the document. */
export interface Place {
  lat: number;
  lon: number;
}

const PART =
  /([NSEW])?\s*(-?\d+(?:\.\d+)?)(?:\s*[°\s]\s*(\d+(?:\.\d+)?))?(?:\s*['′\s]\s*(\d+(?:\.\d+)?))?\s*["″']*\s*([NSEW])?/i;

/** Read "52.4821, -3.7154", "52 28.926 N 003 42.924 W" or with degree signs; null where it is no place. */
export function coordinates(text: string): Place | null {
  const clean = text.trim().replace(/\u2212/g, "-");
  const plain = /^(-?\d+(?:\.\d+)?)\s*[,\s]\s*(-?\d+(?:\.\d+)?)$/.exec(clean);
  if (plain) return inside(Number(plain[1]), Number(plain[2]));
  const halves = /^(.*?[NS])[\s,]*(.*?[EW])$/i.exec(clean) ?? /^([NS].*?)[\s,]*([EW].*)$/i.exec(clean);
  if (!halves) return null;
  const [lat, lon] = [degrees(halves[1] ?? ""), degrees(halves[2] ?? "")];
  return lat === null || lon === null ? null : inside(lat, lon);
}

function degrees(text: string): number | null {
  const found = PART.exec(text.trim());
  if (!found || found[0].trim() !== text.trim()) return null;
  const [, before, whole, minutes = "0", seconds = "0", after] = found;
  const side = (before ?? after ?? "").toUpperCase();
  if (!side || Number(minutes) >= 60 || Number(seconds) >= 60) return null;
  const value = Number(whole) + Number(minutes) / 60 + Number(seconds) / 3600;
  return "SW".includes(side) ? -value : value;
}

function inside(lat: number, lon: number): Place | null {
  return Math.abs(lat) <= 90 && Math.abs(lon) <= 180 ? { lat: rounded(lat), lon: rounded(lon) } : null;
}

const rounded = (value: number) => Number(value.toFixed(7)); // about a centimetre

/** A place of the document as text; what is no place stays as it is. */
export function placeText(raw: unknown): string {
  if (raw === undefined || raw === null) return "";
  const place = raw as Partial<Record<keyof Place, unknown>>;
  return typeof raw === "object" ? `${place.lat ?? "?"}, ${place.lon ?? "?"}` : String(raw);
}
