/** Find, change and name places in what is written. */
import type { Change, Document, Path, Step, Value } from "./types";

type Branch = Record<string, unknown> | unknown[];

/** The value at a place; undefined where nothing stands. */
export function at(document: unknown, path: Path): Value {
  let here = document;
  for (const step of path) {
    if (here === null || typeof here !== "object") return undefined;
    here = (here as Record<Step, unknown>)[step];
  }
  return here;
}

/** The name of a place as the server tells it: rows count from 1. */
export function named(path: Path): string {
  return path.reduce<string>(
    (text, step) => (typeof step === "number" ? `${text}[${step + 1}]` : text ? `${text}.${step}` : step),
    "",
  );
}

/** The place of a name: the other way. */
export function placed(name: string): Step[] {
  return [...name.matchAll(/([^.[\]]+)|\[(\d+)\]/g)].map((found) =>
    found[2] ? Number(found[2]) - 1 : (found[1] ?? ""),
  );
}

/** Whether one place lies in the other, or is it. */
export function overlaps(one: Path, other: Path): boolean {
  const short = Math.min(one.length, other.length);
  return one.slice(0, short).every((step, index) => step === other[index]);
}

/** Whether two places are the same. */
export function same(one: Path, other: Path): boolean {
  return one.length === other.length && overlaps(one, other);
}

/** The document after changes; the old one stays as it is. A change that does not fit is left to the server to refuse. */
export function applied(document: Document, changes: readonly Change[]): Document {
  return changes.reduce<Document>((now, change) => grown(now, change.path, change) as Document, document);
}

function grown(here: unknown, path: readonly Step[], change: Change): unknown {
  const [first, ...rest] = path;
  if (first === undefined) return here;
  const next = rest[0];
  const branch: Branch = Array.isArray(here)
    ? [...here]
    : here !== null && typeof here === "object"
      ? { ...here }
      : typeof first === "number"
        ? []
        : {};
  if (rest.length && !(Array.isArray(branch) && typeof first === "string")) {
    const inner = (branch as Record<Step, unknown>)[first];
    const missing = inner === null || typeof inner !== "object";
    if (missing && change.op === "remove") return here;
    (branch as Record<Step, unknown>)[first] = grown(
      missing ? (typeof next === "number" ? [] : {}) : inner,
      rest,
      change,
    );
    return branch;
  }
  if (change.op === "set") (branch as Record<Step, unknown>)[first] = change.value;
  else if (Array.isArray(branch) && typeof first === "number") rowChange(branch, first, change);
  else if (change.op === "remove") delete (branch as Record<string, unknown>)[first];
  return branch;
}

function rowChange(rows: unknown[], index: number, change: Change): void {
  if (change.op === "insert") rows.splice(index, 0, change.value);
  else {
    const [taken] = rows.splice(index, 1);
    if (change.op === "move") rows.splice(change.to ?? index, 0, taken);
  }
}
