import { describe, expect, it } from "vitest";

import { LAYOUT, ordered, STAGES, stageOf } from "./layout";

describe("the layout", () => {
  it("writes every section on one stage only", () => {
    const sections = STAGES.flatMap((stage) => LAYOUT[stage].map((block) => block.section));
    expect(new Set(sections).size).toBe(sections.length);
  });

  it("hides no key that it does not also place", () => {
    for (const block of Object.values(LAYOUT).flat())
      for (const key of block.more ?? []) expect(block.keys).toContain(key);
  });

  it("knows the stage of a key", () => {
    expect(stageOf("object.part[2].mass")).toBe("object");
    expect(stageOf("account[1].who")).toBe("search");
    expect(stageOf("nothing.known")).toBe("call");
  });

  it("puts what is asked most first, and loses no key", () => {
    const fields = ["volume", "cost", "name", "mass"].map((key) => ({ key }));
    const { fields: sorted, more } = ordered(["object", "part", 3], fields);
    expect(sorted.map((field) => field.key)).toEqual(["name", "mass", "volume", "cost"]);
    expect(more).toEqual(["cost"]);
    expect(ordered(["limits"], fields)).toEqual({ fields, more: [] });
  });
});
