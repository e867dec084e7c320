/** Whether entered and told stand beside each other. */
import { signal } from "@preact/signals";

const asked = typeof matchMedia === "function" ? matchMedia("(min-width: 900px)") : null;

export const wide = signal(asked?.matches ?? true);

asked?.addEventListener("change", (event) => {
  wide.value = event.matches;
});
