/** The text of a value, and what a tap on a unit or a sign makes of it. */

const WHOLE = ["fresh", "sea"];

/** Put a unit behind what is written; a unit that stands there gives way. */
export function withUnit(text: string, unit: string): string {
  if (WHOLE.includes(unit)) return unit;
  const number = /^(.*\d[.,]?)\s*[^\d]*$/.exec(WHOLE.includes(text.trim()) ? "" : text);
  return number ? `${number[1]} ${unit}` : unit ? ` ${unit}` : text;
}

/** The unit that stands behind what is written. */
export function unitIn(text: string, units: readonly string[]): string | null {
  const clean = text.trim();
  return (
    [...units]
      .sort((a, b) => b.length - a.length)
      .find((unit) => clean === unit || clean.endsWith(` ${unit}`) || clean.endsWith(unit)) ?? null
  );
}

/** Put a sign of a spread behind the last number, before the unit. */
export function withSign(text: string, sign: "±" | ".."): string {
  const found = /^(.*?\d)(\s*[^\d]*)$/.exec(text);
  if (!found || /±|\.\./.test(text)) return text;
  return sign === "±" ? `${found[1]} ± ${found[2]}` : `${found[1]}..${found[2]}`;
}

/** Where the cursor belongs after a sign was put in. */
export function afterSign(text: string): number {
  const place = Math.max(text.lastIndexOf("± ") + 2, text.lastIndexOf("..") + 2);
  return place < 2 ? text.length : place;
}
