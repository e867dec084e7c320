/** What every field has around it: label, help, what it means in both systems of units, and what is wrong with it. */
import type { ComponentChildren } from "preact";
import { useId } from "preact/hooks";

import { named, overlaps } from "../state/paths";
import type { WrittenStore } from "../state/store";
import type { Fault, FormField, Path, ShownValue, Written } from "../state/types";
import { forms as t } from "../texts/forms";

export type Store = WrittenStore<Written>;

/** What a field needs to be drawn. */
export interface FieldProps {
  store: Store;
  field: FormField;
  path: Path;
}

/** Ids that tie the parts together. */
export interface Tied {
  id: string;
  describedBy: string;
  invalid: boolean;
}

interface Props extends FieldProps {
  children: (tied: Tied) => ComponentChildren;
  /** A group of controls is labelled by a legend. */
  group?: boolean;
  /** Whether both systems of units are told. */
  units?: boolean;
  beside?: ComponentChildren;
}

/** Draw it; the control itself comes from `children`. */
export function FieldFrame({ store, field, path, children, group = false, units = false, beside }: Props) {
  const id = useId();
  const key = named(path);
  const faults = store.faults.value.filter((fault) => named(fault.path) === key);
  const describedBy = `${id}-help ${id}-told${faults.length ? ` ${id}-fault` : ""}`;
  const tied = { id, describedBy, invalid: faults.length > 0 };
  const label = (
    <>
      {field.label}
      {field.needed ? <span class="needed"> {t.needed}</span> : null}
    </>
  );
  return (
    <div
      class={`field field-${field.type}`}
      data-key={key}
      {...(group ? { role: "group", "aria-labelledby": `${id}-label`, "aria-describedby": describedBy } : {})}
    >
      <div class="field-head">
        {group ? (
          <span id={`${id}-label`} class="label">
            {label}
          </span>
        ) : (
          <label for={id} class="label">
            {label}
          </label>
        )}
        {beside}
      </div>
      <p id={`${id}-help`} class={repeats(field) ? "help hidden-words" : "help"}>
        {field.help}
      </p>
      {children(tied)}
      {units ? (
        <p id={`${id}-told`} class="told">
          {toldText(store, path)}
        </p>
      ) : null}
      {faults.map((fault) => (
        <p key={fault.what} id={`${id}-fault`} class="fault">
          {faultText(fault)}
        </p>
      ))}
    </div>
  );
}

/** Whether the help says no more than the label. */
function repeats(field: FormField): boolean {
  const bare = (text: string) =>
    text
      .toLowerCase()
      .replace(/^(the|a|an|its|id of the|id of a|who is) /, "")
      .replace(/[^a-z]/g, "");
  return bare(field.help) === bare(field.label);
}

/** A fault in sentences. */
export function faultText(fault: Fault): string {
  return [fault.what, fault.allowed ? t.allowed(fault.allowed) : "", fault.do ?? ""]
    .map(sentence)
    .filter(Boolean)
    .join(" ");
}

/** Words as a sentence: a capital in front, a stop at the end. */
export function sentence(words: string): string {
  const clean = words.trim();
  if (!clean) return "";
  return clean.charAt(0).toUpperCase() + clean.slice(1) + (/[.!?]$/.test(clean) ? "" : ".");
}

/** A written value in both systems, the chosen one first; nothing while it is being changed. */
export function toldText(store: Store, path: Path): string {
  if (store.waiting.value.some((edit) => edit.changes.some((change) => overlaps(change.path, path)))) return "";
  const shown: ShownValue | undefined = store.said.value?.shown[named(path)];
  if (!shown) return "";
  const both = imperialFirst(store) ? [shown.imperial, shown.metric] : [shown.metric, shown.imperial];
  return [...new Set(both)].join(" = ");
}

/** Which system of units comes first. */
export function imperialFirst(store: Store): boolean {
  const first = store.document.value["case"] as { units?: unknown } | undefined;
  return first?.units === "imperial";
}
