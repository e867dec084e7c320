/** The last step of a new case: whose kit, who writes, and what was answered. */
import { useEffect, useRef, useState } from "preact/hooks";
import { pages as t } from "../texts/pages";
import { person } from "../state/person";
import type { KitLine } from "../state/types";
import { useAsked } from "./ask";
import type { Draft } from "./draft";
import { FIRST_KIT, FirstKit } from "./first_kit";
import { KitRadios, NEW_KIT, NO_KIT } from "./kit_radios";
import { TroubleBox, Waiting } from "./parts";
import type { FirstQuestion } from "./shapes";

interface Props {
  rows: FirstQuestion[];
  draft: Draft;
  change: (part: Partial<Draft>) => void;
  back: () => void;
  make: (kit: string | null, who: string) => void;
  busy: boolean;
  failed: string | null;
}

/** Choose a kit, type a first one, or go without. */
export function KitChoice({ rows, draft, change, back, make, busy, failed }: Props) {
  const said = useAsked<{ kits: KitLine[] }>("/kits");
  const [picked, setPicked] = useState<string | null>(null);
  const [who, setWho] = useState(person.value);
  const head = useRef<HTMLHeadingElement>(null);
  useEffect(() => head.current?.focus(), []);
  const kits = said.data?.kits ?? [];
  const kit = picked ?? kits[0]?.id ?? NO_KIT;
  const left = rows.filter((row) => !(draft.answers[row.key] ?? "").length).length;
  return (
    <div class="kit-choice">
      <p class="progress">{t.questions.all_asked(rows.length - left, left)}</p>
      <h1 ref={head} tabIndex={-1}>
        {t.kit_choice.title}
      </h1>
      <label class="told-field">
        {t.kit_choice.who}
        <input autocomplete="name" maxLength={80} value={who} onInput={(event) => setWho(event.currentTarget.value)} />
      </label>
      <label class="told-field">
        {t.kit_choice.supervisor}
        <input
          maxLength={80}
          value={draft.supervisor}
          onInput={(event) => change({ supervisor: event.currentTarget.value })}
        />
      </label>
      <TroubleBox trouble={said.trouble} again={said.again} />
      {!said.data && !said.trouble ? <Waiting /> : null}
      <KitRadios kits={kits} picked={kit} pick={setPicked} />
      {kit === NEW_KIT ? (
        <FirstKit
          who={who}
          made={(id) => {
            said.again();
            setPicked(id);
          }}
        />
      ) : null}
      <TroubleBox trouble={failed} />
      <div class="go-on at-thumb">
        {kit === NEW_KIT ? (
          <button type="submit" form={FIRST_KIT} class="firm">
            {t.first_kit.make}
          </button>
        ) : (
          <button type="button" class="firm" disabled={busy || !said.data} onClick={() => make(kit === NO_KIT ? null : kit, who)}>
            {busy ? t.waiting : t.kit_choice.make}
          </button>
        )}
        <button type="button" class="plain" onClick={back}>
          {t.questions.back}
        </button>
      </div>
    </div>
  );
}
