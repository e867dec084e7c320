/** A new case: ten questions, one at a time, then the kit, then a first answer at once. */
import { useEffect, useRef, useState } from "preact/hooks";
import { pages as t } from "../texts/pages";
import { AnswerTo, type Answer } from "./answer";
import { api } from "../state/api";
import { tellPerson, writer } from "../state/person";
import { caseHash, go } from "../state/route";
import type { CaseSaid } from "../state/types";
import { troubleWords, useAsked } from "./ask";
import { forget, kept, keepDraft, type Draft } from "./draft";
import { KitChoice } from "./kit_choice";
import { TroubleBox, Waiting } from "./parts";
import type { FirstQuestion, SmallQuestion } from "./shapes";

/** The page at #/new. */
export function Questions() {
  const said = useAsked<{ questions: FirstQuestion[] }>("/questions");
  const [draft, setDraft] = useState<Draft>(kept);
  const [failed, setFailed] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const rows = said.data?.questions ?? [];
  const change = (part: Partial<Draft>) =>
    setDraft((old) => {
      const next = { ...old, ...part };
      keepDraft(next);
      return next;
    });
  const make = (kit: string | null, who: string) => {
    tellPerson(who);
    setFailed(null);
    setBusy(true);
    const answers = { ...draft.answers, supervisor: draft.supervisor };
    api.post<CaseSaid>("/cases", { who: writer(), answers: told(answers), kit }).then(
      (answer) => {
        forget();
        setBusy(false);
        go(caseHash(answer.id, "first"));
      },
      (error: unknown) => {
        setBusy(false);
        setFailed(troubleWords(error));
      },
    );
  };
  if (said.trouble) return <TroubleBox trouble={said.trouble} again={said.again} />;
  if (!rows.length) return <Waiting />;
  const step = Math.min(draft.step, rows.length);
  const question = rows[step];
  const turn = (to: number) => change({ step: Math.max(0, Math.min(rows.length, to)) });
  return (
    <article class="page questions">
      {question ? (
        <One
          key={question.key}
          question={question}
          of={rows.length}
          draft={draft}
          put={(key, answer) => setAnswer(key, answer)}
          go={turn}
        />
      ) : (
        <KitChoice
          rows={rows}
          draft={draft}
          change={change}
          back={() => turn(rows.length - 1)}
          make={make}
          busy={busy}
          failed={failed}
        />
      )}
    </article>
  );

  function setAnswer(key: string, answer: Answer) {
    setDraft((old) => {
      const next = { ...old, answers: { ...old.answers, [key]: answer } };
      keepDraft(next);
      return next;
    });
  }
}

function told(answers: Record<string, Answer | undefined>): Record<string, Answer> {
  const rows = Object.entries(answers).filter(([, answer]) => answer !== undefined && answer.length > 0);
  return Object.fromEntries(rows) as Record<string, Answer>;
}

interface OneProps {
  question: FirstQuestion;
  of: number;
  draft: Draft;
  put: (key: string, answer: Answer) => void;
  go: (step: number) => void;
}

function One({ question, of, draft, put, go }: OneProps) {
  const head = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    head.current?.focus({ preventScroll: true });
    window.scrollTo({ top: 0 });
  }, []);
  const all = [question as SmallQuestion, ...(question.also ?? [])];
  const some = all.some((one) => (draft.answers[one.key] ?? "").length > 0);
  const next = () => go(question.n);
  const skip = () => {
    for (const one of all) put(one.key, "");
    next();
  };
  return (
    <form
      class="one-question"
      onSubmit={(event) => {
        event.preventDefault();
        if (some) next();
      }}
    >
      <p class="progress">{t.questions.progress(question.n, of)}</p>
      <div class="asking">
        <h1 ref={head} tabIndex={-1}>
          {question.ask}
        </h1>
        {all.map((one, place) => (
          <section key={one.key}>
            {place ? <h2>{one.ask}</h2> : null}
            <p class="help" id={`help-${one.key}`}>
              {one.help}
            </p>
            <AnswerTo
              question={one}
              answer={draft.answers[one.key]}
              put={(answer) => put(one.key, answer)}
              on={one.choices.length && all.length === 1 && one.type !== "words" ? next : one.type === "number" ? next : null}
            />
          </section>
        ))}
      </div>
      <div class="go-on at-thumb">
        <button type="submit" class="firm" disabled={!some}>
          {t.questions.next}
        </button>
        <button type="button" class="plain" disabled={question.n === 1} onClick={() => go(question.n - 2)}>
          {t.questions.back}
        </button>
        <button type="button" class="plain" onClick={skip}>
          {t.questions.skip}
        </button>
      </div>
    </form>
  );
}
