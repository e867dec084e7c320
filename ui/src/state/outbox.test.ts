import { describe, expect, it } from "vitest";

import { queued, taken, touches, type Waiting } from "./outbox";

const edit = (value: string, gesture = "g", base = 1, key = "depth"): Waiting => ({
  base,
  gesture,
  what: "",
  changes: [{ op: "set", path: ["site", key], value }],
});

describe("what waits", () => {
  it("keeps only the last letter of one gesture in one field", () => {
    const waiting = [edit("1"), edit("18"), edit("18 m")].reduce<Waiting[]>(
      (all, next) => queued(all, next, false),
      [],
    );
    expect(waiting).toEqual([edit("18 m")]);
  });

  it("never replaces what is on its way", () => {
    const waiting = queued([edit("1")], edit("18"), true);
    expect(waiting).toEqual([edit("1"), edit("18")]);
    expect(queued(waiting, edit("18 m"), true)).toEqual([edit("1"), edit("18 m")]);
  });

  it("keeps two fields, and two gestures, apart", () => {
    expect(queued([edit("1")], edit("2 m", "g", 1, "visibility"), false)).toHaveLength(2);
    expect(queued([edit("1")], edit("2", "h"), false)).toHaveLength(2);
  });

  it("goes on from the new revision where nobody else wrote", () => {
    expect(taken([edit("1"), edit("2 m", "g", 1, "visibility")], 2)).toEqual([edit("2 m", "g", 2, "visibility")]);
  });

  it("keeps its old base where somebody else wrote between, so that the server sees a clash", () => {
    const rest = taken([edit("1"), edit("18"), edit("2 m", "g", 1, "visibility")], 4);
    expect(rest.map((one) => one.base)).toEqual([4, 1]);
  });

  it("takes rows of one list as one place", () => {
    const row = (op: "insert" | "remove", index: number): Waiting => ({
      base: 1,
      gesture: null,
      what: "",
      changes: [{ op, path: ["object", "part", index] }],
    });
    expect(touches(row("insert", 0), row("remove", 2))).toBe(true);
    expect(touches(row("insert", 0), edit("1"))).toBe(false);
  });
});
