/** Any field by its type, and any section of the form. */
import type { ComponentType } from "preact";
import { useState } from "preact/hooks";

import { at, named } from "../state/paths";
import type { FormField, FormSection, Path } from "../state/types";
import { ordered } from "../stages/layout";
import { forms as t } from "../texts/forms";
import { gesture } from "./active";
import { faultText, type FieldProps, type Store } from "./FieldFrame";
import {
  DateField,
  GasField,
  NumberField,
  PairsField,
  PlaceField,
  PlacesField,
  TimeField,
  TwoNumbersField,
} from "./NumberFields";
import { Rows } from "./Rows";
import { ValueField } from "./ValueField";
import { FlagField, TextField, WordField, WordsField } from "./WordFields";

const BY_TYPE: Record<string, ComponentType<FieldProps>> = {
  value: ValueField,
  text: TextField,
  word: WordField,
  words: WordsField,
  texts: WordsField,
  flag: FlagField,
  number: NumberField,
  time: TimeField,
  date: DateField,
  gas: GasField,
  place: PlaceField,
  places: PlacesField,
  pairs: PairsField,
  two_numbers: TwoNumbersField,
  table: TableField,
  rows: RowsField,
};

/** One field. */
export function Field(props: FieldProps) {
  const Draw = BY_TYPE[props.field.type] ?? TextField;
  return <Draw {...props} />;
}

/** Fields of one table, in their order; those named in `more` lie behind a button until something stands in them. */
export function Fields({
  store,
  fields,
  path,
  more = [],
}: {
  store: Store;
  fields: readonly FormField[];
  path: Path;
  more?: readonly string[];
}) {
  const [open, setOpen] = useState(false);
  const order = more.length ? { fields, more } : ordered(path, fields);
  const rare = order.fields.filter((field) => order.more.includes(field.key));
  const hidden = rare.filter((field) => at(store.document.value, [...path, field.key]) === undefined);
  const shown = order.fields.filter((field) => open || !hidden.includes(field));
  return (
    <div class="fields">
      {shown.map((field) => (
        <Field key={field.key} store={store} field={field} path={[...path, field.key]} />
      ))}
      {hidden.length ? (
        <button type="button" class="plain more no-print" aria-expanded={open} onClick={() => setOpen(!open)}>
          {open ? t.less : t.more(hidden.map((field) => field.label))}
        </button>
      ) : null}
    </div>
  );
}

/** A table inside a table: there, or not there. */
function TableField({ store, field, path }: FieldProps) {
  const there = at(store.document.value, path) !== undefined;
  const faults = store.faults.value.filter((fault) => named(fault.path) === named(path));
  return (
    <div class="table-field" role="group" aria-label={field.label} data-key={named(path)}>
      <div class="field-head">
        <span class="label">{field.label}</span>
        <span class="help">{field.help}</span>
        <button
          type="button"
          class="plain small no-print"
          onClick={() =>
            store.edit(
              [there ? { op: "remove", path: [...path] } : { op: "set", path: [...path], value: {} }],
              there ? t.did.drop(field.label) : t.did.add(field.label),
              gesture(),
            )
          }
        >
          {there ? t.drop(field.label) : t.add(field.label)}
        </button>
      </div>
      {faults.map((fault) => (
        <p key={fault.what} class="fault">
          {faultText(fault)}
        </p>
      ))}
      {there ? <Fields store={store} fields={field.fields} path={path} /> : null}
    </div>
  );
}

function RowsField({ store, field, path }: FieldProps) {
  return (
    <div class="rows-field" role="group" aria-label={field.label}>
      <div class="field-head">
        <span class="label">{field.label}</span>
        <span class="help">{field.help}</span>
      </div>
      <Rows store={store} field={field} path={path} />
    </div>
  );
}

interface SectionProps {
  store: Store;
  section: FormSection;
  keys?: readonly string[];
  more?: readonly string[];
  folded?: boolean;
  title?: string;
}

/** One section of the form: title, what it is, its fields or rows. */
export function Section({ store, section, keys, more = [], folded = false, title = section.title }: SectionProps) {
  const path = section.key ? [section.key] : [];
  const there = !folded || at(store.document.value, path) !== undefined;
  const [open, setOpen] = useState(false);
  const fields = keys ? keys.flatMap((key) => section.fields.filter((field) => field.key === key)) : section.fields;
  if (!there && !open)
    return (
      <section class="entry entry-folded no-print" data-section={section.key}>
        <button type="button" class="plain" aria-expanded={false} onClick={() => setOpen(true)}>
          {t.open(title)}
        </button>
        <span class="help">{section.help}</span>
      </section>
    );
  return (
    <section class="entry" data-section={section.key}>
      <h2>{title}</h2>
      <p class="help">{section.help}</p>
      {section.rows ? (
        <Rows store={store} field={{ label: title, fields: section.fields }} path={path} />
      ) : (
        <Fields store={store} fields={fields} path={path} more={more} />
      )}
    </section>
  );
}
