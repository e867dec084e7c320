/** Read pieces of the plan without trusting that they are there. */
import type { Plan } from "../state/types";

type Table = Record<string, unknown>;

/** A table of the plan; empty where it is missing. */
export function table(value: unknown): Table {
  return typeof value === "object" && value !== null && !Array.isArray(value) ? (value as Table) : {};
}

/** A list of tables. */
export function rows(value: unknown): Table[] {
  return Array.isArray(value) ? value.map(table) : [];
}

/** A list of texts. */
export function texts(value: unknown): string[] {
  return Array.isArray(value) ? value.filter((one): one is string => typeof one === "string") : [];
}

/** A text, or nothing. */
export function text(value: unknown): string {
  return typeof value === "string" ? value : "";
}

/** A piece of the plan by its name. */
export function piece(plan: Plan | null | undefined, name: string): Table {
  return table(plan?.[name]);
}

/** A moment as the clock of the place shows it: the text itself says it, nothing is counted. */
export function clock(value: unknown): string {
  const found = /T(\d\d:\d\d)/.exec(text(value));
  return found?.[1] ?? text(value);
}
