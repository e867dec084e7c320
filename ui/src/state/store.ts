/** The documents that are open: what the server holds, what waits to be sent, and whether the answer still belongs to it. */
import { CaseStore } from "./case_store";
import { WrittenStore } from "./written_store";
import type { Fault, KitSaid } from "./types";

export { CaseStore } from "./case_store";
export { WrittenStore, type Saving } from "./written_store";

/** A kit that is open. */
export class KitStore extends WrittenStore<KitSaid> {
  constructor(id: string) {
    super("kit", id);
  }

  protected override faultsSaid(): readonly Fault[] {
    return this.said.value?.faults ?? [];
  }
}

const cases = new Map<string, CaseStore>();
const kits = new Map<string, KitStore>();

/** The one store of a case in this window. */
export function openCase(id: string): CaseStore {
  return once(cases, id, () => new CaseStore(id, openKit));
}

/** The one store of a kit in this window. */
export function openKit(id: string): KitStore {
  return once(kits, id, () => new KitStore(id));
}

function once<T extends { begin(): void }>(all: Map<string, T>, id: string, make: () => T): T {
  const found = all.get(id);
  if (found) return found;
  const made = make();
  all.set(id, made);
  made.begin();
  return made;
}
