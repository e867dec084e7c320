/** Bring a value to the eye: the field of a key, as soon as it is drawn. */
const TRIES = 40;

/** Move the focus to the field of a key, or to the nearest that holds it; gives what ends the waiting. */
export function focusAt(key: string): () => void {
  let left = TRIES;
  const timer = setInterval(() => {
    const found = nearest(key);
    left -= 1;
    if (!found && left > 0) return;
    clearInterval(timer);
    if (!found) return;
    found.scrollIntoView({ block: "center" });
    const control = found.querySelector<HTMLElement>("input, select, textarea, button") ?? found;
    control.focus({ preventScroll: true });
    found.classList.add("is-meant");
    setTimeout(() => found.classList.remove("is-meant"), 4000);
  }, 50);
  return () => clearInterval(timer);
}

/** The field of the key; where there is none, the one above it; then the section. */
function nearest(key: string): HTMLElement | null {
  for (let name = key; name; name = name.replace(/(\.[^.[]+|\[\d+\]|^[^.[]+)$/, "")) {
    const found = document.querySelector<HTMLElement>(
      `[data-key="${CSS.escape(name)}"], [data-section="${CSS.escape(name)}"]`,
    );
    if (found) return found;
  }
  return null;
}
