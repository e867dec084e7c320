/** The page that an address names. */
import { useEffect, useRef } from "preact/hooks";

import { Checks, ChooseKit, Compare, Files, FirstAnswer, History, Questions, Sources, TakeIn, Tonight } from "../pages";
import { route, type Route } from "../state/route";
import { openCase } from "../state/store";
import type { Stage } from "../state/types";
import { STAGES } from "../stages/layout";
import { StagePage } from "../stages/StagePage";
import { frame as t } from "../texts/frame";
import { AwayBanner } from "./Banners";
import { CaseFrame } from "./CaseFrame";
import { focusAt } from "./focus";
import { Head } from "./Head";
import { Home } from "./Home";
import { KitPage } from "./KitPage";

/** Draw what the address names. */
export function Page() {
  const here = route.value;
  const name = `${here.page} ${here.id}`;
  const first = useRef(true);
  useEffect(() => {
    if (here.at) return;
    scrollTo(0, 0);
    if (!first.current) document.getElementById("main")?.focus({ preventScroll: true });
    first.current = false;
  }, [name]);
  useEffect(() => (here.at ? focusAt(here.at) : undefined), [name, here.at]);
  if (here.id && here.page !== "one-kit") return <CasePage here={here} />;
  if (here.page === "one-kit") return <KitPage id={here.id} key={here.id} history={here.rest[0] === "history"} />;
  return (
    <>
      <Head />
      <AwayBanner store={null} />
      <main id="main" class="main main-alone" tabIndex={-1}>
        <Alone page={here.page} />
      </main>
    </>
  );
}

function Alone({ page }: { page: string }) {
  if (page === "home") return <Home />;
  if (page === "new") return <Questions />;
  if (page === "checks") return <Checks />;
  if (page === "import") return <TakeIn />;
  return (
    <>
      <h1>{t.missing.title}</h1>
      <p>
        {t.missing.lead} <a href="#/">{t.gone.back}</a>
      </p>
    </>
  );
}

function CasePage({ here }: { here: Route }) {
  const store = openCase(here.id);
  const gone = store.gone.value;
  if (gone)
    return (
      <>
        <Head />
        <main id="main" class="main main-alone">
          <h1>{t.gone.title}</h1>
          <p>
            {gone.what} <a href="#/">{t.gone.back}</a>
          </p>
        </main>
      </>
    );
  return (
    <CaseFrame store={store} page={here.page}>
      <Inside here={here} key={`${here.id} ${here.page}`} />
    </CaseFrame>
  );
}

function Inside({ here }: { here: Route }) {
  const { id, page, rest } = here;
  const stage = STAGES.find((one) => one === page) as Stage | undefined;
  if (stage) return <StagePage store={openCase(id)} stage={stage} />;
  if (page === "first") return <FirstAnswer id={id} />;
  if (page === "kit") return <ChooseKit id={id} />;
  if (page === "tonight") return <Tonight id={id} />;
  if (page === "compare") return <Compare id={id} />;
  if (page === "sources") return <Sources id={id} rest={rest} />;
  if (page === "files") return <Files id={id} />;
  if (page === "history") return <History id={id} />;
  return <Alone page="missing" />;
}
