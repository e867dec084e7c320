/** What follows from each stage in numbers and words. */
import type { ComponentChildren } from "preact";

import { FileList, MissingList } from "../pages";
import type { CaseStore } from "../state/store";
import type { Plan, PlanSaid, Stage } from "../state/types";
import { Table } from "../widgets/Table";
import { frame } from "../texts/frame";
import { stages as t } from "../texts/stages";
import { Figures } from "./Figures";
import { clock, piece, rows, table, text, texts } from "./reading";

interface Props {
  store: CaseStore;
  plan: Plan;
  said: PlanSaid;
}

/** Draw it from the answer to exactly what stands on the screen. */
export function Told({ store, stage, said }: { store: CaseStore; stage: Stage; said: PlanSaid }) {
  const Draw = TOLD[stage];
  return said.plan ? <Draw store={store} plan={said.plan} said={said} /> : null;
}

const TOLD: Record<Stage, (props: Props) => ComponentChildren> = {
  call: CallTold,
  search: SearchTold,
  object: ObjectTold,
  lift: LiftTold,
  dive: DiveTold,
  brief: BriefTold,
};

function CallTold({ store, said }: Props) {
  if (!said.missing.length) return null;
  return (
    <section>
      <h2>{t.missing}</h2>
      <MissingList id={store.id} rows={said.missing} />
    </section>
  );
}

function SearchTold({ store, plan, said }: Props) {
  const search = piece(plan, "search");
  const best = table(search["best"]);
  return (
    <>
      <Figures
        store={store}
        said={said}
        lines={[
          { path: "search.best.chance", large: true },
          { path: "search.sweep_width_m" },
          { path: "search.chance_on_map" },
          { path: "search.best.minutes" },
          { path: "search.best.length_m" },
        ]}
      />
      <Said
        title={t.best}
        lines={[
          text(best["words"]),
          text(best["why"]),
          ...texts(best["positions_words"]),
          ...texts(best["snags_words"]),
        ]}
      />
      <Said title={t.cautions} lines={texts(search["cautions"])} />
    </>
  );
}

function ObjectTold({ store, plan, said }: Props) {
  const load = piece(plan, "load");
  return (
    <>
      <Figures
        store={store}
        said={said}
        lines={[
          { path: "load.wet_weight_kg", large: true },
          { path: "load.breakout_kg" },
          { path: "load.dry_mass_kg" },
          { path: "load.displaced_l" },
          { path: "load.leaving_water_kg" },
          { name: t.basis, words: text(load["basis"]) },
        ]}
      />
      <Said title="" lines={[text(plan["measure_again"]), text(load["breakout_why"])]} />
    </>
  );
}

const LIFT = [
  "lift.chance_floats_once_free",
  "lift.ceiling_kg",
  "lift.surplus_at_release_kg",
  "lift.bag_volume_l",
  "lift.free_gas_l",
  "lift.cylinder.pressure_after_bar",
  "ascent.delay_budget_s",
  "ascent.under_control.chance_within_rate",
  "ascent.under_control.chance_runaway",
  "ascent.runaway_bound_m_s",
  "circles.bottom_m",
  "circles.surface_m",
].map((path) => ({ path }));

function LiftTold({ store, plan, said }: Props) {
  const lift = piece(plan, "lift");
  const bags = rows(lift["bags"]);
  return (
    <>
      <Said title={t.sentence} lines={[text(lift["sentence"]), text(lift["method_why"])]} />
      <Figures
        store={store}
        said={said}
        lines={[{ path: "lift.required_kg", large: true }, { name: t.method, words: text(lift["method"]) }, ...LIFT]}
      />
      {bags.length ? (
        <Table
          caption={t.bags}
          head={[t.bag.name, t.bag.fill]}
          rows={bags.map((bag) => [text(bag["id"]), text(bag["fill"])])}
        />
      ) : null}
    </>
  );
}

function DiveTold({ store, plan, said }: Props) {
  return (
    <>
      {rows(plan["dives"]).map((dive, index) => {
        const place = `dives[${index + 1}]`;
        const divers = rows(dive["divers"]);
        const number = (path: string) => said.numbers.find((one) => one.path === path)?.likely ?? "";
        return (
          <section key={index}>
            <h2>{text(dive["label"])}</h2>
            <Figures
              store={store}
              said={said}
              lines={[
                { path: `${place}.bottom_time_min`, large: true },
                { path: `${place}.no_stop_min.shorter` },
                { path: `${place}.way_up_min` },
                { name: t.start, words: clock(dive["start"]) },
                { name: t.latest, words: clock(dive["latest_leave_bottom"]) },
              ]}
            />
            {divers.length ? (
              <Table
                caption={`${t.divers}: ${text(dive["label"])}`}
                head={[t.diver.name, t.diver.role, t.diver.leave, t.diver.end]}
                numbers={[2, 3]}
                rows={divers.map((diver, n) => [
                  text(diver["name"]),
                  text(diver["role"]),
                  number(`${place}.divers[${n + 1}].leave_bottom_bar`),
                  number(`${place}.divers[${n + 1}].end_pressure_bar`),
                ])}
              />
            ) : null}
            <p class="quiet">{text(dive["caution"])}</p>
          </section>
        );
      })}
    </>
  );
}

function BriefTold({ store, plan }: Props) {
  return (
    <>
      <FileList id={store.id} />
      <section>
        <h2>{frame.abort.title}</h2>
        <ul>
          {texts(plan["abort"]).map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
        <p class="abort-action">{text(plan["abort_action"])}</p>
      </section>
    </>
  );
}

function Said({ title, lines }: { title: string; lines: string[] }) {
  const told = lines.filter(Boolean);
  if (!told.length) return null;
  return (
    <section class="said">
      {title ? <h2>{title}</h2> : null}
      {told.map((line) => (
        <p key={line}>{line}</p>
      ))}
    </section>
  );
}
