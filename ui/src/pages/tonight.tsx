/** Tonight: the twenty questions of the evening before, at a glance. */
import { useState } from "preact/hooks";
import { caseHash } from "../state/route";
import { pages as t } from "../texts/pages";
import { Verdict } from "../widgets/Verdict";
import { useAsked } from "./ask";
import { MissingList } from "./missing_list";
import { pair, useCase } from "./open_case";
import { Head, PrintButton, PrintedAt, StateMark, TroubleBox, Waiting } from "./parts";
import type { Evening, EveningQuestion, Level } from "./shapes";

const OPEN: readonly Level[] = ["stop", "unanswered", "caution"];

/** The page at #/case/ID/tonight. */
export function Tonight({ id }: { id: string }) {
  const open = useCase(id);
  const evening = useAsked<Evening>(`/cases/${id}/tonight`, open.planned);
  const [openOnly, setOpenOnly] = useState(false);
  const { data } = evening;
  const holds = evening.holds && data !== null && pair(data.revision, data.kit_revision) === open.version;
  const rows = (data?.questions ?? []).filter((row) => !openOnly || OPEN.includes(row.state));
  return (
    <article class="page tonight">
      <Head title={t.tonight.title} lead={open.title}>
        <button type="button" class="plain" aria-pressed={openOnly} onClick={() => setOpenOnly(!openOnly)}>
          {t.tonight.open_only}
        </button>
        <PrintButton word={t.tonight.print} />
      </Head>
      <TroubleBox trouble={open.trouble ?? evening.trouble} again={evening.again} />
      <Verdict store={open.store} />
      <Summary evening={holds ? data : null} waiting={!evening.trouble && !open.trouble && !open.wrong} />
      {data ? (
        <ol class="twenty" aria-busy={!holds}>
          {rows.map((row) => (
            <Row key={row.n} id={id} row={row} holds={holds} />
          ))}
        </ol>
      ) : null}
      {holds && openOnly && !rows.length ? <p>{t.tonight.none_open}</p> : null}
      {holds ? (
        <section class="no-print">
          <h2>{t.first.missing}</h2>
          <MissingList id={id} rows={open.store.current.value?.missing ?? []} />
        </section>
      ) : null}
      <p class="defer">
        {t.defer} <PrintedAt />
      </p>
    </article>
  );
}

function Summary({ evening, waiting }: { evening: Evening | null; waiting: boolean }) {
  if (!evening) return <div class="counts-place">{waiting ? <Waiting /> : null}</div>;
  return (
    <div class="counts-place">
      <ul class="counts">
        {(["stop", "unanswered", "caution", "answered"] as const).map((state) => (
          <Count key={state} state={state} rows={evening.questions.filter((row) => row.state === state)} />
        ))}
      </ul>
      <p class="belongs">{t.belongs(evening.revision, evening.kit_revision)}</p>
    </div>
  );
}

/** How many questions stand so, and which: each number leads to its question. */
function Count({ state, rows }: { state: Level; rows: EveningQuestion[] }) {
  if (!rows.length) return null;
  return (
    <li>
      <StateMark state={state} word={t.tonight.count(state, rows.length)} />
      <span class="which">
        {rows.map((row) => (
          <button key={row.n} type="button" class="number-link" aria-label={t.tonight.to_question(row.n)} onClick={() => lookAt(row.n)}>
            {row.n}
          </button>
        ))}
      </span>
    </li>
  );
}

function lookAt(n: number): void {
  const row = document.getElementById(`question-${n}`);
  row?.scrollIntoView({ block: "start" });
  row?.focus({ preventScroll: true });
}

function Row({ id, row, holds }: { id: string; row: EveningQuestion; holds: boolean }) {
  const answer = row.answer || t.tonight.no_answer;
  return (
    <li class={holds ? `question is-${row.state}` : "question"} value={row.n}>
      <h2 id={`question-${row.n}`} tabIndex={-1}>
        <span class="n" aria-hidden="true">
          {row.n}
        </span>
        {row.ask}
      </h2>
      <div class={holds ? "held" : "held away"} aria-hidden={!holds}>
        <p class="state-of">
          <StateMark state={row.state} />
        </p>
        <p class="answer">{answer}</p>
        {row.what_to_do ? <p class="to-do">{row.what_to_do}</p> : null}
      </div>
      <p class="decide no-print">
        <a href={caseHash(id, row.stage, row.key)}>
          {t.tonight.decide(t.stages[row.stage] ?? row.stage)}
          <span class="hidden-words"> {t.tonight.question(row.n)}</span>
        </a>
      </p>
    </li>
  );
}
