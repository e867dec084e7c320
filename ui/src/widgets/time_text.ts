/** A moment as it is written, 2027-04-14T19:40:00+01:00: its local part for the picker, its offset kept. */

const FORM = /^(\d{4}-\d\d-\d\d)[T ](\d\d:\d\d)(?::\d\d(?:\.\d+)?)?(Z|[+-]\d\d:\d\d)?$/;

/** The local part, as a picker wants it; null where the text is no moment. */
export function localPart(text: string): string | null {
  const found = FORM.exec(text.trim());
  return found ? `${found[1]}T${found[2]}` : null;
}

/** The offset from UTC that is written; empty without one. */
export function zonePart(text: string): string {
  const zone = FORM.exec(text.trim())?.[3] ?? "";
  return zone === "Z" ? "+00:00" : zone;
}

/** A moment with another local part: with the offset that stood there, else the one of this device at that moment. */
export function withLocal(before: string, local: string): string {
  const found = FORM.exec(local);
  if (!found) return local;
  return `${found[1]}T${found[2]}:00${zonePart(before) || zoneHere(new Date(local))}`;
}

function zoneHere(when: Date): string {
  const minutes = -when.getTimezoneOffset();
  const two = (value: number) => String(Math.floor(Math.abs(value))).padStart(2, "0");
  return `${minutes < 0 ? "-" : "+"}${two(minutes / 60)}:${two(Math.abs(minutes) % 60)}`;
}
