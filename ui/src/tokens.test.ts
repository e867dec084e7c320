import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { describe, expect, it } from "vitest";

const css = readFileSync(resolve("src/tokens.css"), "utf8");

/** The colours that a rule of the style sheet sets. */
function colours(rule: string): Record<string, string> {
  const start = css.indexOf(rule);
  if (start < 0) throw new Error(`no rule ${rule}`);
  const body = css.slice(css.indexOf("{", start) + 1, css.indexOf("}", start));
  return Object.fromEntries([...body.matchAll(/--([\w-]+):\s*(#[0-9a-f]{6})/gi)].map((found) => [found[1], found[2]]));
}

/** Relative luminance, WCAG 2. */
function luminance(colour: string): number {
  const parts = [1, 3, 5].map((at) => Number.parseInt(colour.slice(at, at + 2), 16) / 255);
  const linear = parts.map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
  return 0.2126 * (linear[0] ?? 0) + 0.7152 * (linear[1] ?? 0) + 0.0722 * (linear[2] ?? 0);
}

function contrast(one: string, other: string): number {
  const [light, dark] = [luminance(one), luminance(other)].sort((a, b) => b - a);
  return ((light ?? 0) + 0.05) / ((dark ?? 0) + 0.05);
}

const THEMES = {
  paper: colours(":root {"),
  "dark by the device": colours(":root:not([data-theme]) {"),
  dark: colours(':root[data-theme="dark"] {'),
  sun: colours(':root[data-theme="sun"] {'),
  print: colours(":root[data-theme],"),
};

const TEXT = ["ink", "quiet", "accent", "stop", "caution"].flatMap((front) =>
  ["paper", "sheet", "tint"].map((back) => [front, back]),
);
const PAIRS = [...TEXT, ["ink", "ground"], ["ink", "water"], ["on-accent", "accent"], ["on-stop", "stop"]];

describe.each(Object.entries(THEMES))("the colours of %s", (_, theme) => {
  it.each(PAIRS)("%s on %s can be read: 4.5 to 1", (front = "", back = "") => {
    expect(contrast(theme[front] ?? "", theme[back] ?? "")).toBeGreaterThanOrEqual(4.5);
  });

  it("an outline of a field can be seen: 3 to 1", () => {
    expect(contrast(theme["edge"] ?? "", theme["sheet"] ?? "")).toBeGreaterThanOrEqual(3);
    expect(contrast(theme["edge"] ?? "", theme["paper"] ?? "")).toBeGreaterThanOrEqual(3);
  });
});

describe("dark", () => {
  it("is one, whoever asks for it", () => {
    expect(THEMES.dark).toEqual(THEMES["dark by the device"]);
  });
});

describe("the contrast", () => {
  it("is 21 between black and white", () => {
    expect(contrast("#000000", "#ffffff")).toBeCloseTo(21, 6);
  });
});
