/** Whether all is saved, and the way back. */
import { useEffect } from "preact/hooks";

import type { Store } from "../widgets/FieldFrame";
import { frame as t } from "../texts/frame";

/** State in words, undo and redo as buttons and by the usual keys. */
export function Saved({ store }: { store: Store }) {
  const said = store.said.value;
  useKeys(store);
  return (
    <div class="saved">
      <span class="saved-word" role="status" data-saving={store.saving.value}>
        {t.saving[store.saving.value]}
      </span>
      <button
        type="button"
        class="plain small"
        disabled={!said?.undo_what}
        title={said?.undo_what ? t.undo_what(said.undo_what) : t.nothing_undo}
        onClick={() => void store.undo()}
      >
        {t.undo}
      </button>
      <button
        type="button"
        class="plain small"
        disabled={!said?.redo_what}
        title={said?.redo_what ? t.redo_what(said.redo_what) : t.nothing_redo}
        onClick={() => void store.redo()}
      >
        {t.redo}
      </button>
    </div>
  );
}

function useKeys(store: Store): void {
  useEffect(() => {
    const pressed = (event: KeyboardEvent) => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
      const key = event.key.toLowerCase();
      const again = key === "y" || (key === "z" && event.shiftKey);
      if (!again && key !== "z") return;
      if (event.target instanceof Element && event.target.closest("dialog")) return; // a sheet has texts of its own
      event.preventDefault(); // the case goes back, not only the letters of one field
      void (again ? store.redo() : store.undo());
    };
    addEventListener("keydown", pressed);
    return () => removeEventListener("keydown", pressed);
  }, [store]);
}
