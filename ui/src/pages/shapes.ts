/** Shapes of the answers that the pages read: made from the server's own description, so that they cannot drift. */
import type { components } from "../api";

type Said = components["schemas"];

export type Evening = Said["TonightSaid"];
export type EveningQuestion = Said["Asked"];
/** How a question or a finding stands. */
export type Level = EveningQuestion["state"] | "note" | "none";

export type FirstQuestion = Said["FirstQuestion"];
export type SmallQuestion = Said["SmallQuestion"];

export type Comparison = Said["CompareSaid"];
export type Compared = Said["Compared"];
export type Column = Said["Column"];

export type NumberSheet = Said["NumberSaid"];
export type NumberLine = Said["NumberLine"];
export type CheckLine = Said["CheckLine"];
export type StepLine = Said["StepLine"];
export type FileLine = Said["FileLine"];
