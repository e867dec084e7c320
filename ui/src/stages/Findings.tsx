/** What is to be decided on a stage: stops first; notes are folded. */
import { useState } from "preact/hooks";

import { at } from "../state/paths";
import { person, tellPerson, writer } from "../state/person";
import { caseHash } from "../state/route";
import type { CaseStore } from "../state/store";
import type { Finding, Stage } from "../state/types";
import { Dialog } from "../widgets/Dialog";
import { Mark } from "../widgets/Mark";
import { frame } from "../texts/frame";
import { stages as t } from "../texts/stages";

const ORDER = ["stop", "unanswered", "caution", "note"];

/** The findings of one stage. */
export function Findings({ store, stage }: { store: CaseStore; stage: Stage }) {
  const all = (store.current.value?.findings ?? []).filter((one) => one.stage === stage);
  const sorted = [...all].sort((a, b) => ORDER.indexOf(a.level) - ORDER.indexOf(b.level));
  const notes = sorted.filter((one) => one.level === "note");
  return (
    <section class="findings">
      <h2>{t.findings}</h2>
      {sorted.length === 0 ? <p class="quiet">{t.no_findings}</p> : null}
      <ul>
        {sorted
          .filter((one) => one.level !== "note")
          .map((one) => (
            <OneFinding key={one.code + one.text} store={store} stage={stage} one={one} />
          ))}
      </ul>
      {notes.length ? (
        <details>
          <summary>{t.notes(notes.length)}</summary>
          <ul>
            {notes.map((one) => (
              <OneFinding key={one.code + one.text} store={store} stage={stage} one={one} />
            ))}
          </ul>
        </details>
      ) : null}
    </section>
  );
}

function OneFinding({ store, stage, one }: { store: CaseStore; stage: Stage; one: Finding }) {
  const lifted = one.lifted as { by?: string; reason?: string } | null;
  return (
    <li class={`finding finding-${one.level}`} data-code={one.code}>
      <Mark state={one.level} />
      <div>
        <p class="finding-text">{one.text}</p>
        {one.do ? <p class="finding-do">{one.do}</p> : null}
        {lifted ? (
          <p class="finding-lifted">
            {t.lifted} {t.lifted_by(lifted.by ?? "?", lifted.reason ?? "?")}
          </p>
        ) : null}
        <p class="finding-foot">
          <a href={caseHash(store.id, stage, one.key)}>{t.go_field}</a>
          {one.source ? (
            <span class="quiet">
              {" "}
              {t.source} {one.source}
            </span>
          ) : null}
          {one.level === "stop" && one.override === "reason" && !lifted ? <LiftIt store={store} one={one} /> : null}
        </p>
      </div>
    </li>
  );
}

/** A stop is lifted by a named person with a reason, or not at all. */
function LiftIt({ store, one }: { store: CaseStore; one: Finding }) {
  const [open, setOpen] = useState(false);
  const [reason, setReason] = useState("");
  const keep = () => {
    const row = { code: one.code, by: writer(), reason: reason.trim(), at: new Date().toISOString() };
    const there = at(store.document.value, ["override"]);
    const place = Array.isArray(there)
      ? { op: "insert" as const, path: ["override", there.length], value: row }
      : { op: "set" as const, path: ["override"], value: [row] };
    store.edit([place], t.lift.did(one.code));
    setOpen(false);
  };
  return (
    <>
      {" "}
      <button type="button" class="plain small no-print" onClick={() => setOpen(true)}>
        {t.lift.button}
      </button>
      {open ? (
        <Dialog title={t.lift.title} onClose={() => setOpen(false)}>
          <p>{one.text}</p>
          <label class="field">
            <span class="label">{frame.who.label}</span>
            <input
              type="text"
              maxLength={80}
              value={person.value}
              onInput={(event) => tellPerson(event.currentTarget.value)}
            />
          </label>
          <label class="field">
            <span class="label">{t.lift.reason}</span>
            <textarea rows={3} value={reason} onInput={(event) => setReason(event.currentTarget.value)} />
          </label>
          <button type="button" class="firm" disabled={!reason.trim() || !person.value} onClick={keep}>
            {t.lift.keep}
          </button>
        </Dialog>
      ) : null}
    </>
  );
}
