/** One kit out of those that are kept, a new one, or none. */
import type { KitLine } from "../state/types";
import { pages as t } from "../texts/pages";

/** What is picked where a case shall have no kit. */
export const NO_KIT = "none";

/** What is picked where a new kit shall be typed. */
export const NEW_KIT = "new";

interface Props {
  kits: readonly KitLine[];
  picked: string;
  pick: (value: string) => void;
}

/** The choice, as radio buttons. */
export function KitRadios({ kits, picked, pick }: Props) {
  return (
    <fieldset class="picker">
      <legend>{t.kit_choice.pick}</legend>
      {kits.map((row) => (
        <Radio key={row.id} value={row.id} picked={picked} pick={pick} word={row.title} />
      ))}
      <Radio value={NEW_KIT} picked={picked} pick={pick} word={t.kit_choice.fresh} />
      <Radio value={NO_KIT} picked={picked} pick={pick} word={t.kit_choice.none} />
    </fieldset>
  );
}

function Radio(props: { value: string; picked: string; pick: (value: string) => void; word: string }) {
  return (
    <label class="tick">
      <input
        type="radio"
        name="kit"
        value={props.value}
        checked={props.picked === props.value}
        onChange={() => props.pick(props.value)}
      />
      <span>{props.word}</span>
    </label>
  );
}
