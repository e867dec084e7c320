/** A value typed in two boxes and a unit, and the one text that the case keeps. */

export interface Told {
  from: string;
  to: string;
  unit: string;
  /** Written in a way that two boxes cannot show. */
  own: boolean;
}

/** Write the text: one number, or the two ends of a range. Nothing is reckoned; what is typed is kept. */
export function composed(told: Told): string {
  const [from, to] = [told.from.trim(), told.to.trim()];
  const ends = [from, to].filter(Boolean);
  if (!ends.length) return "";
  return `${ends.join("..")} ${told.unit}`.trim();
}

/** Read a text back into the boxes. */
export function taken(text: string, units: readonly string[]): Told {
  const unit = units[0] ?? "";
  const found = /^\s*([\d.,]*\d)(?:\s*\.\.\s*([\d.,]*\d))?\s*(\D*)$/.exec(text);
  if (!text.trim()) return { from: "", to: "", unit, own: false };
  if (!found || (found[3]?.trim() && !units.includes(found[3].trim()))) return { from: "", to: "", unit, own: true };
  return { from: found[1] ?? "", to: found[2] ?? "", unit: found[3]?.trim() || unit, own: false };
}
