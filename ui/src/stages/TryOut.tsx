/** Something tried by hand in a picture: what would follow, beside what stands; nothing of it is kept. */
import { useState } from "preact/hooks";

import { figures as rounded } from "../pictures/figures";
import { Away, Refusal } from "../state/api";
import type { CaseStore } from "../state/store";
import type { Change, NumberLine, PlanSaid } from "../state/types";
import { Table } from "../widgets/Table";
import { stages as t } from "../texts/stages";
import { THIN } from "../widgets/figures";
import { piece, text } from "./reading";

export interface Trying {
  what: string;
  state: "no" | "working" | "there";
  then: PlanSaid | null;
  trouble: string;
  weight: (kg: number) => void;
  drop: () => void;
}

/** Try a weight in water: as if a spring balance had shown it, and nothing else were known. */
export function useTry(store: CaseStore): Trying {
  const [state, setState] = useState<Omit<Trying, "weight" | "drop">>({
    what: "",
    state: "no",
    then: null,
    trouble: "",
  });
  const ask = (changes: Change[], what: string) => {
    setState({ what, state: "working", then: null, trouble: "" });
    store.tryOut(changes).then(
      (then) => setState({ what, state: "there", then, trouble: then.plan ? "" : (then.faults[0]?.what ?? "") }),
      (error: unknown) =>
        setState({
          what,
          state: "there",
          then: null,
          trouble: error instanceof Refusal || error instanceof Away ? error.message : "",
        }),
    );
  };
  const weight = (kg: number) => {
    const object = store.document.value["object"];
    const written = Object.keys((object as object | undefined) ?? {});
    const gone = ["part", "measured", "cavity", "trial", "known_as"].filter((key) => written.includes(key));
    const shown = rounded(kg);
    ask(
      [
        ...gone.map((key) => ({ op: "remove" as const, path: ["object", key] })),
        { op: "set", path: ["object", "balance"], value: [{ by: t.try_out.somebody, weight: `${shown} kg in water` }] },
      ],
      t.try_out.weight(`${shown}${THIN}kg`),
    );
  };
  return { ...state, weight, drop: () => setState({ what: "", state: "no", then: null, trouble: "" }) };
}

const ROWS = [
  "load.wet_weight_kg",
  "lift.required_kg",
  "lift.bag_volume_l",
  "lift.surplus_at_release_kg",
  "lift.chance_floats_once_free",
  "ascent.delay_budget_s",
  "ascent.runaway_bound_m_s",
  "circles.bottom_m",
];

/** Now and then, side by side. */
export function TryOut({ trying, said }: { trying: Trying; said: PlanSaid }) {
  if (trying.state === "no") return null;
  const then = trying.then;
  return (
    <section class="try-out" role="status">
      <h3>
        {t.try_out.title}: {trying.what}
      </h3>
      {trying.state === "working" ? <p>{t.try_out.working}</p> : null}
      {trying.trouble ? <p>{trying.trouble}</p> : null}
      {then?.plan ? (
        <Table
          caption={t.try_out.lead}
          head={[t.try_out.name, t.try_out.now, t.try_out.then]}
          rows={compared(said, then)}
        />
      ) : null}
      <button type="button" class="plain small no-print" onClick={trying.drop}>
        {t.try_out.drop}
      </button>
    </section>
  );
}

function compared(said: PlanSaid, then: PlanSaid): string[][] {
  const numbers = ROWS.flatMap((path) => {
    const [now, later] = [said, then].map((one) => one.numbers.find((line) => line.path === path));
    return now || later ? [[(now ?? later)?.name ?? "", told(now), told(later)]] : [];
  });
  const sentence = [said, then].map((one) => text(piece(one.plan, "lift")["sentence"]));
  const verdict = [said, then].map((one) => one.plan?.verdict.line ?? "");
  return [...numbers, [t.sentence, ...sentence], [t.try_out.verdict, ...verdict]];
}

function told(line: NumberLine | undefined): string {
  return line ? `${line.likely}${line.band ? ` (${line.band})` : ""}` : t.try_out.none;
}
