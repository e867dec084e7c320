/** A value with its unit and its spread, written as text: "46 ± 4 kg", "35..45 kg". */
import type { TargetedKeyboardEvent } from "preact";
import { useRef } from "preact/hooks";

import { at } from "../state/paths";
import { forms as t } from "../texts/forms";
import { active, gesture } from "./active";
import { FieldFrame, type FieldProps } from "./FieldFrame";
import { afterSign, unitIn, withSign, withUnit } from "./unit_text";

const WAYS: Readonly<Record<string, number>> = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1 };
const WITHOUT_SPREAD = ["salinity", "number"];

/** Draw it. */
export function ValueField({ store, field, path }: FieldProps) {
  const box = useRef<HTMLInputElement>(null);
  const run = useRef("");
  const raw = at(store.document.value, path);
  const text = raw === undefined || raw === null ? "" : String(raw);
  const put = (value: string) => {
    const change = value.trim()
      ? { op: "set" as const, path: [...path], value }
      : { op: "remove" as const, path: [...path] };
    store.edit([change], t.did.set(field.label, value.trim()), run.current || (run.current = gesture()));
  };
  const tap = (value: string, cursor?: number) => {
    put(value);
    requestAnimationFrame(() => {
      box.current?.focus();
      const place = cursor ?? (value.startsWith(" ") ? 0 : value.length);
      box.current?.setSelectionRange(place, place);
    });
  };
  return (
    <FieldFrame store={store} field={field} path={path} units>
      {(tied) => (
        <>
          <input
            ref={box}
            id={tied.id}
            class="value"
            type="text"
            inputMode={field.units.length && field.kind !== "salinity" ? "decimal" : "text"}
            autocomplete="off"
            spellcheck={false}
            value={text}
            placeholder={field.default === null ? "" : t.else_default(String(field.default))}
            aria-describedby={tied.describedBy}
            aria-invalid={tied.invalid}
            onFocus={() => {
              active.value = tied.id;
              run.current = gesture();
            }}
            onInput={(event) => put(event.currentTarget.value)}
            onKeyDown={toPicks}
          />
          {active.value === tied.id ? (
            <div class="picks" role="group" aria-label={t.picks(field.label)} onKeyDown={amongPicks}>
              {field.units.map((unit) => (
                <button
                  key={unit}
                  type="button"
                  class="pick"
                  tabIndex={-1}
                  aria-pressed={unitIn(text, field.units) === unit}
                  onClick={() => tap(withUnit(text, unit))}
                >
                  {unit}
                </button>
              ))}
              {WITHOUT_SPREAD.includes(field.kind ?? "") || !/\d/.test(text) || /±|\.\./.test(text) ? null : (
                <>
                  <Sign sign="±" text={text} tap={tap} word={t.spread.about} />
                  <Sign sign=".." text={text} tap={tap} word={t.spread.between} />
                </>
              )}
              {field.unknown_ok ? (
                <button
                  type="button"
                  class="pick"
                  tabIndex={-1}
                  aria-pressed={text === "unknown"}
                  onClick={() => tap("unknown")}
                >
                  {t.unknown}
                </button>
              ) : null}
              <span class="pick-help">
                {/±|\.\./.test(text) || WITHOUT_SPREAD.includes(field.kind ?? "")
                  ? ""
                  : t.spread.help(unitIn(text, field.units) ?? field.units[0] ?? "")}
              </span>
            </div>
          ) : null}
        </>
      )}
    </FieldFrame>
  );
}

function Sign({
  sign,
  text,
  tap,
  word,
}: {
  sign: "±" | "..";
  text: string;
  tap: (value: string, cursor?: number) => void;
  word: string;
}) {
  const next = withSign(text, sign);
  return (
    <button
      type="button"
      class="pick"
      tabIndex={-1}
      aria-label={word}
      title={word}
      onClick={() => tap(next, afterSign(next))}
    >
      {sign}
    </button>
  );
}

/** Tab goes on to the next field; the arrow down goes to the picks, arrows move among them, up or Escape goes back. */
function toPicks(event: TargetedKeyboardEvent<HTMLInputElement>): void {
  if (event.key !== "ArrowDown") return;
  event.preventDefault();
  event.currentTarget.parentElement?.querySelector<HTMLElement>(".pick")?.focus();
}

function amongPicks(event: TargetedKeyboardEvent<HTMLDivElement>): void {
  const way = WAYS[event.key];
  const back = event.key === "ArrowUp" || event.key === "Escape";
  if (way === undefined && !back) return;
  event.preventDefault();
  const picks = [...event.currentTarget.querySelectorAll<HTMLElement>(".pick")];
  const here = picks.indexOf(document.activeElement as HTMLElement);
  if (back) event.currentTarget.parentElement?.querySelector<HTMLElement>("input")?.focus();
  else picks[(here + (way ?? 0) + picks.length) % picks.length]?.focus();
}
