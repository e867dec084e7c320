/** What must be told about saving: nobody answers, somebody was first, something was not taken. */
import { heard } from "../state/news";
import { named } from "../state/paths";
import type { Store } from "../widgets/FieldFrame";
import { Dialog } from "../widgets/Dialog";
import { frame as t } from "../texts/frame";

/** The server does not answer. */
export function AwayBanner({ store }: { store: Store | null }) {
  const away = store?.away.value || heard.value === "no";
  if (!away) return null;
  return (
    <div class="banner" role="status" data-banner="away">
      <strong>{t.away.banner}</strong> <span>{store?.waiting.value.length ? t.away.waiting : t.away.asof}</span>
      {store ? (
        <button type="button" class="plain small" onClick={() => void store.again()}>
          {t.away.again}
        </button>
      ) : null}
    </div>
  );
}

/** An edit that was not taken: its text is shown, so that nothing typed is lost. */
export function RefusedBanner({ store }: { store: Store }) {
  const refused = store.refused.value;
  if (!refused) return null;
  return (
    <div class="banner" role="alert" data-banner="refused">
      <strong>{t.refused.title}</strong>{" "}
      <span>
        {refused.edit.what}. {refused.told.what}
      </span>
      <button type="button" class="plain small" onClick={() => (store.refused.value = null)}>
        {t.refused.close}
      </button>
    </div>
  );
}

/** Somebody else changed the same place: whose word stands is said by a person. */
export function ClashSheet({ store }: { store: Store }) {
  const clash = store.clash.value;
  if (!clash) return null;
  const at = clash.told.at
    ? new Date(clash.told.at).toLocaleString("en-GB", {
        hour: "2-digit",
        minute: "2-digit",
        day: "numeric",
        month: "short",
      })
    : "?";
  const mine = clash.mine.changes.at(-1);
  return (
    <Dialog title={t.clash.title} onClose={() => store.settle("theirs")} close={t.clash.keep_theirs}>
      <p>
        {t.clash.lead(clash.told.by ?? t.somebody, at)} <code>{named(clash.told.path ?? mine?.path ?? [])}</code>
      </p>
      <dl class="clash">
        <dt>{t.clash.theirs}</dt>
        <dd>{words(clash.told.theirs)}</dd>
        <dt>{t.clash.mine}</dt>
        <dd>{mine?.op === "remove" ? t.clash.nothing : words(mine?.value)}</dd>
      </dl>
      <p>
        <button type="button" class="firm" onClick={() => store.settle("mine")}>
          {t.clash.keep_mine}
        </button>
      </p>
    </Dialog>
  );
}

function words(value: unknown): string {
  if (value === undefined || value === null || value === "") return t.clash.nothing;
  return typeof value === "object" ? JSON.stringify(value) : String(value);
}
