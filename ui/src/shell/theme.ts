/** How light the page is: as the device says, paper, dark, full sun. */
import { signal } from "@preact/signals";

import { keepText, keptText } from "../state/person";

export const THEMES = ["auto", "paper", "dark", "sun"] as const;
export type Theme = (typeof THEMES)[number];

const PLACE = "parbuckle.theme";

export const theme = signal<Theme>(known(keptText(PLACE)));

/** Choose one; it stays on this device. */
export function chooseTheme(next: Theme): void {
  theme.value = next;
  keepText(PLACE, next === "auto" ? null : next);
  show();
}

/** Put the chosen one on the page. */
export function show(): void {
  const root = document.documentElement;
  if (theme.value === "auto") delete root.dataset["theme"];
  else root.dataset["theme"] = theme.value;
}

function known(text: string | null): Theme {
  return THEMES.find((one) => one === text) ?? "auto";
}
