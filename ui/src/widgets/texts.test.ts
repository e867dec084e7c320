import { describe, expect, it } from "vitest";

import { bandText, figure } from "./figures";
import { readNumber } from "./NumberFields";
import { coordinates, placeText } from "./place_text";
import { localPart, withLocal, zonePart } from "./time_text";
import { afterSign, unitIn, withSign, withUnit } from "./unit_text";

describe("a tap on a unit", () => {
  it("puts it behind the number, in the place of another", () => {
    expect(withUnit("16", "m")).toBe("16 m");
    expect(withUnit("16 m", "ft")).toBe("16 ft");
    expect(withUnit("46 ± 4 kg", "lb")).toBe("46 ± 4 lb");
    expect(withUnit("35..45", "kg in water")).toBe("35..45 kg in water");
    expect(withUnit("fresh", "g/kg")).toBe(" g/kg");
    expect(withUnit("18 g/kg", "sea")).toBe("sea");
  });

  it("is shown as chosen by the longest that stands there", () => {
    expect(unitIn("5 kg in water", ["kg", "kg in water"])).toBe("kg in water");
    expect(unitIn("5", ["kg"])).toBeNull();
  });
});

describe("a tap on a sign of a spread", () => {
  it("stands before the unit, and the cursor behind it", () => {
    expect(withSign("46 kg", "±")).toBe("46 ±  kg");
    expect(afterSign("46 ±  kg")).toBe(5);
    expect(withSign("35 kg", "..")).toBe("35.. kg");
    expect(withSign("35..45 kg", "±")).toBe("35..45 kg");
  });
});

describe("a plain number", () => {
  it("is one only when it can be read; else the text stays", () => {
    expect(readNumber("52,5")).toBe(52.5);
    expect(readNumber("-3.7")).toBe(-3.7);
    expect(readNumber("52.")).toBe(52);
    expect(readNumber("5x")).toBe("5x");
    expect(readNumber("-")).toBe("-");
  });
});

describe("a place", () => {
  it("is read in degrees and in degrees and minutes", () => {
    expect(coordinates("52.4821, -3.7154")).toEqual({ lat: 52.4821, lon: -3.7154 });
    expect(coordinates("52 28.926 N 003 42.924 W")).toEqual({ lat: 52.4821, lon: -3.7154 });
    expect(coordinates("52°28'55.56\"N, 3°42'55.44\"W")).toEqual({ lat: 52.4821, lon: -3.7154 });
  });

  it("is none when a part is missing or too large", () => {
    for (const text of ["52.4821", "52 28.926 003 42.924", "95, 3", "52 61 N 3 2 W", ""])
      expect(coordinates(text)).toBeNull();
  });

  it("is written as it is kept", () => {
    expect(placeText({ lat: 52.4821, lon: -3.7154 })).toBe("52.4821, -3.7154");
    expect(placeText("half a pl")).toBe("half a pl");
  });
});

describe("a moment", () => {
  it("keeps its offset when its clock is changed", () => {
    expect(localPart("2027-04-14T19:40:00+01:00")).toBe("2027-04-14T19:40");
    expect(zonePart("2027-04-14T19:40:00Z")).toBe("+00:00");
    expect(withLocal("2027-04-14T19:40:00+01:00", "2027-04-14T20:15")).toBe("2027-04-14T20:15:00+01:00");
    expect(localPart("soon")).toBeNull();
  });
});

describe("figures", () => {
  it("are two, with no exponent", () => {
    expect([36.943, 0.19, 1329.6, 0, 0.0034, -3.2].map((value) => figure(value))).toEqual([
      "37",
      "0.19",
      "1330",
      "0",
      "0.0034",
      "\u22123.2",
    ]);
    expect(bandText({ low: 34.4, likely: 36.9, high: 39.7 })).toBe("37 (34 to 40)");
    expect(bandText({ low: 16, likely: 16, high: 16 })).toBe("16");
  });
});
