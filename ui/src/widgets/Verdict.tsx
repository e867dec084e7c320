/** The verdict: only for exactly what stands on the screen; else the words why there is none. */
import type { CaseStore } from "../state/store";
import { caseHash } from "../state/route";
import type { Fault } from "../state/types";
import { forms as t } from "../texts/forms";
import { stageOf } from "../stages/layout";
import { sentence } from "./FieldFrame";
import { Mark } from "./Mark";

/** Its room is kept while it is being worked out. */
export function Verdict({ store }: { store: CaseStore }) {
  const said = store.current.value;
  const trouble = store.trouble.value;
  const state = trouble ? "wrong" : !said ? "working" : said.plan ? "known" : "wrong";
  return (
    <div class="verdict" data-verdict={state} role="status" aria-live="polite">
      {trouble ? (
        <p class="verdict-line">{trouble.what}</p>
      ) : !said ? (
        <p class="verdict-line is-waiting">{t.working}</p>
      ) : said.plan ? (
        <Line store={store} />
      ) : (
        <Wrong store={store} faults={said.faults} />
      )}
    </div>
  );
}

function Line({ store }: { store: CaseStore }) {
  const verdict = store.current.value?.plan?.verdict;
  if (!verdict) return null;
  const level = verdict.stops ? "stop" : verdict.unanswered ? "unanswered" : "none";
  const counts = [
    t.count.stop(verdict.stops),
    t.count.unanswered(verdict.unanswered),
    t.count.caution(verdict.cautions),
    t.count.lifted(verdict.lifted),
  ].filter(Boolean);
  return (
    <>
      <p class="verdict-line">
        <Mark state={level} word={null} /> {verdict.line}
      </p>
      <p class="verdict-counts">{counts.join(" · ") || t.count.nothing}</p>
    </>
  );
}

function Wrong({ store, faults }: { store: CaseStore; faults: readonly Fault[] }) {
  const kit = store.said.value?.kit_id;
  return (
    <>
      <p class="verdict-line">
        <Mark state="unanswered" word={null} /> {t.wrong(faults.length)}
      </p>
      <ul class="wrong-list">
        {faults.slice(0, 5).map((fault) => (
          <li key={`${fault.of}.${fault.key}`}>
            <a
              href={
                fault.of === "kit" && kit
                  ? `#/kit/${kit}?at=${encodeURIComponent(fault.key)}`
                  : caseHash(store.id, stageOf(fault.key), fault.key)
              }
            >
              {fault.key || t.whole_case}
            </a>
            {": "}
            {sentence(fault.what)}
          </li>
        ))}
      </ul>
    </>
  );
}
