/** The sheet of one number: the number, its formula, what stands in it, its source, and what it follows from. */
import { useState } from "preact/hooks";
import { caseHash } from "../state/route";
import { pages as t } from "../texts/pages";
import { } from "./parts";
import { stageOfKey } from "./stage_of_key";
import type { NumberSheet } from "./shapes";

/** Inputs that are shown before somebody asks for all. */
const FIRST = 14;

/** How the server ends the line of an input that drives the weight. */
const OF_SPREAD = "of the spread of the weight";

/** Show where one number comes from. */
export function Sheet({ id, said, holds }: { id: string; said: NumberSheet; holds: boolean }) {
  const [all, setAll] = useState(false);
  const drivers = said.inputs.filter((row) => row.text.endsWith(OF_SPREAD) && row.key !== "together");
  const typed = said.inputs.filter((row) => row.text && row.text !== "not told" && !row.text.endsWith(OF_SPREAD));
  const open = said.inputs.filter((row) => row.text === "not told");
  return (
    <div class="sheet" aria-busy={!holds}>
      <p class={holds ? "big value" : "big value away"}>{said.value}</p>
      <dl>
        <Item word={t.sheet.formula} text={said.formula} kind="formula" />
        <Item word={t.sheet.numbers} text={said.numbers} kind="formula" />
        <Item word={t.sheet.source} text={said.source} />
        <Item word={t.sheet.range} text={said.range ? t.sheet.range_words : t.sheet.no_range} />
        {said.section ? <Item word={t.sheet.method} text={t.sheet.section(said.section)} /> : null}
        <Item word={t.sheet.path} text={said.path} kind="id" />
      </dl>
      {drivers.length ? (
        <>
          <h2>{t.sheet.drivers}</h2>
          <ul class="drivers">
            {drivers.map((row) => (
              <li key={row.key}>{row.text}</li>
            ))}
          </ul>
        </>
      ) : null}
      <h2>{t.sheet.inputs}</h2>
      {typed.length ? (
        <ul class="inputs">
          {typed.slice(0, all ? typed.length : FIRST).map((row) => (
            <Input key={`${row.key} ${row.text}`} id={id} name={row.key} text={row.text} />
          ))}
        </ul>
      ) : (
        <p>{t.sheet.no_inputs}</p>
      )}
      {typed.length > FIRST && !all ? (
        <button type="button" class="plain no-print" onClick={() => setAll(true)}>
          {t.sheet.more(typed.length - FIRST)}
        </button>
      ) : null}
      {typed.length > FIRST && !all ? <p class="print-only">{t.sheet.and_more(typed.length - FIRST)}</p> : null}
      {open.length ? (
        <>
          <h2>{t.sheet.not_told}</h2>
          <ul class="inputs">
            {open.map((row) => (
              <Input key={row.key} id={id} name={row.key} text="" />
            ))}
          </ul>
        </>
      ) : null}
    </div>
  );
}

function Item({ word, text, kind = "" }: { word: string; text: string; kind?: string }) {
  if (!text) return null;
  return (
    <div>
      <dt>{word}</dt>
      <dd class={kind}>{text}</dd>
    </div>
  );
}

function Input({ id, name, text }: { id: string; name: string; text: string }) {
  const stage = stageOfKey(name);
  return (
    <li>
      {stage ? <a href={caseHash(id, stage, name)}>{name}</a> : <span>{name}</span>}
      {text ? <span class="value">{text}</span> : null}
    </li>
  );
}
