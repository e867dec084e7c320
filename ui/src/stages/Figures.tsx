/** The numbers of a stage, as the server puts them into words: the one that decides is large. */
import { caseHash } from "../state/route";
import type { CaseStore } from "../state/store";
import type { NumberLine, PlanSaid } from "../state/types";
import { THIN } from "../widgets/figures";

/** One line: a number of the plan by its place, or words. */
export interface Line {
  /** Where it stands in the plan. */
  path?: string;
  /** Its name; left out: the server's. */
  name?: string;
  /** Words instead of a number. */
  words?: string;
  large?: boolean;
}

/** Which system of units the case chose. */
export function unitsOf(store: CaseStore): "metric" | "imperial" {
  const head = store.document.value["case"] as { units?: unknown } | undefined;
  return head?.units === "imperial" ? "imperial" : "metric";
}

/** Draw them; a number that the plan does not have is left out. */
export function Figures({ store, said, lines }: { store: CaseStore; said: PlanSaid; lines: readonly Line[] }) {
  const found = lines
    .map((line) => ({ line, number: line.path ? said.numbers.find((one) => one.path === line.path) : undefined }))
    .filter(({ line, number }) => number || line.words);
  if (!found.length) return null;
  return (
    <dl class="figures">
      {found.map(({ line, number }) => (
        <div key={line.path ?? line.name} class={line.large ? "figure-row figure-large" : "figure-row"}>
          <dt>
            {number ? (
              <a href={`${caseHash(store.id, "sources")}/${encodeURIComponent(number.path)}`}>
                {line.name ?? number.name}
              </a>
            ) : (
              line.name
            )}
          </dt>
          <dd>{number ? <Figure number={number} large={line.large ?? false} /> : line.words}</dd>
        </div>
      ))}
    </dl>
  );
}

function Figure({ number, large }: { number: NumberLine; large: boolean }) {
  const cut = number.likely.indexOf(THIN);
  const [likely, unit] =
    cut < 0 || number.likely.indexOf(THIN, cut + 1) >= 0
      ? [number.likely, ""]
      : [number.likely.slice(0, cut), number.likely.slice(cut)];
  return (
    <>
      <span class={large ? "number number-large" : "number"}>
        <span class="number-likely">{likely}</span>
        {unit ? <span class="number-unit">{unit}</span> : null}
        {number.band ? <span class="number-band">{` (${number.band})`}</span> : null}
      </span>
      {number.also ? <span class="also">{number.also}</span> : null}
    </>
  );
}
