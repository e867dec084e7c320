/** On which stage a key of the case is written. */

const STAGES: readonly (readonly [string, string])[] = [
  ["kit.", "lift"],
  ["object", "object"],
  ["lift", "lift"],
  ["lowering", "lift"],
  ["surface", "lift"],
  ["search", "search"],
  ["account", "search"],
  ["dive", "dive"],
  ["lesson", "dive"],
  ["exposure", "dive"],
  ["emergency", "brief"],
  ["site", "call"],
  ["permission", "call"],
  ["hazards", "call"],
  ["limits", "call"],
  ["case", "call"],
];

/** Give the stage, or null where the key is no field (the density of a material, say). */
export function stageOfKey(key: string): string | null {
  return STAGES.find(([start]) => key.startsWith(start))?.[1] ?? null;
}
