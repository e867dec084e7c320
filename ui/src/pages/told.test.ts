import { describe, expect, it } from "vitest";
import { composed, taken } from "./told";

const UNITS = ["kg", "lb"];

describe("a value in two boxes", () => {
  it("writes one number, or the two ends of a range, and keeps what is typed", () => {
    expect(composed({ from: "40", to: "", unit: "kg", own: false })).toBe("40 kg");
    expect(composed({ from: "35", to: "45", unit: "lb", own: false })).toBe("35..45 lb");
    expect(composed({ from: "", to: "45", unit: "kg", own: false })).toBe("45 kg");
    expect(composed({ from: "4o", to: "", unit: "kg", own: false })).toBe("4o kg");
  });

  it("writes nothing where nothing is typed, whatever the unit", () => {
    expect(composed({ from: " ", to: "", unit: "lb", own: false })).toBe("");
  });

  it.each(["40 kg", "35..45 lb", "8.5 kg"])("reads %s back as it was", (text) => {
    expect(composed(taken(text, UNITS))).toBe(text);
  });

  it("leaves alone what two boxes cannot show", () => {
    expect(taken("46 ± 4 kg", UNITS).own).toBe(true);
    expect(taken("40 stone", UNITS).own).toBe(true);
    expect(taken("", UNITS).own).toBe(false);
  });
});
