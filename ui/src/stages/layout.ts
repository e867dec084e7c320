/** Which part of the case is written on which stage, the most important first; rare keys lie behind "More". */
import { placed } from "../state/paths";
import type { Stage } from "../state/types";

/** One block of a stage. */
export interface Block {
  section: string;
  /** Keys of the section in their order; left out: all. */
  keys?: readonly string[];
  /** Keys that lie behind "More" until something stands in them. */
  more?: readonly string[];
  /** The whole block is rare: folded until something stands in it. */
  folded?: boolean;
}

export const STAGES: readonly Stage[] = ["call", "search", "object", "lift", "dive", "brief"];

/** The blocks of every stage. */
export const LAYOUT: Record<Stage, readonly Block[]> = {
  call: [
    { section: "hazards" },
    { section: "permission" },
    {
      section: "site",
      keys: [
        "name",
        "depth",
        "depth_how",
        "bottom",
        "visibility",
        "water",
        "temperature",
        "daylight_until",
        "stream",
        "datum",
        "altitude",
        "tide",
        "slack_error",
        "shore",
        "declination",
      ],
      more: ["tide", "slack_error", "shore", "declination"],
    },
    { section: "limits" },
    { section: "case", keys: ["title", "purpose", "rules", "supervisor", "units", "lost"] },
    { section: "regime", folded: true },
  ],
  search: [
    { section: "account" },
    {
      section: "search",
      keys: [
        "minutes",
        "by",
        "sweep_width",
        "trial",
        "speed",
        "size",
        "contrast",
        "elsewhere",
        "area",
        "pass",
        "deepest",
        "only",
        "line",
        "kick",
        "boat",
        "stands",
        "wall",
        "law",
      ],
      more: ["deepest", "only", "line", "kick", "boat", "stands", "wall", "law"],
    },
  ],
  object: [
    {
      section: "object",
      keys: ["name", "known_as", "part", "measured", "bed", "lift_points", "lies", "cavity", "balance", "trial"],
      more: ["cavity", "balance", "trial"],
    },
  ],
  lift: [
    {
      section: "lift",
      keys: [
        "method",
        "bags",
        "cylinder",
        "cylinder_goes",
        "rigging",
        "restraint",
        "crown_line",
        "rate",
        "reference",
        "leave_load_at",
        "tender",
        "tries",
        "rigging_mass",
        "kept_heavy",
        "drag_area",
        "added_mass",
        "surplus",
        "gas",
        "as_point",
      ],
      more: ["tries", "rigging_mass", "kept_heavy", "drag_area", "added_mass", "surplus", "gas", "as_point"],
    },
    { section: "surface" },
    { section: "lowering", folded: true },
  ],
  dive: [
    { section: "dive" },
    { section: "exposure", keys: ["earlier", "stop", "arrived", "gradient"], more: ["stop", "arrived", "gradient"] },
    { section: "lesson", folded: true },
    { section: "trainee", folded: true },
  ],
  brief: [
    { section: "emergency" },
    { section: "agreed" },
    { section: "override", folded: true },
    { section: "house", folded: true },
  ],
};

/** The stage on which a key is written; the call where nothing is known of it. */
export function stageOf(key: string): Stage {
  const section = placed(key)[0];
  return STAGES.find((stage) => LAYOUT[stage].some((block) => block.section === section)) ?? "call";
}

/** Keys of a table or of a row that always show; the others lie behind "More" until something stands in them. */
const FIRST: Readonly<Record<string, readonly string[]>> = {
  account: ["who", "sure", "at", "within", "how"],
  "search.pass": ["pattern", "completed", "centre", "radius", "spacing", "heading", "length", "lanes"],
  "object.part": ["name", "mass", "material", "volume", "how"],
  "object.measured": ["by", "how", "shape", "material", "solid", "length", "width", "height", "diameter"],
  "object.bed": ["footprint", "buried", "days"],
  "lift.rigging": ["connector", "sling", "line", "hitch"],
  "lift.tender": ["who", "policy"],
  "dive.tasks": ["do", "by", "time"],
  bag: ["id", "style", "capacity", "really", "mass", "height", "attachment"],
  cylinder: ["id", "use", "volume", "rated", "pressure", "gas"],
  connector: ["id", "kind", "limit", "locking"],
  sling: ["id", "kind", "limit", "length"],
  line: ["id", "limit", "length", "knot"],
  person: ["name", "may", "resting_rate", "working_rate"],
};

/** Put the keys of a table or a row in order: which show first, and which are rare. */
export function ordered<T extends { key: string }>(
  path: readonly (string | number)[],
  fields: readonly T[],
): { fields: T[]; more: string[] } {
  const first = FIRST[path.filter((step) => typeof step === "string").join(".")];
  if (!first) return { fields: [...fields], more: [] };
  const shown = first.flatMap((key) => fields.filter((field) => field.key === key));
  const rest = fields.filter((field) => !first.includes(field.key));
  return { fields: [...shown, ...rest], more: rest.map((field) => field.key) };
}
