/** What was written and is not yet taken by the server: sent one after another, kept on this device until then. */
import { overlaps, same } from "./paths";
import { keepText, keptText } from "./person";
import type { Change } from "./types";

/** One edit that waits. */
export interface Waiting {
  /** The revision that it was made on. */
  base: number;
  changes: Change[];
  what: string;
  gesture: string | null;
}

/** Put an edit behind those that wait; of two for one field, made in one gesture, only the later stays. */
export function queued(waiting: readonly Waiting[], next: Waiting, sending: boolean): Waiting[] {
  const last = waiting.at(-1);
  const free = last !== undefined && !(sending && waiting.length === 1);
  if (free && replaces(next, last)) return [...waiting.slice(0, -1), { ...next, base: last.base }];
  return [...waiting, next];
}

function replaces(next: Waiting, last: Waiting): boolean {
  const [one, other] = [next.changes[0], last.changes[0]];
  if (!one || !other || next.changes.length !== 1 || last.changes.length !== 1) return false;
  const whole = (change: Change) =>
    change.op === "set" || (change.op === "remove" && typeof change.path.at(-1) === "string");
  return (
    next.gesture !== null && next.gesture === last.gesture && whole(one) && whole(other) && same(one.path, other.path)
  );
}

/** The rest after one was taken as a revision: what touches the same place goes on from there, the rest from where it was. */
export function taken(waiting: readonly Waiting[], revision: number): Waiting[] {
  const [done, ...rest] = waiting;
  if (!done) return [];
  const alone = revision === done.base + 1; // nobody else wrote between
  return rest.map((one) => (alone || touches(one, done) ? { ...one, base: revision } : one));
}

/** Whether two edits touch the same place; rows of one list count as one place. */
export function touches(one: Waiting, other: Waiting): boolean {
  const places = (edit: Waiting) =>
    edit.changes.map((change) => (change.op === "set" ? change.path : change.path.slice(0, -1)));
  return places(one).some((a) => places(other).some((b) => overlaps(a, b)));
}

/** Keep what waits on this device. */
export function keepWaiting(name: string, waiting: readonly Waiting[]): void {
  keepText(`parbuckle.waiting.${name}`, waiting.length ? JSON.stringify(waiting) : null);
}

/** Read what still waits from the last time. */
export function keptWaiting(name: string): Waiting[] {
  try {
    const kept: unknown = JSON.parse(keptText(`parbuckle.waiting.${name}`) ?? "[]");
    return Array.isArray(kept) ? (kept as Waiting[]) : [];
  } catch {
    return [];
  }
}
