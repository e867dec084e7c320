/** One stage: what is entered, and what follows from exactly that. */
import { useLayoutEffect, useRef } from "preact/hooks";

import { form } from "../state/form";
import type { CaseStore } from "../state/store";
import type { FormSection, Stage } from "../state/types";
import { Section } from "../widgets/Fields";
import { Verdict } from "../widgets/Verdict";
import { stages as t } from "../texts/stages";
import { Pictures } from "./drawn";
import { Findings } from "./Findings";
import { KitLine } from "./KitLine";
import { LAYOUT, type Block } from "./layout";
import { Told } from "./told";
import { wide } from "./wide";

const WITH_KIT: readonly Stage[] = ["lift", "dive"];

/** Wide: entered beside told. Narrow: answers first, pictures last. */
export function StagePage({ store, stage }: { store: CaseStore; stage: Stage }) {
  const entered = <Entered key="entered" store={store} stage={stage} />;
  const told = <Follows key="told" store={store} stage={stage} part="told" />;
  const drawn = <Follows key="drawn" store={store} stage={stage} part="drawn" />;
  return (
    <div class="stage" data-stage={stage}>
      <h1>{t.titles[stage]}</h1>
      <Verdict store={store} />
      {wide.value ? (
        <div class="stage-sides">
          {entered}
          <div class="stage-right" key="right">
            {stage === "search" ? [drawn, told] : [told, drawn]}
          </div>
        </div>
      ) : (
        <div class="stage-stack">
          <p class="no-print">
            <a href="#entered" class="button" onClick={toEntered}>
              {t.entered_link}
            </a>
          </p>
          {told}
          {entered}
          {drawn}
        </div>
      )}
    </div>
  );
}

function toEntered(event: Event): void {
  event.preventDefault();
  const place = document.getElementById("entered");
  place?.scrollIntoView();
  place?.focus({ preventScroll: true });
}

function Entered({ store, stage }: { store: CaseStore; stage: Stage }) {
  const sections = form.value?.case;
  return (
    <div class="entered" id="entered" tabIndex={-1}>
      <h2 class="hidden-words">{t.entered}</h2>
      {WITH_KIT.includes(stage) ? <KitLine store={store} /> : null}
      {sections && store.said.value ? (
        LAYOUT[stage].map((block) => <OneBlock key={block.section} store={store} block={block} sections={sections} />)
      ) : (
        <p role="status">{t.waiting}</p>
      )}
    </div>
  );
}

function OneBlock({ store, block, sections }: { store: CaseStore; block: Block; sections: readonly FormSection[] }) {
  const section = sections.find((one) => one.key === block.section);
  if (!section) return null;
  const named = new Set(block.keys ?? []);
  const rest = block.keys ? section.fields.map((field) => field.key).filter((key) => !named.has(key)) : [];
  const keys = block.keys ? [...block.keys, ...rest] : undefined; // a key the layout forgot is not lost
  return (
    <Section
      store={store}
      section={section}
      {...(keys ? { keys } : {})}
      more={[...(block.more ?? []), ...rest]}
      folded={block.folded ?? false}
    />
  );
}

/** What follows; while it is being worked out nothing stale stands there, and its room is kept. */
function Follows({ store, stage, part }: { store: CaseStore; stage: Stage; part: "told" | "drawn" }) {
  const room = useRef<HTMLDivElement>(null);
  const height = useRef(0);
  const said = store.current.value;
  const there = said?.plan ?? null;
  useLayoutEffect(() => {
    if (there) height.current = room.current?.offsetHeight ?? 0;
  });
  const kept = there || !height.current ? {} : { style: { minHeight: `${height.current}px` } };
  return (
    <div ref={room} class={`follows follows-${part}`} aria-busy={!said} {...kept}>
      {part === "told" ? (
        said ? (
          <>
            <Told store={store} stage={stage} said={said} />
            {there ? <Findings store={store} stage={stage} /> : null}
          </>
        ) : (
          <p class="is-waiting">{t.waiting}</p>
        )
      ) : (
        <Pictures store={store} stage={stage} plan={there} />
      )}
    </div>
  );
}
