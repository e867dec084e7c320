import { describe, expect, it } from "vitest";

import { caseHash, read } from "./route";

describe("an address", () => {
  it("names a stage of a case, and the value that is meant", () => {
    expect(read("#/case/a1/lift?at=lift.bags")).toEqual({ page: "lift", id: "a1", rest: [], at: "lift.bags" });
    expect(read("#/case/a1")).toMatchObject({ page: "call", id: "a1" });
    expect(read(caseHash("a1", "object", "object.part[2].mass")).at).toBe("object.part[2].mass");
  });

  it("tells the kit of a case from a kit", () => {
    expect(read("#/case/a1/kit")).toMatchObject({ page: "kit", id: "a1" });
    expect(read("#/kit/k1?at=bag")).toMatchObject({ page: "one-kit", id: "k1", at: "bag" });
    expect(read("#/kit/k1/history").rest).toEqual(["history"]);
  });

  it("names a number by its path", () => {
    expect(read(`#/case/a1/sources/${encodeURIComponent("lift.bags[1].really_l")}`).rest).toEqual([
      "lift.bags[1].really_l",
    ]);
  });

  it("that leads nowhere says so", () => {
    expect(read("#/somewhere").page).toBe("missing");
    expect(read("").page).toBe("home");
    expect(read("#/new").page).toBe("new");
  });
});
