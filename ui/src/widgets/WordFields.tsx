/** Fields of words: free text with picks, one of a list, several of a list, yes or no. */
import { useRef } from "preact/hooks";

import { at } from "../state/paths";
import { forms as t } from "../texts/forms";
import { gesture } from "./active";
import { FieldFrame, type FieldProps } from "./FieldFrame";
import { namesOfKit } from "./kit_names";

const FEW = 4;
const LONG = [
  "how",
  "then",
  "help",
  "lift_points",
  "lies",
  "reason",
  "gas_loss",
  "entangled",
  "runaway",
  "carried_up",
  "fit",
  "signals",
  "boat",
];

/** Write what stands there; nothing written takes the key away. */
function usePut({ store, field, path }: FieldProps): {
  raw: unknown;
  put: (value: unknown, same?: boolean) => void;
  begin: () => void;
} {
  const run = useRef("");
  const put = (value: unknown, same = false) => {
    const gone = value === undefined || value === "" || (Array.isArray(value) && value.length === 0);
    const change = gone ? { op: "remove" as const, path: [...path] } : { op: "set" as const, path: [...path], value };
    store.edit(
      [change],
      t.did.set(field.label, gone ? "" : String(value)),
      same ? run.current || (run.current = gesture()) : gesture(),
    );
  };
  return { raw: at(store.document.value, path), put, begin: () => (run.current = gesture()) };
}

/** Free text; a few choices are picks, many are offered while one types. */
export function TextField(props: FieldProps) {
  const { field } = props;
  const { raw, put, begin } = usePut(props);
  const text = raw === undefined || raw === null ? "" : String(raw);
  const offered = field.kit ? namesOfKit(props.store, field.kit) : field.choices.map(String);
  const few = offered.length > 0 && offered.length <= FEW;
  return (
    <FieldFrame {...props}>
      {(tied) => {
        const control = {
          id: tied.id,
          value: text,
          "aria-describedby": tied.describedBy,
          "aria-invalid": tied.invalid,
          onFocus: begin,
          onInput: (event: { currentTarget: { value: string } }) => put(event.currentTarget.value, true),
        };
        return (
          <div class={few ? "text-line" : "text-alone"}>
            {few ? (
              <div class="picks" role="group" aria-label={t.picks(field.label)}>
                {offered.map((word) => (
                  <button
                    key={word}
                    type="button"
                    class="pick"
                    aria-pressed={text === word}
                    onClick={() => put(text === word ? "" : word)}
                  >
                    {word}
                  </button>
                ))}
              </div>
            ) : null}
            {LONG.includes(field.key) ? (
              <textarea rows={2} {...control} />
            ) : (
              <input
                type="text"
                autocomplete="off"
                {...(few || !offered.length ? {} : { list: `${tied.id}-list` })}
                {...control}
              />
            )}
            {few || !offered.length ? null : (
              <datalist id={`${tied.id}-list`}>
                {offered.map((word) => (
                  <option key={word} value={word} />
                ))}
              </datalist>
            )}
          </div>
        );
      }}
    </FieldFrame>
  );
}

/** One of a list: buttons when few, a menu when many; what stands there is kept even when it is no choice. */
export function WordField(props: FieldProps) {
  const { field } = props;
  const { raw, put } = usePut(props);
  const text = raw === undefined || raw === null ? "" : String(raw);
  const choices = field.choices.map(String);
  const odd = text !== "" && !choices.includes(text);
  const none = field.default === null ? t.not_told : t.else_default(String(field.default));
  if (choices.length <= FEW)
    return (
      <FieldFrame {...props} group>
        {(tied) => (
          <div class="choices">
            {(field.needed ? choices : [...choices, ""]).map((word) => (
              <label key={word} class="choice">
                <input type="radio" name={tied.id} checked={text === word} onChange={() => put(word)} />
                <span>{word || none}</span>
              </label>
            ))}
            {odd ? <span class="odd">{text}</span> : null}
          </div>
        )}
      </FieldFrame>
    );
  return (
    <FieldFrame {...props}>
      {(tied) => (
        <select
          id={tied.id}
          value={text}
          aria-describedby={tied.describedBy}
          aria-invalid={tied.invalid}
          onChange={(event) => put(event.currentTarget.value)}
        >
          <option value="">{none}</option>
          {(odd ? [text, ...choices] : choices).map((word) => (
            <option key={word} value={word}>
              {word}
            </option>
          ))}
        </select>
      )}
    </FieldFrame>
  );
}

/** Several of a list, or names of the kit: in the order in which they are taken. */
export function WordsField(props: FieldProps) {
  const { field } = props;
  const { raw, put } = usePut(props);
  const taken = Array.isArray(raw) ? raw.map(String) : raw === undefined ? [] : [String(raw)];
  const kit = field.kit ? namesOfKit(props.store, field.kit) : field.choices.map(String);
  const choose = field.key === "bags" ? ["choose"] : [];
  const offered = [...new Set([...kit, ...taken.filter((word) => !choose.includes(word))])];
  const toggle = (word: string) => {
    const rest = taken.filter((one) => !choose.includes(one));
    put(rest.includes(word) ? rest.filter((one) => one !== word) : [...rest, word]);
  };
  if (!offered.length) return <LinesField {...props} />;
  return (
    <FieldFrame {...props} group>
      {() => (
        <div class="choices">
          {choose.map((word) => (
            <label key={word} class="choice">
              <input type="checkbox" checked={raw === undefined || raw === word} onChange={() => put(undefined)} />
              <span>{t.choose_for_me}</span>
            </label>
          ))}
          {offered.map((word) => (
            <label key={word} class="choice">
              <input type="checkbox" checked={taken.includes(word)} onChange={() => toggle(word)} />
              <span>
                {word}
                {taken.length > 1 && taken.includes(word) && field.kit ? (
                  <small> {taken.indexOf(word) + 1}</small>
                ) : null}
              </span>
            </label>
          ))}
        </div>
      )}
    </FieldFrame>
  );
}

/** Texts, one to a line. */
function LinesField(props: FieldProps) {
  const { raw, put, begin } = usePut(props);
  const lines = Array.isArray(raw) ? raw.map(String) : raw === undefined ? [] : [String(raw)];
  return (
    <FieldFrame {...props} beside={<span class="aside">{t.one_line_each}</span>}>
      {(tied) => (
        <textarea
          id={tied.id}
          rows={Math.max(2, lines.length + 1)}
          value={lines.join("\n")}
          aria-describedby={tied.describedBy}
          aria-invalid={tied.invalid}
          onFocus={begin}
          onInput={(event) =>
            put(event.currentTarget.value === "" ? undefined : event.currentTarget.value.split("\n"), true)
          }
        />
      )}
    </FieldFrame>
  );
}

/** Yes or no. */
export function FlagField(props: FieldProps) {
  const { raw, put } = usePut(props);
  const standing = props.field.default === true ? t.yes : t.no;
  return (
    <FieldFrame {...props} group>
      {(tied) => (
        <div class="choices">
          {[true, false].map((value) => (
            <label key={String(value)} class="choice">
              <input type="radio" name={tied.id} checked={raw === value} onChange={() => put(value)} />
              <span>{value ? t.yes : t.no}</span>
            </label>
          ))}
          <label class="choice">
            <input type="radio" name={tied.id} checked={raw === undefined} onChange={() => put(undefined)} />
            <span>{props.field.default === null ? t.not_told : t.else_default(standing)}</span>
          </label>
          {raw !== undefined && typeof raw !== "boolean" ? <span class="odd">{String(raw)}</span> : null}
        </div>
      )}
    </FieldFrame>
  );
}
