/** Numbers in words: two significant figures unless more are asked for, never an exponent. */

/** A thin space that does not break: before every unit. */
export const THIN = "\u202f";

/** Low, likely, high. */
export interface Band {
  low: number;
  likely: number;
  high: number;
}

/** Round to significant figures; whole numbers keep all theirs. */
export function figure(value: number, digits = 2): string {
  if (!Number.isFinite(value)) return "?";
  if (value === 0) return "0";
  const places = digits - 1 - Math.floor(Math.log10(Math.abs(value)));
  const text = places <= 0 ? String(Math.round(value)) : value.toFixed(Math.min(places, 6));
  return text === "-0" ? "0" : text.replace("-", "\u2212");
}

/** A band in words: 37 (34 to 40); without a spread only the number. */
export function bandText(band: Band, digits = 2): string {
  const [low, likely, high] = [band.low, band.likely, band.high].map((value) => figure(value, digits));
  return low === high ? `${likely}` : `${likely} (${low} to ${high})`;
}

/** Whether a thing of the plan is a band. */
export function isBand(value: unknown): value is Band {
  const band = value as Partial<Band> | null;
  return (
    typeof band === "object" &&
    band !== null &&
    [band.low, band.likely, band.high].every((one) => typeof one === "number")
  );
}
