/** A state: a shape and a word. */
import type { ComponentChildren } from "preact";

import type { Level } from "../state/types";
import { forms as t } from "../texts/forms";

const SHAPES: Record<Exclude<Level, "none">, ComponentChildren> = {
  stop: <path d="M6.3 1h7.4L19 6.3v7.4L13.7 19H6.3L1 13.7V6.3z" class="mark-full" />,
  unanswered: (
    <>
      <rect x="2" y="2" width="16" height="16" class="mark-open" />
      <text x="10" y="15" text-anchor="middle" class="mark-sign">
        ?
      </text>
    </>
  ),
  caution: <path d="M10 2.5 18.5 17.5H1.5z" class="mark-open" />,
  note: <circle cx="10" cy="10" r="3.5" class="mark-full" />,
};

/** Shape and word; `word={null}` leaves the word to the text beside it, and hides the shape from readers. */
export function Mark({ state, word }: { state: Level; word?: string | null }) {
  const said = word === undefined ? t.states[state] : word;
  if (state === "none") return said ? <span class="mark mark-none">{said}</span> : null;
  return (
    <span class={`mark mark-${state}`}>
      <svg viewBox="0 0 20 20" width="20" height="20" aria-hidden="true" focusable="false">
        {SHAPES[state]}
      </svg>
      {said ? <span class="mark-word">{said}</span> : null}
    </span>
  );
}
