/** Take a case in from its file, and its kit beside it. */
import { useState } from "preact/hooks";
import { pages as t } from "../texts/pages";
import { api } from "../state/api";
import { writer } from "../state/person";
import { caseHash, go } from "../state/route";
import type { CaseSaid } from "../state/types";
import { troubleWords } from "./ask";
import { TroubleBox } from "./parts";

/** A form that makes a case out of a TOML file or its text: a page of its own, or `below` the files of a case. */
export function TakeIn({ below = false }: { below?: boolean }) {
  const [texts, setTexts] = useState({ case: "", kit: "" });
  const [failed, setFailed] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const put = (part: "case" | "kit") => (text: string) => setTexts((old) => ({ ...old, [part]: text }));
  const submit = (event: Event) => {
    event.preventDefault();
    setFailed(null);
    setBusy(true);
    api.post<CaseSaid>("/import", { who: writer(), case: texts.case, kit: texts.kit.trim() ? texts.kit : null }).then(
      (made) => go(caseHash(made.id, "call")),
      (error: unknown) => {
        setBusy(false);
        setFailed(troubleWords(error));
      },
    );
  };
  return (
    <form class={below ? "take-in no-print" : "page take-in no-print"} onSubmit={submit}>
      {below ? <h2>{t.take_in.title}</h2> : <h1>{t.take_in.title}</h1>}
      <p>{t.take_in.lead}</p>
      <TextOfFile name="case" label={t.take_in.case} text={texts.case} put={put("case")} />
      <TextOfFile name="kit" label={t.take_in.kit} text={texts.kit} put={put("kit")} />
      <TroubleBox trouble={failed} />
      <button type="submit" class="firm" disabled={busy || !texts.case.trim()}>
        {busy ? t.waiting : t.take_in.make}
      </button>
    </form>
  );
}

function TextOfFile(props: { name: string; label: string; text: string; put: (text: string) => void }) {
  const read = (event: Event) => {
    const file = (event.currentTarget as HTMLInputElement).files?.[0];
    if (file) void file.text().then(props.put);
  };
  return (
    <fieldset>
      <legend>{props.label}</legend>
      <label>
        {t.take_in.file}
        <input type="file" accept=".toml,text/plain" onChange={read} />
      </label>
      <label>
        {t.take_in.text}
        <textarea
          rows={4}
          spellcheck={false}
          value={props.text}
          onInput={(event) => props.put(event.currentTarget.value)}
        />
      </label>
    </fieldset>
  );
}
