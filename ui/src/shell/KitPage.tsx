/** The kit: bags, cylinders, people, typed once. */
import { useEffect } from "preact/hooks";

import { History } from "../pages";
import { form } from "../state/form";
import { openKit } from "../state/store";
import { Section } from "../widgets/Fields";
import { frame as t } from "../texts/frame";
import { AwayBanner, ClashSheet, RefusedBanner } from "./Banners";
import { Head } from "./Head";
import { Saved } from "./Saved";

const RARE = ["regime"];

/** All sections of the form of a kit, or its history. */
export function KitPage({ id, history }: { id: string; history: boolean }) {
  const store = openKit(id);
  const gone = store.gone.value;
  const title = store.said.value?.title ?? t.loading;
  useEffect(() => {
    document.title = `${title} - ${t.name}`;
  }, [title]);
  return (
    <>
      <Head>
        <a class="head-title" href={`#/kit/${id}`}>
          {title}
        </a>
        {gone ? null : <Saved store={store} />}
      </Head>
      <AwayBanner store={store} />
      <RefusedBanner store={store} />
      <ClashSheet store={store} />
      <main id="main" class="main main-alone" tabIndex={-1}>
        {gone ? (
          <>
            <h1>{t.gone.title}</h1>
            <p>
              {gone.what} <a href="#/">{t.gone.back}</a>
            </p>
          </>
        ) : history ? (
          <History id={id} of="kit" />
        ) : (
          <Written id={id} />
        )}
      </main>
    </>
  );
}

function Written({ id }: { id: string }) {
  const store = openKit(id);
  const sections = form.value?.kit.filter((section) => section.key) ?? [];
  return (
    <div class="kit">
      <h1>{t.kit_page.title}</h1>
      <p class="lead">{t.kit_page.lead}</p>
      <p class="doings no-print">
        <a class="button" href={`#/kit/${id}/history`}>
          {t.kit_page.history}
        </a>
        <a class="button" href="#/">
          {t.all_cases}
        </a>
      </p>
      <nav aria-label={t.kit_page.parts} class="no-print">
        <ul class="jumps">
          {sections.map((section) => (
            <li key={section.key}>
              <a href={`#/kit/${id}?at=${section.key}`}>{section.title}</a>
            </li>
          ))}
        </ul>
      </nav>
      {store.said.value ? (
        sections.map((section) => (
          <Section key={section.key} store={store} section={section} folded={RARE.includes(section.key)} />
        ))
      ) : (
        <p role="status">{t.loading}</p>
      )}
    </div>
  );
}
