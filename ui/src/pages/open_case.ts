/** A case as a page beside the stages needs it: its head, and the pair of revisions that an answer must belong to. */
import { openCase, type CaseStore } from "../state/store";
import type { CaseSaid, PlanSaid } from "../state/types";
import type { NumberLine } from "./shapes";

export interface OpenCase {
  store: CaseStore;
  said: CaseSaid | null;
  title: string;
  /** Names exactly what stands on the screen; null while that is not settled, or something waits to be sent. */
  version: string | null;
  /** The same, where there is a plan; null while it is worked out, and where something is written wrongly. */
  planned: string | null;
  /** Whether something is written wrongly, so that there is no plan. */
  wrong: boolean;
  /** Why it cannot be opened, in words. */
  trouble: string | null;
}

/** Open a case; reads signals, so the component that calls it is drawn again when one changes. */
export function useCase(id: string): OpenCase {
  const store = openCase(id);
  const said = store.said.value;
  const title = said ? (said.variant ? `${said.title}: ${said.variant}` : said.title) : "";
  const version = versionOf(store);
  const plan = store.current.value?.plan;
  const wrong = plan === null;
  return { store, said, title, version, planned: plan ? version : null, wrong, trouble: store.gone.value?.what ?? null };
}

/** The numbers of an answer, as the server shows them. */
export function numbersOf(answer: PlanSaid | null): readonly NumberLine[] {
  return answer?.numbers ?? [];
}

/** The pair of revisions in one word. */
export function pair(revision: number, kit: number | null): string {
  return `${revision} ${kit ?? "-"}`;
}

function versionOf(store: CaseStore): string | null {
  const [said, newest, waiting, clash] = [store.said.value, store.newest.value, store.waiting.value, store.clash.value];
  const [kitWaiting, newestKit] = [store.kit?.waiting.value ?? [], store.newestKit.value];
  if (!said || waiting.length || clash || kitWaiting.length) return null;
  if (said.revision < newest || (said.kit_revision ?? 0) < newestKit) return null;
  return pair(said.revision, said.kit_revision);
}
