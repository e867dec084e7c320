/** What can be moved on the map: places that stand in the case as it is written. */
import { pictures } from "../texts/pictures";
import { type LatLon } from "./geo";

const words = pictures.map;

/** path is the place of {lat, lon} in the written case, as an edit names it. */
export type MapHandle = LatLon & { id: string; path: (string | number)[]; name: string; kind: "datum" | "account" | "stood" | "corner" | "pass" | "lanes" };

type Table = Record<string, unknown>;

export function handlesOf(document: unknown): MapHandle[] {
  const rows: MapHandle[] = [];
  const add = (path: (string | number)[], value: unknown, name: string, kind: MapHandle["kind"]): void => {
    const place = placeOf(value);
    if (place) rows.push({ ...place, id: path.join("."), path, name, kind });
  };
  const site = table(table(document)?.["site"]);
  add(["site", "datum"], site?.["datum"], words.datum, "datum");
  list(table(document)?.["account"]).forEach((row, n) => {
    const told = table(row);
    const who = typeof told?.["who"] === "string" && told["who"] ? told["who"] : `${n + 1}`;
    add(["account", n, "at"], told?.["at"], words.account(who), "account");
    add(["account", n, "from"], told?.["from"], words.stood(who), "stood");
    list(told?.["along"]).forEach((one, k) => add(["account", n, "along", k], one, words.along(who, k + 1), "account"));
    list(told?.["area"]).forEach((one, k) => add(["account", n, "area", k], one, words.accountCorner(who, k + 1), "account"));
  });
  const search = table(table(document)?.["search"]);
  list(search?.["area"]).forEach((one, k) => add(["search", "area", k], one, words.corner(k + 1), "corner"));
  list(search?.["pass"]).forEach((row, n) => {
    add(["search", "pass", n, "centre"], table(row)?.["centre"], words.passCentre(n + 1), "pass");
    list(table(row)?.["along"]).forEach((one, k) => add(["search", "pass", n, "along", k], one, words.passPoint(n + 1, k + 1), "pass"));
  });
  return rows;
}

const table = (value: unknown): Table | null => (typeof value === "object" && value !== null && !Array.isArray(value) ? (value as Table) : null);
const list = (value: unknown): unknown[] => (Array.isArray(value) ? value : []);

function placeOf(value: unknown): LatLon | null {
  const told = table(value);
  const [lat, lon] = [told?.["lat"], told?.["lon"]];
  return typeof lat === "number" && typeof lon === "number" && Math.abs(lat) <= 90 && Math.abs(lon) <= 180 ? { lat, lon } : null;
}
