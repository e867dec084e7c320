/** The pictures of each stage. */
import { useEffect, useState } from "preact/hooks";

import {
  AscentFan,
  AscentPlayer,
  ControlMap,
  Drivers,
  ExposurePicture,
  LiftDrawing,
  RangeLines,
  RiggingLoads,
  SearchCover,
  SiteMap,
  TimeLine,
  VentChart,
  type Drawn as D,
} from "../pictures";
import { api } from "../state/api";
import type { CaseStore } from "../state/store";
import { at } from "../state/paths";
import type { Change, Plan, Stage } from "../state/types";
import { gesture } from "../widgets/active";
import { stages as t } from "../texts/stages";
import { unitsOf } from "./Figures";
import { piece, rows } from "./reading";
import { TryOut, useTry } from "./TryOut";

/** Pieces of the plan go as they are to the pictures, which check what they need. */
const as = <T,>(value: unknown) => value as T;

/** Draw them; without an answer only the map stays, drawn from what is written. */
export function Pictures({ store, stage, plan }: { store: CaseStore; stage: Stage; plan: Plan | null }) {
  if (stage === "search") return <SearchPictures store={store} plan={plan} />;
  if (!plan) return null;
  if (stage === "object") return <ObjectPictures store={store} plan={plan} />;
  if (stage === "lift") return <LiftPictures store={store} plan={plan} />;
  if (stage === "dive") return <DivePictures store={store} plan={plan} />;
  return null;
}

function SearchPictures({ store, plan }: { store: CaseStore; plan: Plan | null }) {
  const units = unitsOf(store);
  const [search, written] = [plan?.["search"] ?? null, store.document.value];
  const places = ["account", "search"].some((key) => written[key] !== undefined);
  if (!search && !places) return null;
  return (
    <>
      <SiteMap
        units={units}
        search={as<D.Search | null>(search)}
        written={written}
        onMove={({ path, value, name }) =>
          store.edit([{ op: "set", path: [...path], value }], t.moved(name), gesture())
        }
        onPass={(row) => store.edit([added(store, row)], t.passed, gesture())}
      />
      {search ? <SearchCover units={units} search={as<D.Search>(search)} /> : null}
    </>
  );
}

/** A pass behind those that were swum. */
function added(store: CaseStore, row: unknown): Change {
  const there = at(store.document.value, ["search", "pass"]);
  return Array.isArray(there)
    ? { op: "insert", path: ["search", "pass", there.length], value: row }
    : { op: "set", path: ["search", "pass"], value: [row] };
}

function ObjectPictures({ store, plan }: { store: CaseStore; plan: Plan }) {
  const units = unitsOf(store);
  const [load, lift] = [piece(plan, "load"), piece(plan, "lift")];
  const named = (name: string, band: unknown) => ({ name, band: as<D.Band | null>(band ?? null) });
  const bands = [
    named(t.numbers.weight, load["wet_weight_kg"]),
    named(t.numbers.holds, load["breakout_kg"]),
    named(t.numbers.leaving, load["leaving_water_kg"]),
    named(t.numbers.needed, lift["required_kg"]),
  ].filter((row) => row.band !== null);
  return (
    <>
      {bands.length ? <RangeLines units={units} rows={bands} kind="mass" /> : null}
      {rows(load["drivers"]).length ? <Drivers units={units} rows={as<D.DriverRow[]>(load["drivers"])} /> : null}
    </>
  );
}

function LiftPictures({ store, plan }: { store: CaseStore; plan: Plan }) {
  const units = unitsOf(store);
  const trying = useTry(store);
  const said = store.current.value;
  const [lift, load, ascent] = [piece(plan, "lift"), piece(plan, "load"), piece(plan, "ascent")];
  const held = piece(as<Plan>(ascent), "under_control");
  const bags = as<D.LiftBag[]>(rows(lift["bags"]));
  const litres = Object.fromEntries(bags.filter((bag) => bag.really_l).map((bag) => [bag.id, bag.really_l.likely]));
  const weight = as<D.Band | undefined>(load["wet_weight_kg"])?.likely;
  return (
    <>
      {plan["sketch"] ? (
        <LiftDrawing
          units={units}
          sketch={as<D.Sketch>(plan["sketch"])}
          circles={as<D.Circles>(plan["circles"])}
          litres={litres}
          {...(weight === undefined ? {} : { weight_kg: weight })}
          onTryWeight={(kg, done) => done && trying.weight(kg)}
        />
      ) : null}
      {said ? <TryOut trying={trying} said={said} /> : null}
      {rows(lift["rigging"]).length ? <RiggingLoads units={units} rows={as<D.RiggingRow[]>(lift["rigging"])} /> : null}
      {ascent["fan"] || held["fan"] ? <AscentFan units={units} ascent={as<D.Ascent>(ascent)} /> : null}
      <Player store={store} plan={plan} bags={bags} />
      {rows(ascent["vent_l_s"]).length ? <VentChart units={units} rows={as<D.VentRow[]>(ascent["vent_l_s"])} /> : null}
      {held["map"] ? <ControlMap units={units} map={as<D.MapOfControl>(held["map"])} /> : null}
    </>
  );
}

/** The way up in time: asked for when somebody wants to see it. */
function Player({ store, plan, bags }: { store: CaseStore; plan: Plan; bags: D.LiftBag[] }) {
  const [trace, setTrace] = useState<{ trace_of: string | null; trace: D.TraceRow[] } | null>(null);
  const [wanted, setWanted] = useState(false);
  useEffect(() => {
    if (!wanted) return undefined;
    const stop = new AbortController();
    api
      .get<{ trace_of: string | null; trace: D.TraceRow[] }>(`/cases/${store.id}/trace`, stop.signal)
      .then(setTrace, () => setWanted(false));
    return () => stop.abort();
  }, [wanted, store]);
  const ascent = piece(plan, "ascent");
  if (!ascent["left_alone"] && !ascent["under_control"]) return null;
  if (!wanted)
    return (
      <button type="button" class="plain no-print" onClick={() => setWanted(true)}>
        {t.play}
      </button>
    );
  if (!trace) return <p role="status">{t.waiting}</p>;
  const ceiling = as<D.Ascent>(ascent).rate?.ceiling_m_min;
  return (
    <AscentPlayer
      units={unitsOf(store)}
      trace={trace.trace}
      traceOf={trace.trace_of}
      bags={bags}
      {...(ceiling === undefined ? {} : { ceiling_m_min: ceiling })}
      sketch={as<D.Sketch>(plan["sketch"])}
    />
  );
}

function DivePictures({ store, plan }: { store: CaseStore; plan: Plan }) {
  const units = unitsOf(store);
  const dives = as<D.Dive[]>(rows(plan["dives"]));
  const daylight = piece(plan, "site")["daylight_until"];
  if (!dives.length) return null;
  return (
    <>
      <TimeLine units={units} dives={dives} daylight_until={as<string | null>(daylight ?? null)} />
      {dives.map((dive) => (
        <ExposurePicture key={dive.label} units={units} dive={dive} />
      ))}
    </>
  );
}
