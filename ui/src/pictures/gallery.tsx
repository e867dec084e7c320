/** All pictures with shipped cases, for looking at them; `npx vite src/pictures` style dev page, not in the product. */
import { render } from "preact";
import { useState } from "preact/hooks";
import "../tokens.css";
import { AscentFan, AscentPlayer, ControlMap, type Drawn, Drivers, ExposurePicture, LiftDrawing, RangeLines, RiggingLoads, SearchCover, SiteMap, TimeLine, VentChart } from "./index";

type Plan = {
  load?: { wet_weight_kg: Drawn.Band; drivers: Drawn.DriverRow[] };
  lift?: { required_kg: Drawn.Band; ceiling_kg: number | null; rigging: Drawn.RiggingRow[]; bags: Drawn.LiftBag[] };
  site?: { daylight_until: string | null };
  ascent?: Drawn.Ascent;
  sketch?: Drawn.Sketch;
  circles?: Drawn.Circles;
  dives?: Drawn.Dive[];
  search?: Drawn.Search;
};
type Told = { plan: Plan; trace: { trace_of: string | null; trace: Drawn.TraceRow[] } | null; written: unknown };

const asked = new URLSearchParams(location.search);
const units: "metric" | "imperial" = asked.get("units") === "imperial" ? "imperial" : "metric";

function Gallery({ told, only }: { told: Told; only: string | null }) {
  const { plan, trace } = told;
  const [tried, setTried] = useState("");
  const [written, setWritten] = useState(told.written);
  const litres = Object.fromEntries((plan.lift?.bags ?? []).map((bag) => [bag.id, bag.really_l.likely]));
  const all: [string, preact.ComponentChildren][] = [
    ["site", <SiteMap units={units} search={plan.search} written={written} onPass={(pass) => setTried(JSON.stringify(pass))} onMove={(moved) => {
      const copy = structuredClone(written) as never;
      let at: Record<string | number, unknown> = copy;
      for (const step of moved.path.slice(0, -1)) at = at[step] as Record<string | number, unknown>;
      at[moved.path[moved.path.length - 1] ?? ""] = moved.value;
      setWritten(copy);
      setTried(JSON.stringify(moved));
    }} />],
    ["cover", <SearchCover units={units} search={plan.search} />],
    ["lift", <LiftDrawing units={units} sketch={plan.sketch} circles={plan.circles} litres={litres} weight_kg={plan.load?.wet_weight_kg.likely} onTryBag={(one) => setTried(JSON.stringify(one))} onTryWeight={(kg) => setTried(`${kg} kg`)} />],
    ["fan", <AscentFan units={units} ascent={plan.ascent} />],
    ["player", <AscentPlayer units={units} trace={trace?.trace ?? []} traceOf={trace?.trace_of} bags={plan.lift?.bags ?? []} ceiling_m_min={plan.ascent?.rate?.ceiling_m_min} sketch={plan.sketch} />],
    ["vent", <VentChart units={units} rows={plan.ascent?.vent_l_s} />],
    ["control", <ControlMap units={units} map={plan.ascent?.under_control?.map} />],
    ["rigging", <RiggingLoads units={units} rows={plan.lift?.rigging} />],
    ["times", <TimeLine units={units} dives={plan.dives} daylight_until={plan.site?.daylight_until} />],
    ["drivers", <Drivers units={units} rows={plan.load?.drivers} />],
    ["range", <RangeLines units={units} rows={[{ name: "wet weight", band: plan.load?.wet_weight_kg }, { name: "lift needed", band: plan.lift?.required_kg }]} limit={plan.lift?.ceiling_kg ? { at: plan.lift.ceiling_kg, text: "stop filling" } : null} />],
    ...(plan.dives ?? []).map((dive): [string, preact.ComponentChildren] => ["exposure", <ExposurePicture units={units} dive={dive} />]),
  ];
  return (
    <main>
      <p>{tried}</p>
      {all
        .filter(([name]) => !only || only === name)
        .map(([name, picture], n) => (
          <section key={n} id={`${name}${n}`}>
            <h2>{name}</h2>
            {picture}
          </section>
        ))}
    </main>
  );
}

const theme = asked.get("theme");
if (theme) document.documentElement.dataset["theme"] = theme;
const root = document.getElementById("gallery");
if (root) {
  void fetch(`/fixtures/${asked.get("case") ?? "quarry-outboard"}.json`)
    .then((answer) => answer.json())
    .then((told: Told) => render(<Gallery told={told} only={asked.get("only")} />, root));
}
