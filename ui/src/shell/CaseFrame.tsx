/** The frame of a case: head, stages with their state, views, and the page in the middle. */
import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";

import { caseHash } from "../state/route";
import { openKit, type CaseStore } from "../state/store";
import { STAGES } from "../stages/layout";
import { texts } from "../stages/reading";
import { Dialog } from "../widgets/Dialog";
import { Mark } from "../widgets/Mark";
import { frame as t } from "../texts/frame";
import { AwayBanner, ClashSheet, RefusedBanner } from "./Banners";
import { Head } from "./Head";
import { Saved } from "./Saved";

const VIEWS = ["tonight", "compare", "sources", "files", "history"] as const;

/** Everything around one page of a case. */
export function CaseFrame({ store, page, children }: { store: CaseStore; page: string; children: ComponentChildren }) {
  const said = store.said.value;
  const title = said ? (said.variant ? `${said.title}: ${said.variant}` : said.title) : t.loading;
  useEffect(() => {
    document.title = `${title} - ${t.name}`;
  }, [title]);
  return (
    <>
      <a class="skip" href="#main" onClick={skip}>
        {t.skip}
      </a>
      <Head>
        <a class="head-title" href={caseHash(store.id, "call")}>
          {title}
        </a>
        <Saved store={store} />
      </Head>
      <AwayBanner store={store} />
      <RefusedBanner store={store} />
      <ClashSheet store={store} />
      <div class="case">
        <div class="side no-print">
          <div class="side-in">
            <Column store={store} page={page} />
          </div>
        </div>
        <main id="main" class="main" tabIndex={-1}>
          {children}
        </main>
      </div>
      <p class="printed print-only">{said ? `${title} · ${t.printed(said.revision, said.kit_revision)}` : ""}</p>
      <Thumb store={store} page={page} />
    </>
  );
}

function skip(event: Event): void {
  event.preventDefault();
  document.getElementById("main")?.focus();
}

function Column({ store, page, leave }: { store: CaseStore; page: string; leave?: () => void }) {
  const states = store.current.value?.stages;
  const kit = store.said.value?.kit_id ?? null;
  const here = (name: string) => (name === page ? ({ "aria-current": "page" } as const) : {});
  return (
    <>
      <nav aria-label={t.stages_label}>
        <ol class="stage-list">
          {STAGES.map((stage) => (
            <li key={stage}>
              <a href={caseHash(store.id, stage)} {...here(stage)} onClick={leave}>
                <span class="stage-name">{t.stages[stage]}</span>
                <Mark state={states?.[stage]?.state ?? "none"} />
              </a>
            </li>
          ))}
        </ol>
      </nav>
      <nav aria-label={t.views_label}>
        <ul class="view-list">
          {VIEWS.map((view) => (
            <li key={view}>
              <a href={caseHash(store.id, view)} {...here(view)} onClick={leave}>
                {t.views[view]}
              </a>
            </li>
          ))}
          <li>
            {kit ? (
              <a href={`#/kit/${kit}`}>{t.kit(openKit(kit).said.value?.title ?? "")}</a>
            ) : (
              <a href={caseHash(store.id, "kit")} {...here("kit")}>
                {t.no_kit}
              </a>
            )}
          </li>
        </ul>
      </nav>
    </>
  );
}

/** On a phone: the next step at the thumb, the list of what ends the dive always in the same corner. */
function Thumb({ store, page }: { store: CaseStore; page: string }) {
  const [open, setOpen] = useState<"stages" | "abort" | null>(null);
  const place = STAGES.findIndex((stage) => stage === page);
  const next = place >= 0 ? STAGES[place + 1] : undefined;
  const plan = store.current.value?.plan;
  const abort = texts(plan?.["abort"]);
  return (
    <nav class="thumb no-print" aria-label={t.go}>
      <button type="button" class="plain" onClick={() => setOpen("stages")}>
        {t.open_menu}
      </button>
      {next ? (
        <a class="button" href={caseHash(store.id, next)}>
          {t.next(t.stages[next])}
        </a>
      ) : (
        <a class="button" href={caseHash(store.id, "tonight")}>
          {t.views.tonight}
        </a>
      )}
      <button type="button" class="plain abort" onClick={() => setOpen("abort")}>
        {t.abort.button}
      </button>
      {open === "stages" ? (
        <Dialog title={t.stages_label} onClose={() => setOpen(null)}>
          <Column store={store} page={page} leave={() => setOpen(null)} />
        </Dialog>
      ) : null}
      {open === "abort" ? (
        <Dialog title={t.abort.title} onClose={() => setOpen(null)}>
          {abort.length ? (
            <ul class="abort-list">
              {abort.map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
          ) : (
            <p>{t.abort.none}</p>
          )}
          <p class="abort-action">{typeof plan?.["abort_action"] === "string" ? plan["abort_action"] : ""}</p>
        </Dialog>
      ) : null}
    </nav>
  );
}
