/** History: who did what and when; take it back, do it again, go back to an earlier revision. */
import { useState } from "preact/hooks";
import { pages as t } from "../texts/pages";
import { api } from "../state/api";
import { writer } from "../state/person";
import { openCase, openKit } from "../state/store";
import { clock, troubleWords, useAsked } from "./ask";
import { Confirmed, Head, TroubleBox, Waiting } from "./parts";
import type { StepLine } from "./shapes";

/** The page at #/case/ID/history; also for a kit. */
export function History({ id, of = "case" }: { id: string; of?: "case" | "kit" }) {
  const place = `/${of}s/${id}`;
  const store = of === "case" ? openCase(id) : openKit(id);
  const now = store.said.value;
  const steps = useAsked<{ revisions: StepLine[] }>(`${place}/history`, now ? String(now.revision) : null);
  const [failed, setFailed] = useState<string | null>(null);
  const [done, setDone] = useState("");
  const run = (what: string, body: object, words: string) => {
    setFailed(null);
    setDone("");
    api
      .post(`${place}/${what}`, { who: writer(), base: now?.revision ?? 1, ...body })
      .then(
        () => setDone(words),
        (error: unknown) => setFailed(troubleWords(error)),
      )
      .finally(() => void store.again());
  };
  const back = (step: StepLine) => run("restore", { revision: step.number }, t.history.went_back(step.number));
  return (
    <article class="page history">
      <Head title={t.history.title} lead={now?.title ?? ""}>
        <button type="button" class="plain" disabled={!now?.undo_what} onClick={() => run("undo", {}, t.history.undone)}>
          {now?.undo_what ? t.history.undo(now.undo_what) : t.history.nothing_to_undo}
        </button>
        <button type="button" class="plain" disabled={!now?.redo_what} onClick={() => run("redo", {}, t.history.redone)}>
          {now?.redo_what ? t.history.redo(now.redo_what) : t.history.nothing_to_redo}
        </button>
      </Head>
      <TroubleBox trouble={failed ?? store.gone.value?.what ?? steps.trouble} again={steps.again} />
      <p class="said" role="status">
        {done}
      </p>
      {steps.data ? <Steps rows={steps.data.revisions} back={back} /> : steps.trouble ? null : <Waiting />}
    </article>
  );
}

function Steps({ rows, back }: { rows: StepLine[]; back: (step: StepLine) => void }) {
  return (
    <table class="steps stacks" role="table">
      <caption>{t.history.caption(rows.length)}</caption>
      <thead role="rowgroup">
        <tr role="row">
          {t.history.columns.map((word) => (
            <th key={word} role="columnheader" scope="col">
              {word}
            </th>
          ))}
        </tr>
      </thead>
      <tbody role="rowgroup">
        {rows.map((step, place) => (
          <Step key={step.number} step={step} now={place === 0} back={back} />
        ))}
      </tbody>
    </table>
  );
}

function Step({ step, now, back }: { step: StepLine; now: boolean; back: (step: StepLine) => void }) {
  const [revision, when, who, what] = t.history.columns;
  return (
    <tr role="row" class={step.undone ? "is-undone" : ""}>
      <th role="rowheader" scope="row" data-head={revision}>
        {step.number}
      </th>
      <td role="cell" data-head={when}>
        <time dateTime={step.at}>{clock(step.at)}</time>
      </td>
      <td role="cell" data-head={who}>
        {step.who}
      </td>
      <td role="cell" data-head={what}>
        <span class="what">{step.what}</span>
        {step.undone ? <strong class="undone-word"> {t.history.undone_mark}</strong> : null}
      </td>
      <td role="cell">
        {now ? (
          <strong>{t.history.now}</strong>
        ) : (
          <Confirmed
            word={t.history.go_back}
            label={t.history.go_back_to(step.number)}
            ask={t.history.ask(step.number)}
            yes={t.history.go_back_to(step.number)}
            run={() => back(step)}
          />
        )}
      </td>
    </tr>
  );
}
