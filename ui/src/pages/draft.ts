/** What was answered so far, kept in this browser until the case is made. */
import type { Answer } from "./answer";

const PLACE = "parbuckle.first-questions";

export interface Draft {
  step: number;
  answers: Record<string, Answer | undefined>;
  supervisor: string;
}

const EMPTY: Draft = { step: 0, answers: {}, supervisor: "" };

/** The answers of last time, where the case was not made yet. */
export function kept(): Draft {
  try {
    const told = JSON.parse(localStorage.getItem(PLACE) ?? "null") as Partial<Draft> | null;
    return told && typeof told.step === "number" && typeof told.answers === "object" ? { ...EMPTY, ...told } : EMPTY;
  } catch {
    return EMPTY;
  }
}

/** Keep what was answered. */
export function keepDraft(draft: Draft): void {
  try {
    localStorage.setItem(PLACE, JSON.stringify(draft));
  } catch {
    // a window without a store keeps it only while it is open
  }
}

/** The case is made: the draft has done its work. */
export function forget(): void {
  try {
    localStorage.removeItem(PLACE);
  } catch {
    // nothing was kept
  }
}
