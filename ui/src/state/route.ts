/** Where the page is, by the part of the address behind the hash. */
import { signal } from "@preact/signals";

/** A place of the page. */
export interface Route {
  page: string;
  id: string;
  /** What stands behind the page in the address. */
  rest: string[];
  /** The key of the value that is meant. */
  at: string | null;
}

const NAMED = ["", "new", "checks", "import"];

/** Read an address: `#/case/ID/lift?at=lift.bags`. */
export function read(hash: string): Route {
  const [path = "", query = ""] = hash.replace(/^#\/?/, "").split("?");
  const parts = path.split("/").filter(Boolean).map(decodeURIComponent);
  const at = new URLSearchParams(query).get("at");
  const [first = "", second = "", third = "", ...rest] = parts;
  if (first === "case") return { page: third || "call", id: second, rest, at };
  if (first === "kit") return { page: "one-kit", id: second, rest: parts.slice(2), at };
  return { page: NAMED.includes(first) ? first || "home" : "missing", id: second, rest: parts.slice(2), at };
}

/** The place that is shown. */
export const route = signal<Route>(read(typeof location === "undefined" ? "" : location.hash));

/** Go somewhere. */
export function go(hash: string): void {
  location.hash = hash;
}

/** The address of a page of a case. */
export function caseHash(id: string, page: string, key?: string): string {
  return `#/case/${encodeURIComponent(id)}/${page}${key ? `?at=${encodeURIComponent(key)}` : ""}`;
}

if (typeof addEventListener === "function") {
  addEventListener("hashchange", () => {
    route.value = read(location.hash);
  });
}
