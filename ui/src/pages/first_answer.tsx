/** The first answer of a new case: what is known, and what is missing, by how much it matters. */
import { useEffect, useRef } from "preact/hooks";
import { caseHash } from "../state/route";
import { pages as t } from "../texts/pages";
import type { PlanSaid } from "../state/types";
import { Verdict } from "../widgets/Verdict";
import { numbersOf, useCase } from "./open_case";
import { Head, numberLink, TroubleBox, Waiting } from "./parts";
import { MissingList } from "./missing_list";
import type { NumberLine } from "./shapes";

/** Numbers that decide, in the order in which somebody asks for them. */
const DECIDING = ["load.wet_weight_kg", "lift.required_kg", "lift.surplus_at_most_kg", "circles.bottom_m", "circles.surface_m"];

/** Show the first answer to a case that was just made; also for any other case. */
export function FirstAnswer({ id }: { id: string }) {
  const open = useCase(id);
  const top = useRef<HTMLElement>(null);
  useEffect(() => top.current?.querySelector<HTMLElement>("h1")?.focus(), []);
  const whole: PlanSaid | null = open.store.current.value;
  const numbers = numbersOf(whole);
  const deciding = DECIDING.flatMap((path) => numbers.find((row) => row.path === path) ?? []);
  const trouble = open.trouble ?? open.store.trouble.value?.what ?? null;
  return (
    <article class="page first-answer" ref={top}>
      <Head title={t.first.title} lead={open.title} />
      <Verdict store={open.store} />
      <TroubleBox trouble={trouble} again={() => open.store.askAgain()} />
      {!whole && !trouble ? <Waiting /> : null}
      {whole?.plan ? (
        <>
          <section>
            <h2>{t.first.known}</h2>
            {deciding.length ? null : <p>{t.first.nothing_known}</p>}
            <div class="deciding">
              {deciding.map((row) => (
                <Deciding key={row.path} id={id} row={row} />
              ))}
            </div>
          </section>
          <section>
            <h2>{t.first.missing}</h2>
            <MissingList id={id} rows={whole.missing} />
          </section>
        </>
      ) : null}
      <div class="go-on">
        <a class="firm" href={caseHash(id, "object")}>
          {t.first.go_on}
        </a>
        {open.said && !open.said.kit_id ? (
          <a class="plain" href={caseHash(id, "kit")}>
            {t.first.choose_kit}
          </a>
        ) : null}
        <a class="plain" href={caseHash(id, "tonight")}>
          {t.first.tonight}
        </a>
      </div>
      <p class="defer">{t.defer}</p>
    </article>
  );
}

function Deciding({ id, row }: { id: string; row: NumberLine }) {
  return (
    <p>
      <span class="name">{row.name}</span>
      <a class="decides" href={numberLink(id, row.path)}>
        <strong>{row.likely}</strong> {row.band ? <span class="band">({row.band})</span> : null}
      </a>
      {row.also ? <span class="also">{row.also}</span> : null}
    </p>
  );
}
