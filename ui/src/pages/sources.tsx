/** Sources: every number of the plan by section, and the sheet of one number: where it comes from. */
import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import type { CaseStore } from "../state/store";
import { pages as t } from "../texts/pages";
import { useAsked } from "./ask";
import { Verdict } from "../widgets/Verdict";
import { numbersOf, useCase } from "./open_case";
import { Head, numberLink, TroubleBox, Waiting } from "./parts";
import { Sheet } from "./sheet";
import type { NumberLine, NumberSheet } from "./shapes";

/** The page at #/case/ID/sources and #/case/ID/sources/PATH. */
export function Sources({ id, rest }: { id: string; rest?: readonly string[] }) {
  const open = useCase(id);
  const path = (rest ?? []).join("/");
  const props = { id, version: open.planned, wrong: open.wrong, lead: open.title, gone: open.trouble, store: open.store };
  return path ? <OneNumber {...props} path={path} /> : <AllNumbers {...props} />;
}

interface Props {
  id: string;
  version: string | null;
  wrong: boolean;
  lead: string;
  gone: string | null;
  store: CaseStore;
}

function OneNumber({ id, version, wrong, lead, gone, store, path }: Props & { path: string }) {
  const said = useAsked<NumberSheet>(`/cases/${id}/numbers/${encodeURIComponent(path)}`, version);
  const top = useRef<HTMLElement>(null);
  useEffect(() => top.current?.querySelector<HTMLElement>("h1")?.focus(), [path]);
  return (
    <article class="page sources" ref={top}>
      <Head title={said.data?.name ?? t.sources.one} lead={lead}>
        <a class="plain" href={`#/case/${id}/sources`}>
          {t.sources.back}
        </a>
      </Head>
      <TroubleBox trouble={gone ?? said.trouble} again={said.again} />
      {wrong ? <Verdict store={store} /> : said.data ? <Sheet id={id} said={said.data} holds={said.holds} /> : said.trouble ? null : <Waiting />}
    </article>
  );
}

function AllNumbers({ id, wrong, lead, gone, store }: Props) {
  const now = store.current.value;
  const [last, setLast] = useState(now);
  const [words, setWords] = useState("");
  useEffect(() => {
    if (now) setLast(now);
  }, [now]);
  const rows = numbersOf(now ?? last);
  const parts = words.toLowerCase().split(/\s+/).filter(Boolean);
  const found = rows.filter((row) => parts.every((part) => `${row.name} ${row.path}`.toLowerCase().includes(part)));
  const sections = [...new Set(found.map(sectionOf))];
  const twins = useMemo(() => twinsOf(rows), [rows]);
  const trouble = gone ?? store.trouble.value?.what ?? null;
  return (
    <article class="page sources">
      <Head title={t.sources.title} lead={lead} />
      <p>{t.sources.lead}</p>
      <TroubleBox trouble={trouble} again={() => store.askAgain()} />
      <form class="filters no-print" role="search" onSubmit={(event) => event.preventDefault()}>
        <label>
          {t.sources.search}
          <input type="search" value={words} onInput={(event) => setWords(event.currentTarget.value)} />
        </label>
      </form>
      {now || trouble ? null : <Waiting />}
      {wrong ? <Verdict store={store} /> : null}
      {now?.plan ? <p role="status">{t.sources.found(found.length, rows.length)}</p> : null}
      {sections.map((section) => (
        <section key={section} class="numbers">
          <h2>{t.sources.sections[section] ?? section}</h2>
          <ul>
            {found
              .filter((row) => sectionOf(row) === section)
              .map((row) => (
                <li key={row.path}>
                  <a href={numberLink(id, row.path)}>
                    {row.name}
                    {twins.has(row.name) ? <span class="id"> {row.path}</span> : null}
                  </a>
                  <span class={now ? "value" : "value away"}>
                    <strong>{row.likely}</strong> {row.band ? <span class="band">({row.band})</span> : null}
                  </span>
                </li>
              ))}
          </ul>
        </section>
      ))}
    </article>
  );
}

/** Names that more than one number has: those are told apart by their paths. */
function twinsOf(rows: readonly NumberLine[]): Set<string> {
  const seen = new Set<string>();
  return new Set(rows.flatMap((row) => (seen.has(row.name) ? [row.name] : (seen.add(row.name), []))));
}

function sectionOf(row: NumberLine): string {
  return row.path.split(/[.[]/)[0] ?? "";
}
