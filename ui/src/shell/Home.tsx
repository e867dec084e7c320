/** All cases and kits, and the ways to a new one. */
import { useEffect, useState } from "preact/hooks";

import { api, Refusal } from "../state/api";
import { onNews } from "../state/news";
import { writer } from "../state/person";
import { caseHash, go } from "../state/route";
import type { CaseLine, CaseSaid, KitLine } from "../state/types";
import { Dialog } from "../widgets/Dialog";
import { frame as t } from "../texts/frame";

interface Lists {
  cases: CaseLine[];
  kits: KitLine[];
}

/** Draw them; the list follows the news. */
export function Home() {
  const [trouble, setTrouble] = useState("");
  const lists = useLists(setTrouble);
  const fail = (error: unknown) => setTrouble(error instanceof Refusal ? error.told.what : t.away.short);
  const example = (name: string) =>
    api.post<CaseSaid>("/cases", { who: writer(), example: name }).then((made) => go(caseHash(made.id, "call")), fail);
  const remove = (row: CaseLine) => void api.remove(`/cases/${row.id}`).catch(fail);
  useEffect(() => {
    document.title = t.name;
  }, []);
  return (
    <div class="home">
      <h1>{t.home.title}</h1>
      <p class="lead">{t.tagline}</p>
      <p class="doings no-print">
        <a class="button firm" href="#/new">
          {t.home.new_case}
        </a>
        <a class="button" href="#/import">
          {t.home.take_in}
        </a>
        <a class="button" href="#/checks">
          {t.home.checks}
        </a>
      </p>
      {trouble ? (
        <p class="trouble" role="alert">
          {trouble}
        </p>
      ) : null}
      {lists === null ? <p role="status">{t.loading}</p> : null}
      {lists?.cases.length === 0 ? <p>{t.home.none}</p> : null}
      <ul class="case-list">
        {lists?.cases.map((row) => (
          <CaseRow key={row.id} row={row} remove={remove} />
        ))}
      </ul>
      <h2>{t.home.kits}</h2>
      {lists?.kits.length === 0 ? <p>{t.home.no_kits}</p> : null}
      <ul class="case-list">
        {lists?.kits.map((row) => (
          <li key={row.id}>
            <a href={`#/kit/${row.id}`}>
              <span class="case-title">{row.title}</span>
            </a>
          </li>
        ))}
      </ul>
      <h2>{t.home.example}</h2>
      <p class="doings no-print">
        {Object.entries(t.home.examples).map(([name, words]) => (
          <button key={name} type="button" class="plain" onClick={() => void example(name)}>
            {words}
          </button>
        ))}
      </p>
    </div>
  );
}

function useLists(tell: (trouble: string) => void): Lists | null {
  const [lists, setLists] = useState<Lists | null>(null);
  useEffect(() => {
    let here = true;
    const read = async () => {
      try {
        const [cases, kits] = await Promise.all([
          api.get<Pick<Lists, "cases">>("/cases"),
          api.get<Pick<Lists, "kits">>("/kits"),
        ]);
        if (here) setLists({ ...cases, ...kits });
        if (here) tell("");
      } catch (error) {
        if (here) tell(error instanceof Error ? error.message : t.away.short);
      }
    };
    void read();
    const end = onNews(() => void read());
    return () => {
      here = false;
      end();
    };
  }, [tell]);
  return lists;
}

function CaseRow({ row, remove }: { row: CaseLine; remove: (row: CaseLine) => void }) {
  const [asked, setAsked] = useState(false);
  const when = new Date(row.changed_at).toLocaleString("en-GB", {
    day: "numeric",
    month: "short",
    hour: "2-digit",
    minute: "2-digit",
  });
  return (
    <li>
      <a href={caseHash(row.id, "call")}>
        <span class="case-title">{row.variant ? `${row.title}: ${row.variant}` : row.title}</span>
        <span class="quiet">{t.home.changed(when)}</span>
      </a>
      <button
        type="button"
        class="plain small no-print"
        aria-label={`${t.home.remove}: ${row.title}`}
        onClick={() => setAsked(true)}
      >
        {t.home.remove}
      </button>
      {asked ? (
        <Dialog title={t.home.remove} onClose={() => setAsked(false)} close={t.home.remove_not}>
          <p>{t.home.remove_sure(row.title)}</p>
          <button
            type="button"
            class="firm"
            onClick={() => {
              setAsked(false);
              remove(row);
            }}
          >
            {t.home.remove}
          </button>
        </Dialog>
      ) : null}
    </li>
  );
}
