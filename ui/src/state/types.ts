/** Shapes of what the server says and takes: made from its own description, so that they cannot drift. */
import type { components } from "../api";

type Said = components["schemas"];

export type Step = string | number;
export type Path = readonly Step[];
export type Value = unknown;
export type Document = Readonly<Record<string, unknown>>;
export type Level = StageState["state"];

export interface Change {
  op: Said["ChangeBody"]["op"];
  path: Step[];
  value?: Value;
  to?: number;
}

export type ShownValue = Said["Shown"];
export type Fault = Said["Fault"];
export type Finding = Said["PlacedFinding"];
export type Stage = Finding["stage"];
export type StageState = Said["StageState"];
export type Missing = Said["Missing"];
export type Verdict = Said["Verdict"];
export type NumberLine = Said["NumberLine"];
export type FormField = Said["FormField"];
export type FormSection = Said["FormSection"];
export type Form = Pick<Said["FormSaid"], "case" | "kit">;
export type CaseLine = Said["CaseLine"];
export type KitLine = Said["KitLine"];
export type AppSaid = Said["AppSaid"];

/** What cases and kits have in common. */
export type Written = Omit<Said["CaseSaid"], "kit_id" | "kit_revision" | "parent" | "variant">;
export type CaseSaid = Said["CaseSaid"];
export type KitSaid = Said["KitSaid"];

/** The plan document; its pieces are read by those who show them. */
export interface Plan extends Readonly<Record<string, unknown>> {
  verdict: Verdict;
}

/** The plan of exactly these revisions; null where something is written wrongly. */
export interface PlanSaid extends Omit<Said["PlanSaid"], "plan" | "stages"> {
  plan: Plan | null;
  stages: Partial<Record<Stage, StageState>>;
}

/** What the server says when it refuses. */
export type Told = Partial<
  Pick<Said["Told"], "key" | "given" | "allowed" | "do" | "by" | "at" | "theirs" | "revision">
> & { what: string; path?: Step[] };
