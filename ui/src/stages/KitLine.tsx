/** Which kit the case takes its bags, cylinders and people from. */
import { useEffect, useId, useState } from "preact/hooks";

import { api } from "../state/api";
import { caseHash } from "../state/route";
import type { CaseStore } from "../state/store";
import type { KitLine as Kit } from "../state/types";
import { frame as t } from "../texts/frame";

/** Choose it, or open it. */
export function KitLine({ store }: { store: CaseStore }) {
  const [kits, setKits] = useState<Kit[]>([]);
  const id = useId();
  const chosen = store.said.value?.kit_id ?? "";
  useEffect(() => {
    let here = true;
    api.get<{ kits: Kit[] }>("/kits").then(
      (found) => here && setKits(found.kits),
      () => undefined,
    );
    return () => {
      here = false;
    };
  }, [chosen]);
  return (
    <section class="entry kit-line" data-section="kit">
      <label for={id} class="label">
        {t.kit_choice}
      </label>
      <span class="help">{t.kit_help}</span>
      <select id={id} value={chosen} onChange={(event) => void store.chooseKit(event.currentTarget.value || null)}>
        <option value="">{t.no_kit}</option>
        {kits.map((kit) => (
          <option key={kit.id} value={kit.id}>
            {kit.title}
          </option>
        ))}
      </select>
      <a class="button no-print" href={caseHash(store.id, "kit")}>
        {t.kit_new}
      </a>
      {chosen ? (
        <a class="button no-print" href={`#/kit/${chosen}`}>
          {t.kit_open}
        </a>
      ) : null}
    </section>
  );
}
