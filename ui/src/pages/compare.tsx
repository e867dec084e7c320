/** Compare: two or three variants of a plan side by side, with what differs marked. */
import { useEffect, useState } from "preact/hooks";
import { pages as t } from "../texts/pages";
import { api } from "../state/api";
import { writer } from "../state/person";
import type { CaseLine, CaseSaid } from "../state/types";
import { troubleWords, useAsked, useNews } from "./ask";
import { useCase } from "./open_case";
import { Confirmed, Head, PrintButton, PrintedAt, TroubleBox, Waiting } from "./parts";
import { SideBySide } from "./side_by_side";
import type { Comparison } from "./shapes";

/** Most variants beside the first one. */
const MOST_BESIDE = 2;

/** The page at #/case/ID/compare. */
export function Compare({ id }: { id: string }) {
  const open = useCase(id);
  const news = useNews();
  const list = useAsked<{ cases: CaseLine[] }>("/cases", news);
  const first = open.said ? (open.said.parent ?? open.said.id) : null;
  const variants = (list.data?.cases ?? []).filter((row) => row.parent === first).reverse();
  const [picked, setPicked] = useState<string[] | null>(null);
  const beside = picked ?? (first === id ? variants.map((row) => row.id) : [id]).slice(0, MOST_BESIDE);
  const asked = first && beside.length ? `/cases/${first}/compare?${beside.map((one) => `with=${one}`).join("&")}` : null;
  const table = useAsked<Comparison>(asked, open.version === null ? null : `${open.version} ${news}`);
  const [failed, setFailed] = useState<string | null>(null);
  const [done, setDone] = useState("");
  useEffect(() => setPicked(null), [id]);

  const make = (name: string) =>
    attempt(api.post<CaseSaid>(`/cases/${first ?? id}/variants`, { who: writer(), name }), (made) => {
      setDone(t.compare.made(name));
      setPicked([made.id, ...beside.filter((one) => one !== id || id !== first)].slice(0, MOST_BESIDE));
    });
  const choose = (variant: string, name: string, base: number) =>
    attempt(api.post<CaseSaid>(`/cases/${first ?? id}/choose`, { who: writer(), variant, base }), () => {
      setDone(t.compare.chosen(name));
    });
  const attempt = (doing: Promise<CaseSaid>, then: (said: CaseSaid) => void) => {
    setFailed(null);
    setDone("");
    doing.then(
      (said) => {
        then(said);
        list.again();
        table.again();
      },
      (error: unknown) => {
        setFailed(troubleWords(error));
        table.again();
      },
    );
  };
  const pick = (one: string, on: boolean) => setPicked(on ? [...beside, one] : beside.filter((each) => each !== one));
  return (
    <article class="page compare">
      <Head title={t.compare.title} lead={open.said?.title ?? ""}>
        <PrintButton word={t.compare.print} />
      </Head>
      <TroubleBox trouble={failed ?? open.trouble ?? list.trouble ?? table.trouble} again={table.again} />
      <p class="said" role="status">
        {done}
      </p>
      <Picker variants={variants} beside={beside} pick={pick} />
      {table.data ? (
        <SideBySide
          said={table.data}
          holds={table.holds}
          below={(column, place) =>
            place === 0 ? (
              <span class="quiet-words">{t.compare.the_case}</span>
            ) : (
              <Confirmed
                word={t.compare.choose}
                label={t.compare.choose_one(column.variant ?? column.title)}
                ask={t.compare.ask(column.variant ?? column.title)}
                yes={t.compare.choose_one(column.variant ?? column.title)}
                run={() => choose(column.id, column.variant ?? column.title, table.data?.columns[0]?.revision ?? 1)}
              />
            )
          }
        />
      ) : asked && !table.trouble ? (
        <Waiting />
      ) : null}
      {list.data && !variants.length ? <p>{t.compare.none}</p> : null}
      <NewVariant make={make} />
      <p class="defer">
        {t.defer} <PrintedAt />
      </p>
    </article>
  );
}

function Picker(props: { variants: CaseLine[]; beside: string[]; pick: (id: string, on: boolean) => void }) {
  if (!props.variants.length) return null;
  const full = props.beside.length >= MOST_BESIDE;
  return (
    <fieldset class="picker no-print">
      <legend>{t.compare.pick}</legend>
      {props.variants.map((row) => {
        const on = props.beside.includes(row.id);
        return (
          <label key={row.id} class="tick">
            <input
              type="checkbox"
              checked={on}
              disabled={full && !on}
              onChange={(event) => props.pick(row.id, event.currentTarget.checked)}
            />
            <span>{row.variant ?? row.title}</span>
          </label>
        );
      })}
      {full ? <p class="quiet-words">{t.compare.full}</p> : null}
    </fieldset>
  );
}

function NewVariant({ make }: { make: (name: string) => void }) {
  const [name, setName] = useState("");
  const submit = (event: Event) => {
    event.preventDefault();
    if (!name.trim()) return;
    make(name.trim());
    setName("");
  };
  return (
    <form class="one-line no-print" onSubmit={submit}>
      <label for="variant-name">{t.compare.name}</label>
      <p class="help" id="variant-help">
        {t.compare.name_help}
      </p>
      <input
        id="variant-name"
        aria-describedby="variant-help"
        maxLength={80}
        value={name}
        onInput={(event) => setName(event.currentTarget.value)}
      />
      <button type="submit" class="firm" disabled={!name.trim()}>
        {t.compare.make}
      </button>
    </form>
  );
}
