/** The kit of a case: take another one, type a first one, or go without. */
import { useState } from "preact/hooks";
import { api } from "../state/api";
import { person, writer } from "../state/person";
import type { KitLine } from "../state/types";
import { pages as t } from "../texts/pages";
import { troubleWords, useAsked, useNews } from "./ask";
import { FIRST_KIT, FirstKit } from "./first_kit";
import { KitRadios, NEW_KIT, NO_KIT } from "./kit_radios";
import { useCase } from "./open_case";
import { Head, TroubleBox, Waiting } from "./parts";

/** The page at #/case/ID/kit. */
export function ChooseKit({ id }: { id: string }) {
  const open = useCase(id);
  const said = useAsked<{ kits: KitLine[] }>("/kits", useNews());
  const [picked, setPicked] = useState<string | null>(null);
  const [failed, setFailed] = useState<string | null>(null);
  const [done, setDone] = useState("");
  const now = open.said?.kit_id ?? NO_KIT;
  const kit = picked ?? now;
  const title = said.data?.kits.find((row) => row.id === now)?.title;
  const take = (chosen: string) => {
    setFailed(null);
    setDone("");
    const body = { who: writer(), base: open.said?.revision ?? 1, kit: chosen === NO_KIT ? null : chosen };
    api
      .post(`/cases/${id}/kit`, body)
      .then(
        () => {
          setPicked(null);
          setDone(t.choose_kit.done);
        },
        (error: unknown) => setFailed(troubleWords(error)),
      )
      .finally(() => void open.store.again());
  };
  return (
    <article class="page choose-kit">
      <Head title={t.choose_kit.title} lead={open.title}>
        {now === NO_KIT ? null : (
          <a class="plain" href={`#/kit/${now}`}>
            {t.choose_kit.open(title ?? "")}
          </a>
        )}
      </Head>
      <p>{t.choose_kit.lead}</p>
      <TroubleBox trouble={failed ?? open.trouble ?? said.trouble} again={said.again} />
      <p class="said" role="status">
        {done}
      </p>
      {said.data ? <KitRadios kits={said.data.kits} picked={kit} pick={setPicked} /> : said.trouble ? null : <Waiting />}
      {kit === NEW_KIT ? <FirstKit who={person.value} made={take} /> : null}
      <div class="go-on">
        {kit === NEW_KIT ? (
          <button type="submit" form={FIRST_KIT} class="firm">
            {t.first_kit.make}
          </button>
        ) : (
          <button type="button" class="firm" disabled={kit === now || !open.said} onClick={() => take(kit)}>
            {kit === now ? t.choose_kit.is_so : t.choose_kit.take}
          </button>
        )}
      </div>
    </article>
  );
}
