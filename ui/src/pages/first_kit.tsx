/** A first small kit, typed once: bags, cylinders, people; the rest can wait for the page of the kit. */
import { useState } from "preact/hooks";
import { pages as t } from "../texts/pages";
import { api } from "../state/api";
import { tellPerson, writer } from "../state/person";
import { troubleWords } from "./ask";
import { kitDocument, type FirstRow } from "./kit_document";
import { TroubleBox } from "./parts";

type Part = "bag" | "cylinder" | "person";

interface Column {
  key: string;
  choices?: readonly string[];
  decimal?: boolean;
}

const COLUMNS: Record<Part, readonly Column[]> = {
  bag: [{ key: "id" }, { key: "style", choices: ["open", "closed", "open with flap"] }, { key: "capacity" }],
  cylinder: [{ key: "id" }, { key: "use", choices: ["lifting", "breathing"] }, { key: "volume" }, { key: "pressure" }],
  person: [{ key: "name" }, { key: "may", choices: ["bag tender", "load tender", "searcher", "rigger", "standby diver", "tender", "supervisor"] }],
};

const FIRST: Record<Part, readonly FirstRow[]> = {
  bag: [{ style: "open" }],
  cylinder: [{ use: "lifting" }, { use: "breathing" }],
  person: [{ may: "bag tender" }, { may: "load tender" }, { may: "standby diver" }, { may: "supervisor" }],
};

/** Id of the form: the button that sends it stands at the thumb. */
export const FIRST_KIT = "first-kit";

/** The form; `made` hears the id of the new kit. */
export function FirstKit({ who, made }: { who: string; made: (id: string) => void }) {
  const [name, setName] = useState("");
  const [rows, setRows] = useState<Record<Part, readonly FirstRow[]>>(FIRST);
  const [failed, setFailed] = useState<string | null>(null);
  const set = (part: Part, place: number, key: string, value: string) =>
    setRows((old) => ({ ...old, [part]: old[part].map((row, at) => (at === place ? { ...row, [key]: value } : row)) }));
  const add = (part: Part) => setRows((old) => ({ ...old, [part]: [...old[part], FIRST[part][0] ?? {}] }));
  const drop = (part: Part, place: number) =>
    setRows((old) => ({ ...old, [part]: old[part].filter((_, at) => at !== place) }));
  const submit = (event: Event) => {
    event.preventDefault();
    setFailed(null);
    tellPerson(who);
    api.post<{ id: string }>("/kits", { who: writer(), document: kitDocument(name, rows) }).then(
      (kit) => made(kit.id),
      (error: unknown) => setFailed(troubleWords(error)),
    );
  };
  return (
    <form class="first-kit" id={FIRST_KIT} onSubmit={submit}>
      <h2>{t.first_kit.title}</h2>
      <p class="help">{t.first_kit.lead}</p>
      <label class="told-field">
        {t.first_kit.team}
        <input value={name} required maxLength={80} onInput={(event) => setName(event.currentTarget.value)} />
      </label>
      {(Object.keys(COLUMNS) as Part[]).map((part) => (
        <fieldset key={part} class="first-rows">
          <legend>{t.first_kit.parts[part]}</legend>
          {rows[part].map((row, place) => (
            <div key={place} class="first-row" role="group" aria-label={t.first_kit.row(t.first_kit.one[part], place + 1)}>
              {COLUMNS[part].map((column) => (
                <Cell
                  key={column.key}
                  column={column}
                  example={t.first_kit.examples[`${part}.${column.key}`] ?? ""}
                  value={row[column.key] ?? ""}
                  put={(value) => set(part, place, column.key, value)}
                />
              ))}
              <button type="button" class="plain" onClick={() => drop(part, place)}>
                {t.first_kit.drop}
                <span class="hidden-words"> {t.first_kit.row(t.first_kit.one[part], place + 1)}</span>
              </button>
            </div>
          ))}
          <button type="button" class="plain" onClick={() => add(part)}>
            {t.first_kit.add[part]}
          </button>
        </fieldset>
      ))}
      <TroubleBox trouble={failed} />
    </form>
  );
}

function Cell(props: { column: Column; example: string; value: string; put: (value: string) => void }) {
  const { column, example, value, put } = props;
  return (
    <label>
      {t.first_kit.columns[column.key]}
      {column.choices ? (
        <select value={value} onChange={(event) => put(event.currentTarget.value)}>
          {column.choices.map((word) => (
            <option key={word} value={word}>
              {word}
            </option>
          ))}
        </select>
      ) : (
        <input
          autocomplete="off"
          placeholder={example}
          value={value}
          onInput={(event) => put(event.currentTarget.value)}
        />
      )}
    </label>
  );
}
