/** Which field was touched last: its quick picks stay until another is touched, so that nothing moves under a finger. */
import { signal } from "@preact/signals";

/** Id of the field. */
export const active = signal("");

/** A word that one gesture of typing is known by. */
export function gesture(): string {
  return [...crypto.getRandomValues(new Uint32Array(2))].map((part) => part.toString(36)).join("");
}
