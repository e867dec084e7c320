/** Who writes: told once, kept on this device. */
import { signal } from "@preact/signals";

import { frame as t } from "../texts/frame";

const PLACE = "parbuckle.who";

/** Read a text that is kept on this device; null where it keeps none. */
export function keptText(place: string): string | null {
  try {
    return localStorage.getItem(place);
  } catch {
    return null;
  }
}

/** Keep a text on this device, or forget it; a device that keeps nothing asks again. */
export function keepText(place: string, text: string | null): void {
  try {
    if (text === null) localStorage.removeItem(place);
    else localStorage.setItem(place, text);
  } catch {
    // nothing to do
  }
}

/** The name, empty when none was told. */
export const person = signal(keptText(PLACE) ?? "");

/** Keep a name. */
export function tellPerson(name: string): void {
  person.value = name.trim().slice(0, 80);
  keepText(PLACE, person.value || null);
}

/** The name as the server wants it: never empty. */
export function writer(): string {
  return person.value || t.somebody;
}
