import { describe, expect, it } from "vitest";

import { applied, at, named, overlaps, placed } from "./paths";

const document = { object: { part: [{ name: "block" }, { name: "leg" }] } };

describe("places of a document", () => {
  it("are named with rows from 1, and found again", () => {
    expect(named(["object", "part", 1, "mass"])).toBe("object.part[2].mass");
    expect(placed("object.part[2].mass")).toEqual(["object", "part", 1, "mass"]);
    expect(at(document, placed("object.part[2].name"))).toBe("leg");
  });

  it("overlap when one holds the other", () => {
    expect(overlaps(["site"], ["site", "depth"])).toBe(true);
    expect(overlaps(["site", "depth"], ["site", "bottom"])).toBe(false);
  });
});

describe("changes", () => {
  it("make missing tables on the way and leave the old document alone", () => {
    const next = applied(document, [{ op: "set", path: ["site", "shore", "distance"], value: "4 m" }]);
    expect(next).toEqual({ ...document, site: { shore: { distance: "4 m" } } });
    expect(document).not.toHaveProperty("site");
  });

  it("insert, move and take out rows", () => {
    const path = ["object", "part"];
    const names = (changes: Parameters<typeof applied>[1]) =>
      (at(applied(document, changes), path) as { name: string }[]).map((row) => row.name);
    expect(names([{ op: "insert", path: [...path, 1], value: { name: "cowl" } }])).toEqual(["block", "cowl", "leg"]);
    expect(names([{ op: "move", path: [...path, 0], to: 1 }])).toEqual(["leg", "block"]);
    expect(names([{ op: "remove", path: [...path, 0] }])).toEqual(["leg"]);
  });

  it("of a key that is not there change nothing", () => {
    expect(applied(document, [{ op: "remove", path: ["lift", "bags"] }])).toEqual(document);
  });
});
