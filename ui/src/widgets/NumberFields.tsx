/** Plain numbers, moments, days, places: kept as they are typed until they can be read. */
import { useRef, useState } from "preact/hooks";

import { at } from "../state/paths";
import { forms as t } from "../texts/forms";
import { active, gesture } from "./active";
import { FieldFrame, type FieldProps } from "./FieldFrame";
import { coordinates, placeText } from "./place_text";
import { localPart, withLocal, zonePart } from "./time_text";

interface TypedProps extends FieldProps {
  /** What stands in the document, as text. */
  show: (raw: unknown) => string;
  /** What is written for a text; undefined takes it away. */
  read: (text: string) => unknown;
  type?: "text" | "date" | "datetime-local";
  mode?: "decimal" | "numeric" | "text";
  told?: string;
}

function Typed({ show, read, type = "text", mode = "text", told = "", ...props }: TypedProps) {
  const [draft, setDraft] = useState<string | null>(null);
  const run = useRef("");
  const raw = at(props.store.document.value, props.path);
  const put = (text: string) => {
    setDraft(text);
    const value = text.trim() === "" ? undefined : read(text);
    const change =
      value === undefined
        ? { op: "remove" as const, path: [...props.path] }
        : { op: "set" as const, path: [...props.path], value };
    props.store.edit([change], t.did.set(props.field.label, text.trim()), run.current || (run.current = gesture()));
  };
  return (
    <FieldFrame {...props}>
      {(tied) => (
        <>
          <input
            id={tied.id}
            type={type as "text"}
            inputMode={mode}
            autocomplete="off"
            class="value"
            value={draft ?? show(raw)}
            placeholder={props.field.default === null ? "" : t.else_default(String(props.field.default))}
            aria-describedby={tied.describedBy}
            aria-invalid={tied.invalid}
            onFocus={() => {
              active.value = tied.id;
              run.current = gesture();
            }}
            onBlur={() => setDraft(null)}
            onInput={(event) => put(event.currentTarget.value)}
          />
          {told ? <p class="told">{told}</p> : null}
        </>
      )}
    </FieldFrame>
  );
}

const plainText = (raw: unknown) => (raw === undefined || raw === null ? "" : String(raw));

/** A number that can be read is written as a number, anything else as it is typed: the server says what is wrong. */
export function readNumber(text: string): unknown {
  const clean = text.trim().replace(",", ".").replace("\u2212", "-");
  return /^-?(\d+\.?\d*|\.\d+)$/.test(clean) ? Number(clean) : text;
}

/** A plain number. */
export function NumberField(props: FieldProps) {
  return <Typed {...props} show={plainText} read={readNumber} mode="decimal" />;
}

/** A day. */
export function DateField(props: FieldProps) {
  const raw = plainText(at(props.store.document.value, props.path));
  const odd = raw !== "" && !/^\d{4}-\d\d-\d\d$/.test(raw);
  return <Typed {...props} show={plainText} read={(text) => text} type={odd ? "text" : "date"} />;
}

/** A moment: day and time by the clock of the place, with its offset from UTC. */
export function TimeField(props: FieldProps) {
  const raw = plainText(at(props.store.document.value, props.path));
  const odd = raw !== "" && localPart(raw) === null;
  if (odd) return <Typed {...props} show={plainText} read={(text) => text} told={t.time_form} />;
  const zone = raw ? zonePart(raw) : "";
  return (
    <Typed
      {...props}
      show={(value) => localPart(plainText(value)) ?? ""}
      read={(text) => withLocal(raw, text)}
      type="datetime-local"
      told={zone ? t.zone(zone) : ""}
    />
  );
}

/** A gas: air, nitrox, trimix in words of the format. */
export function GasField(props: FieldProps) {
  return <Typed {...props} show={plainText} read={(text) => text} told={t.gas_form} />;
}

/** Two plain numbers, low and high. */
export function TwoNumbersField(props: FieldProps) {
  const show = (raw: unknown) => (Array.isArray(raw) ? raw.join(" ") : plainText(raw));
  const read = (text: string) => {
    const parts = text
      .trim()
      .split(/[\s/;]+/)
      .map(readNumber);
    return parts.length === 2 ? parts : text;
  };
  return <Typed {...props} show={show} read={read} told={t.two_form} />;
}

/** A place: latitude and longitude in degrees, or in degrees and minutes. */
export function PlaceField(props: FieldProps) {
  return <Typed {...props} show={placeText} read={(text) => coordinates(text) ?? text} told={t.place_form} />;
}

/** Several places, one after another. */
export function PlacesField(props: FieldProps) {
  const show = (raw: unknown) => (Array.isArray(raw) ? raw.map(placeText).join("; ") : plainText(raw));
  const read = (text: string) =>
    text
      .split(";")
      .filter((part) => part.trim())
      .map((part) => coordinates(part) ?? part.trim());
  return <Typed {...props} show={show} read={read} told={t.places_form} />;
}

/** Pairs of lengths: "0 m, 16 m; 20 m, 9 m". */
export function PairsField(props: FieldProps) {
  const show = (raw: unknown) =>
    Array.isArray(raw)
      ? raw.map((pair) => (Array.isArray(pair) ? pair.join(", ") : plainText(pair))).join("; ")
      : plainText(raw);
  const read = (text: string) =>
    text
      .split(";")
      .filter((part) => part.trim())
      .map((part) => part.split(",").map((one) => one.trim()));
  return <Typed {...props} show={show} read={read} told={t.pairs_form} />;
}
