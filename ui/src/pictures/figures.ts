/** Numbers of the plan as people read them: the chosen system first, two figures, a thin space before the unit. */
import type { Band, Units } from "./plan";

export const THIN = "\u202f";
export const NOT_KNOWN = "not known";

type Shown = { metric: [string, number]; imperial: [string, number]; digits?: number };

/** Unit word and factor from the unit of the plan document. */
const SHOWN = {
  mass: { metric: ["kg", 1], imperial: ["lb", 2.2046226218] },
  load: { metric: ["kg", 1 / 9.80665], imperial: ["lb", 2.2046226218 / 9.80665] },
  volume: { metric: ["l", 1], imperial: ["cu ft", 0.0353146667] },
  venting: { metric: ["l/s", 1], imperial: ["cu ft/min", 2.11888] },
  length: { metric: ["m", 1], imperial: ["ft", 1 / 0.3048] },
  rate: { metric: ["m/min", 1], imperial: ["ft/min", 1 / 0.3048] },
  rise: { metric: ["m/min", 60], imperial: ["ft/min", 60 / 0.3048] },
  pressure: { metric: ["bar", 1], imperial: ["psi", 14.5037738], digits: 3 },
  share: { metric: ["%", 100], imperial: ["%", 100] },
  seconds: { metric: ["s", 1], imperial: ["s", 1] },
  minutes: { metric: ["min", 1], imperial: ["min", 1] },
} satisfies Record<string, Shown>;

export type Kind = keyof typeof SHOWN;

export const other = (units: Units): Units => (units === "metric" ? "imperial" : "metric");

/** The number that is shown, and its unit. */
export function inUnits(value: number, kind: Kind, units: Units): [number, string] {
  const [unit, factor] = (SHOWN[kind] as Shown)[units];
  return [value * factor, unit];
}

/** What one shown unit is in the unit of the plan. */
export function oneOf(kind: Kind, units: Units): number {
  return 1 / (SHOWN[kind] as Shown)[units][1];
}

export function unitOf(kind: Kind, units: Units): string {
  return (SHOWN[kind] as Shown)[units][0];
}

/** Round to significant figures, with no exponent and no zeros at the end. */
export function figures(value: number, digits = 2): string {
  if (!Number.isFinite(value) || value === 0) return value === 0 ? "0" : NOT_KNOWN;
  const rounded = Number(value.toPrecision(digits));
  const text = Math.abs(rounded) >= 10000 ? rounded.toLocaleString("en-GB") : String(rounded);
  return text === "-0" ? "0" : text;
}

export function one(value: number | null | undefined, kind: Kind, units: Units, digits?: number): string {
  if (value === null || value === undefined || !Number.isFinite(value)) return NOT_KNOWN;
  if (kind === "seconds") return duration(value);
  const [number, unit] = inUnits(value, kind, units);
  return `${figures(number, digits ?? (SHOWN[kind] as Shown).digits ?? 2)}${THIN}${unit}`;
}

/** Both systems, such as "16 m (52 ft)". */
export function both(value: number | null | undefined, kind: Kind, units: Units): string {
  const first = one(value, kind, units);
  const second = one(value, kind, other(units));
  return first === second ? first : `${first} (${second})`;
}

/** A whole number on the safe side: circles up, limits down. */
export function safe(value: number | null | undefined, kind: Kind, units: Units, up: boolean): string {
  if (value === null || value === undefined) return NOT_KNOWN;
  const [number, unit] = inUnits(value, kind, units);
  return `${up ? Math.ceil(number - 1e-9) : Math.floor(number + 1e-9)}${THIN}${unit}`;
}

export function safeBoth(value: number | null | undefined, kind: Kind, units: Units, up: boolean): string {
  if (value === null || value === undefined) return NOT_KNOWN;
  return `${safe(value, kind, units, up)} (${safe(value, kind, other(units), up)})`;
}

/** "37 kg (34 to 40)": the likely number, then its band. */
export function band(value: Band | null | undefined, kind: Kind, units: Units): string {
  if (!value) return NOT_KNOWN;
  if (kind === "seconds") {
    const [low, likely, high] = [value.low, value.likely, value.high].map(duration);
    return low === high ? `${likely}` : `${likely} (${low} to ${high})`;
  }
  const unit = unitOf(kind, units);
  const [low, likely, high] = alike([value.low, value.likely, value.high].map((n) => inUnits(n, kind, units)[0]));
  const first = `${likely}${THIN}${unit}`;
  return low === high ? first : `${first} (${low} to ${high})`;
}

/** Round numbers to the place of the second, which is the likely one. */
export function alike(numbers: number[], digits = 2): string[] {
  const largest = Math.max(...numbers.map(Math.abs));
  const likely = numbers[1] ?? largest;
  const judge = Math.abs(likely) >= 0.1 * largest ? Math.abs(likely) : largest;
  const places = judge > 0 ? digits - 1 - Math.floor(Math.log10(Number(judge.toPrecision(digits)))) : 0;
  const texts = numbers.map((number) => {
    const step = 10 ** -places;
    return (Math.round(number / step) * step).toFixed(Math.max(0, places));
  });
  const zeros = Math.min(...texts.map((text) => text.match(/\.\d*?(0*)$/)?.[1]?.length ?? 0));
  return texts.map((text) => {
    const short = zeros > 0 ? text.slice(0, text.length - zeros).replace(/\.$/, "") : text;
    return Number(short) === 0 ? "0" : short;
  });
}

export function duration(seconds: number): string {
  if (seconds < 10) return `${figures(seconds, 2)}${THIN}s`;
  if (seconds < 120) return `${Math.round(seconds)}${THIN}s`;
  if (seconds < 600) {
    const all = Math.round(seconds / 10) * 10;
    const rest = all % 60;
    return `${Math.floor(all / 60)}${THIN}min${rest ? ` ${rest}${THIN}s` : ""}`;
  }
  const minutes = Math.round(seconds / 60);
  if (minutes < 180) return `${minutes}${THIN}min`;
  const rest = minutes % 60;
  return `${Math.floor(minutes / 60)}${THIN}h${rest ? ` ${rest}${THIN}min` : ""}`;
}

/** The clock of an ISO text as it is written there, not as this machine's zone has it. */
export function clock(iso: string | null | undefined): string {
  return iso?.match(/T(\d\d:\d\d)/)?.[1] ?? NOT_KNOWN;
}

export function dayOf(iso: string | null | undefined): string {
  const told = iso?.match(/^(\d{4})-(\d\d)-(\d\d)/);
  if (!told) return "";
  const names = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
  return `${Number(told[3])} ${names[Number(told[2]) - 1] ?? ""} ${told[1]}`;
}

/** Minutes of a day as a clock; past midnight it goes on from zero. */
export function clockOf(minutes: number): string {
  const all = ((Math.round(minutes) % 1440) + 1440) % 1440;
  return `${String(Math.floor(all / 60)).padStart(2, "0")}:${String(all % 60).padStart(2, "0")}`;
}
