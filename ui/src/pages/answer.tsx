/** One first question, answered with a thumb: big words to press, a number with its unit, a day and an hour. */
import { useState } from "preact/hooks";
import { pages as t } from "../texts/pages";
import { quickTimes } from "./quick_times";
import type { SmallQuestion } from "./shapes";
import { composed, taken, type Told } from "./told";

export type Answer = string | string[];

interface Props {
  question: SmallQuestion;
  answer: Answer | undefined;
  put: (answer: Answer) => void;
  /** Go on at once: one press was the whole answer. */
  on: (() => void) | null;
}

/** Words that are shown before somebody asks for more. */
const FIRST_WORDS = 8;

/** The most divers that have a button of their own. */
const MOST_BUTTONS = 6;

/** Units that a thumb can press, by the kind of the value. */
const UNITS: Record<string, readonly string[]> = { length: ["m", "ft"], mass: ["kg", "lb"] };

/** The way to answer that fits the question. */
export function AnswerTo(props: Props) {
  const { type } = props.question;
  if (type === "value") return <Amount {...props} />;
  if (type === "words") return <Several {...props} />;
  if (type === "word") return <Words {...props} shown={props.question.choices} />;
  if (type === "number") return <Count {...props} />;
  if (type === "time") return <When {...props} />;
  return <Text {...props} />;
}

function text(answer: Answer | undefined): string {
  return typeof answer === "string" ? answer : "";
}

function Words({ question, answer, put, on, shown }: Props & { shown: readonly string[] }) {
  if (!shown.length) return null;
  return (
    <div class="words" role="group" aria-label={question.ask}>
      {shown.map((word) => (
        <button
          key={word}
          type="button"
          class="word"
          aria-pressed={text(answer) === word}
          onClick={() => {
            put(word);
            on?.();
          }}
        >
          {word}
        </button>
      ))}
    </div>
  );
}

function Several({ question, answer, put }: Props) {
  const chosen = Array.isArray(answer) ? answer : [];
  const none = question.choices[question.choices.length - 1] ?? "";
  const press = (word: string) => {
    if (chosen.includes(word)) put(chosen.filter((one) => one !== word));
    else put(word === none ? [none] : [...chosen.filter((one) => one !== none), word]);
  };
  return (
    <div class="words" role="group" aria-label={question.ask}>
      {question.choices.map((word) => (
        <button key={word} type="button" class="word" aria-pressed={chosen.includes(word)} onClick={() => press(word)}>
          {word}
        </button>
      ))}
    </div>
  );
}

function Text(props: Props) {
  const { question, answer, put } = props;
  const [all, setAll] = useState(false);
  const typed = text(answer).toLowerCase();
  const whole = question.choices.some((word) => word.toLowerCase() === typed);
  const fit = question.choices.filter((word) => whole || word.toLowerCase().includes(typed));
  const shown = all || fit.length <= FIRST_WORDS + 2 ? fit : fit.slice(0, FIRST_WORDS);
  const name = `answer-${question.key}`;
  return (
    <>
      <input
        id={name}
        class="long"
        aria-label={question.ask}
        aria-describedby={`help-${question.key}`}
        autocomplete="off"
        autocapitalize="sentences"
        maxLength={200}
        value={text(answer)}
        onInput={(event) => put(event.currentTarget.value)}
      />
      <Words {...props} shown={shown} />
      {shown.length < fit.length ? (
        <button type="button" class="plain" onClick={() => setAll(true)}>
          {t.questions.more(fit.length - shown.length)}
        </button>
      ) : null}
    </>
  );
}

function Amount({ question, answer, put }: Props) {
  const units = UNITS[question.kind ?? ""] ?? [];
  const [told, setTold] = useState<Told>(() => taken(text(answer), units));
  const [own, setOwn] = useState(told.own);
  const change = (part: Partial<Told>) => {
    const next = { ...told, ...part };
    setTold(next);
    put(composed(next));
  };
  if (own || !units.length)
    return (
      <>
        <input
          class="long"
          aria-label={question.ask}
          aria-describedby={`help-${question.key}`}
          value={text(answer)}
          onInput={(event) => put(event.currentTarget.value)}
        />
        {units.length ? (
          <button
            type="button"
            class="plain"
            onClick={() => {
              setTold(taken(text(answer), units));
              setOwn(false);
            }}
          >
            {t.questions.by_boxes}
          </button>
        ) : null}
      </>
    );
  return (
    <>
      <div class="amount">
        <Box label={t.questions.from} value={told.from} put={(from) => change({ from })} />
        <Box label={t.questions.to} value={told.to} put={(to) => change({ to })} />
      </div>
      <div class="words units" role="group" aria-label={t.questions.unit}>
        {units.map((unit) => (
          <button key={unit} type="button" class="word" aria-pressed={told.unit === unit} onClick={() => change({ unit })}>
            {unit}
          </button>
        ))}
      </div>
      <p class="says" role="status">
        {text(answer) ? t.questions.written(text(answer)) : ""}
      </p>
      <button type="button" class="plain" onClick={() => setOwn(true)}>
        {t.questions.by_words}
      </button>
    </>
  );
}

function Box({ label, value, put }: { label: string; value: string; put: (value: string) => void }) {
  return (
    <label>
      {label}
      <input inputMode="decimal" autocomplete="off" value={value} onInput={(event) => put(event.currentTarget.value)} />
    </label>
  );
}

function Count(props: Props) {
  const numbers = Array.from({ length: MOST_BUTTONS }, (_, place) => String(place + 1));
  return <Words {...props} shown={numbers} />;
}

function When({ question, answer, put }: Props) {
  return (
    <>
      <input
        class="long"
        type="datetime-local"
        aria-label={question.ask}
        aria-describedby={`help-${question.key}`}
        value={text(answer)}
        onInput={(event) => put(event.currentTarget.value)}
      />
      <div class="words" role="group" aria-label={t.questions.soon}>
        {quickTimes(new Date()).map((row) => (
          <button
            key={row.value}
            type="button"
            class="word"
            aria-pressed={text(answer) === row.value}
            onClick={() => put(row.value)}
          >
            {t.questions.tomorrow(row.hour)}
          </button>
        ))}
      </div>
    </>
  );
}
