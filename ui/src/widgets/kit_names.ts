/** Names out of the kit that fit a field of the case. */
import { openKit } from "../state/store";
import { CaseStore } from "../state/store";
import type { Store } from "./FieldFrame";

/** Ids of bags, cylinders and so on, or names of people; of the kit that belongs to what is open. */
export function namesOfKit(store: Store, table: string): string[] {
  const id = store instanceof CaseStore ? store.said.value?.kit_id : null;
  const document = id ? openKit(id).document.value : store.kind === "kit" ? store.document.value : {};
  const rows = document[table];
  if (!Array.isArray(rows)) return [];
  const names = rows.map((row: Record<string, unknown>) => row?.["id"] ?? row?.["name"]);
  return names.filter((name): name is string => typeof name === "string" && name !== "");
}
