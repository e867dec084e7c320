/** Files: the brief and the cards on paper, tracks for other machines, the case as a file; out, and in. */
import { useState } from "preact/hooks";
import { pages as t } from "../texts/pages";
import { useAsked } from "./ask";
import { Verdict } from "../widgets/Verdict";
import { useCase } from "./open_case";
import { Head, TroubleBox, Waiting } from "./parts";
import { TakeIn } from "./take_in";
import type { FileLine } from "./shapes";

type Paper = "a4" | "us-letter";

const PAPER_OF: Record<Paper, string> = { a4: "A4", "us-letter": "Letter" };
const ON_PAPER = "application/pdf";
const GROUPS: readonly (readonly [string, (name: string) => boolean])[] = [
  ["paper", (name) => name.endsWith(".pdf") || name.endsWith(".html")],
  ["search", (name) => name.startsWith("search.")],
  ["data", (name) => name.endsWith(".toml")],
];

/** The page at #/case/ID/files. */
export function Files({ id }: { id: string }) {
  const open = useCase(id);
  return (
    <article class="page files">
      <Head title={t.files.title} lead={open.title} />
      <TroubleBox trouble={open.trouble} />
      {open.wrong ? <Verdict store={open.store} /> : null}
      <FileList id={id} />
      <TakeIn below />
    </article>
  );
}

/** The list of files of one case, with the choice of paper; also for the stage of the brief. */
export function FileList({ id }: { id: string }) {
  const { version } = useCase(id);
  const [paper, setPaper] = useState<Paper>(paperHere);
  const said = useAsked<{ files: FileLine[] }>(`/cases/${id}/files?paper=${paper}`, version);
  const files = said.data?.files ?? [];
  return (
    <section class="file-list">
      <fieldset class="picker">
        <legend>{t.files.paper}</legend>
        {(Object.keys(PAPER_OF) as Paper[]).map((one) => (
          <label key={one} class="tick">
            <input type="radio" name="paper" checked={paper === one} onChange={() => setPaper(one)} />
            <span>{PAPER_OF[one]}</span>
          </label>
        ))}
      </fieldset>
      <TroubleBox trouble={said.trouble} again={said.again} />
      {!said.data && !said.trouble ? <Waiting text={t.files.waiting} /> : null}
      {GROUPS.map(([group, fits]) => {
        const rows = files.filter((row) => fits(row.name));
        return rows.length ? (
          <section key={group}>
            <h2>{t.files.groups[group]}</h2>
            <ul>
              {rows.map((row) => (
                <File key={row.name} id={id} row={row} paper={paper} />
              ))}
            </ul>
          </section>
        ) : null;
      })}
      <p class="quiet-words">{t.files.for_now}</p>
    </section>
  );
}

function File({ id, row, paper }: { id: string; row: FileLine; paper: Paper }) {
  if (row.why_not)
    return (
      <li class="not-yet">
        <strong>{row.title}</strong>
        <span>
          {t.files.not_yet} {row.why_not}
        </span>
      </li>
    );
  const address = `/api/cases/${id}/files/${row.name}?paper=${paper}`;
  const shown = row.type === ON_PAPER || row.type.startsWith("text/html");
  return (
    <li>
      <strong>{row.title}</strong>
      <span class="links">
        {shown ? (
          <a href={address} target="_blank" rel="noopener">
            {t.files.open}
            <span class="hidden-words"> {t.files.open_of(row.title)}</span>
          </a>
        ) : null}
        <a href={address} download={row.name}>
          {t.files.save}
          <span class="hidden-words"> {row.title}</span>
        </a>
      </span>
      <span class="id">
        {row.name}
        {row.type === ON_PAPER ? `, ${PAPER_OF[paper]}` : ""}
      </span>
    </li>
  );
}

/** Letter where that is the custom, by the language of the browser. */
function paperHere(): Paper {
  return /-(US|CA|MX|PH|CL|CO|VE)$/i.test(navigator.language) ? "us-letter" : "a4";
}
