/** Steps and ticks of axes and scale bars. */
import { type Kind, figures, inUnits, oneOf, unitOf, THIN } from "./figures";
import type { Units } from "./plan";

/** The largest of 1, 2, 5 times a power of ten that is not above the number. */
export function niceStep(number: number): number {
  if (!(number > 0)) return 1;
  const power = 10 ** Math.floor(Math.log10(number) + 1e-9);
  const most = number / power + 1e-9;
  return (most >= 5 ? 5 : most >= 2 ? 2 : 1) * power;
}

/** The smallest of 1, 2, 5 times a power of ten that is not below the number. */
export function stepOver(number: number): number {
  if (!(number > 0)) return 1;
  const power = 10 ** Math.floor(Math.log10(number) + 1e-9);
  const most = number / power - 1e-9;
  return (most <= 1 ? 1 : most <= 2 ? 2 : most <= 5 ? 5 : 10) * power;
}

/** Ticks from zero to the end, in shown units: value in the unit of the plan, and its text. */
export function ticks(end: number, kind: Kind, units: Units, count: number, withUnit = true): { at: number; text: string }[] {
  const [shown] = inUnits(end, kind, units);
  const step = stepOver(shown / Math.max(count, 1));
  const rows: { at: number; text: string }[] = [];
  for (let n = 0; n * step <= shown * (1 + 1e-9); n += 1) {
    const text = figures(n * step, 4);
    rows.push({ at: n * step * oneOf(kind, units), text: withUnit ? `${text}${THIN}${unitOf(kind, units)}` : text });
  }
  return rows;
}

/** Ticks of a time axis that begins at zero: whole seconds or minutes, whichever is shorter to read. */
export function timeTicks(seconds: number, count: number): { at: number; text: string }[] {
  const inMinutes = seconds > 240;
  const unit = inMinutes ? 60 : 1;
  const steps = inMinutes ? [1, 2, 5, 10, 15, 20, 30, 60, 120] : [1, 2, 5, 10, 15, 20, 30, 60];
  const end = seconds / unit;
  const step = steps.find((one) => end / one <= count) ?? niceStep(end / count);
  const rows: { at: number; text: string }[] = [];
  for (let n = 0; n * step <= end + 1e-9; n += 1) rows.push({ at: n * step * unit, text: `${n * step}${THIN}${inMinutes ? "min" : "s"}` });
  return rows;
}
