/** What the pictures read out of the plan: numbers, places, the way of a dive, dumps, borders. */
import { describe, expect, it } from "vitest";
import { lastHeld } from "./ControlMap";
import { crossing, untilStill } from "./AscentFan";
import { pieces } from "./TimeLine";
import { short } from "./Bars";
import { limits, planned, stays } from "./diving";
import { THIN, band, both, clock, clockOf, duration, figures, one, safe } from "./figures";
import { dive, trace, written } from "./fixtures";
import { inMinutes, polar, readPlace, toLatLon, toMetres } from "./geo";
import { Labels } from "./labels";
import { handlesOf } from "./map_handles";
import { niceStep, stepOver, ticks, timeTicks } from "./scale";
import { chartMatrix } from "./ChartPlacer";
import { boundsOf, fitted } from "./map_view";
import { balloon, cutBelow } from "./shapes";
import { at, dumps, fulls } from "./tracing";

const plain = (text: string): string => text.replaceAll(THIN, " ");

describe("numbers", () => {
  it("keeps two figures and the thin space", () => {
    expect(one(36.8, "mass", "metric")).toBe(`37${THIN}kg`);
    expect(plain(one(36.8, "mass", "imperial"))).toBe("81 lb");
    expect(plain(both(16, "length", "metric"))).toBe("16 m (52 ft)");
    expect(plain(one(1636.8, "load", "metric"))).toBe("170 kg");
    expect([figures(215), figures(9.04), figures(-0.0), figures(0.0483)]).toEqual(["220", "9", "0", "0.048"]);
  });
  it("shows a band alike and drops zeros that all share", () => {
    expect(plain(band({ low: 34.1, likely: 36.8, high: 40.2 }, "mass", "metric"))).toBe("37 kg (34 to 40)");
    expect(plain(band({ low: 4, likely: 4, high: 4 }, "minutes", "metric"))).toBe("4 min");
    expect(plain(band({ low: 9.0, likely: 9.6, high: 10.4 }, "mass", "metric"))).toBe("9.6 kg (9.0 to 10.4)");
  });
  it("says what is not known", () => {
    expect(one(null, "mass", "metric")).toBe("not known");
    expect(band(null, "mass", "metric")).toBe("not known");
  });
  it("rounds circles up and limits down", () => {
    expect(plain(safe(11.2, "length", "metric", true))).toBe("12 m");
    expect(plain(safe(39.9, "mass", "metric", false))).toBe("39 kg");
  });
  it("reads durations and the clock of the site", () => {
    expect(plain(duration(260))).toBe("4 min 20 s");
    expect(plain(duration(0.66))).toBe("0.66 s");
    expect(clock("2027-05-09T09:25:00+01:00")).toBe("09:25");
    expect(clockOf(1445)).toBe("00:05");
  });
  it("makes steps of 1, 2 and 5", () => {
    expect([niceStep(0.37), niceStep(7), niceStep(19)]).toEqual([0.2, 5, 10]);
    expect([stepOver(0.031), stepOver(7), stepOver(5)].map((x) => Number(x.toPrecision(3)))).toEqual([0.05, 10, 5]);
    expect(ticks(0.125, "venting", "metric", 4).map((row) => plain(row.text))).toEqual(["0 l/s", "0.05 l/s", "0.1 l/s"]);
    expect(timeTicks(260, 8).map((row) => row.at)).toEqual([0, 60, 120, 180, 240]);
  });
});

describe("places", () => {
  const datum = { lat: 52.4821, lon: -3.7154 };
  it("agrees with the engine's own place to a centimetre", () => {
    const [east, north] = toMetres(datum, { lat: 52.4822762, lon: -3.7153223 });
    expect(east).toBeCloseTo(5.28, 1);
    expect(north).toBeCloseTo(19.61, 1);
    expect(toLatLon(datum, [5.28, 19.61])).toEqual({ lat: 52.4822762, lon: -3.7153223 });
  });
  it("goes there and back", () => {
    const [east, north] = toMetres(datum, toLatLon(datum, [812.3, -455.1]));
    expect(east).toBeCloseTo(812.3, 1);
    expect(north).toBeCloseTo(-455.1, 1);
  });
  it("writes and reads degrees and minutes", () => {
    expect(inMinutes(datum)).toBe("52 28.926 N 003 42.924 W");
    expect(readPlace("52 28.926 N 003 42.924 W")?.lat).toBeCloseTo(52.4821, 6);
    expect(readPlace("52°28.926'N, 003°42.924'W")?.lon).toBeCloseTo(-3.7154, 6);
    expect(readPlace("52.4821, -3.7154")).toEqual(datum);
    expect(readPlace("52 61.0 N 003 42.924 W")).toBeNull();
    expect(readPlace("near the pier")).toBeNull();
  });
  it("carries minutes over to degrees", () => {
    expect(inMinutes({ lat: 9.99999999, lon: -0.00000001 })).toBe("10 00.000 N 000 00.000 W");
  });
  it("gives bearings from north", () => {
    expect(polar([1, 0]).bearing).toBeCloseTo(90);
    expect(polar([-1, -1]).bearing).toBeCloseTo(225);
  });
  it("finds what can be moved, with its path in the case", () => {
    const rows = handlesOf(written);
    expect(rows.map((row) => row.id)).toEqual(["site.datum", "account.0.at", "account.1.from", "search.area.0", "search.area.1", "search.area.2", "search.pass.0.centre"]);
    expect(rows[1]?.path).toEqual(["account", 0, "at"]);
    expect(handlesOf(null)).toEqual([]);
  });
  it("fits a view and goes back from pixels to metres", () => {
    const bounds = boundsOf([
      [0, 0],
      [100, 50],
    ]);
    if (!bounds) throw new Error("no bounds");
    const view = fitted(bounds, 500, 400);
    expect(view.at([50, 25])).toEqual([250, 200]);
    const [east, north] = view.back(view.at([12, 34]));
    expect([east, north]).toEqual([expect.closeTo(12), expect.closeTo(34)]);
  });
  it("lays a chart so that both places fall where they belong, turned as it may be", () => {
    const datum0 = { lat: 50, lon: 0 };
    const view = fitted({ west: -100, south: -100, east: 100, north: 100 }, 400, 400);
    const [p, q] = [toLatLon(datum0, [0, 0]), toLatLon(datum0, [50, 0])];
    const text = chartMatrix({ url: "", width: 10, height: 10, points: [{ x: 100, y: 100, place: p }, { x: 100, y: 200, place: q }] }, datum0, view);
    const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0] = (text.match(/-?[\d.e-]+/g) ?? []).map(Number);
    const put = (x: number, y: number): [number, number] => [a * x + c * y + e, b * x + d * y + f];
    expect(put(100, 100)).toEqual([expect.closeTo(200, 0), expect.closeTo(200, 0)]);
    const east = view.at(toMetres(datum0, q));
    expect(put(100, 200)).toEqual([expect.closeTo(east[0], 0), expect.closeTo(east[1], 0)]);
  });
});

describe("the way of a dive", () => {
  it("begins and ends at the surface, with the usual stop where the plan's time holds it", () => {
    const way = planned(dive);
    expect(way[0]).toEqual([0, 0]);
    expect(way[1]).toEqual([2, 16]);
    expect(way[2]).toEqual([12, 16]);
    expect(stays(way.slice(2)).map((row) => [row.depth, Math.round(row.end - row.begin)])).toEqual([[5, 3]]);
    expect(way[way.length - 1]?.[0]).toBeCloseTo(12 + 16 / 6.857 + 3, 1);
  });
  it("leaves the usual stop out where the time does not hold it", () => {
    const without = planned({ ...dive, way_up_min: { low: 2.33, likely: 2.33, high: 2.33 } });
    expect(stays(without.slice(2))).toEqual([]);
  });
  it("puts the shorter limit first and leaves out what is not known", () => {
    expect(limits(dive).map((row) => row.name)).toEqual(["navy_table", "model"]);
    expect(limits({ ...dive, no_stop_min: { model: 20, navy_table: null } })).toEqual([{ at: 20, name: "model" }]);
  });
  it("lays way down, tasks and way up one after the other", () => {
    const rows = pieces(dive);
    expect(rows.map((row) => row.name)).toEqual(["way down", "go to the mark", "rig", "way up"]);
    expect(rows[0]?.from).toBe(9 * 60 + 25);
    for (let n = 1; n < rows.length; n += 1) expect(rows[n]?.from).toBeCloseTo(rows[n - 1]?.to ?? 0);
  });
});

describe("a trace", () => {
  it("gives the moment between its rows and stays within its ends", () => {
    expect(at(trace, 5)?.depth_m).toBeCloseTo(15.5);
    expect(at(trace, 5)?.bag_volumes_l["C15"]).toBeCloseTo(12.5);
    expect(at(trace, -1)?.t_s).toBe(0);
    expect(at(trace, 99)?.t_s).toBe(30);
    expect(at([], 1)).toBeNull();
  });
  it("sees one dump where gas is let out in two rows", () => {
    expect(dumps(trace)).toEqual([{ t_s: 10, depth_m: 15, bag: "C15" }]);
  });
});

describe("full bags", () => {
  it("marks a bag that fills on the way, not one that began full or never fills", () => {
    expect(fulls(trace, { C25: 26, C15: 13, C10: 10 })).toEqual([{ t_s: 10, depth_m: 15, bag: "C15" }]);
    expect(fulls([], { C25: 26 })).toEqual([]);
  });
});

describe("drawing", () => {
  it("follows a border of the map of control", () => {
    expect(lastHeld([0, 1, 2], [1, 0.8, 0], 0.9)).toBeCloseTo(0.5);
    expect(lastHeld([0, 1, 2], [0.5, 0, 0], 0.9)).toBe(0);
    expect(lastHeld([0, 1, 2], [1, 1, 1], 0.9)).toBe(2);
  });
  it("leaves the flat end of a line out, and finds where it comes to a depth", () => {
    const line: [number, number][] = [
      [0, 100],
      [10, 50],
      [20, 10],
      [30, 10],
    ];
    expect(untilStill(line)).toHaveLength(3);
    expect(crossing(line, 75)).toBeCloseTo(5);
  });
  it("cuts an outline at a level", () => {
    expect(cutBelow([[0, 0], [2, 0], [2, 2], [0, 2]], 1)).toEqual([[2, 1], [2, 2], [0, 2], [0, 1]]);
    expect(balloon(0, 0, 1, 1).every(([x]) => Math.abs(x) <= 0.5)).toBe(true);
  });
  it("never writes one word over another", () => {
    const labels = new Labels(300, 100);
    expect(labels.put("first", [[10, 20, "start"]])).toBe(true);
    expect(labels.put("second", [[12, 22, "start"]])).toBe(false);
    expect(labels.put("second", [[12, 22, "start"], [12, 60, "start"]])).toBe(true);
    expect(labels.put("outside", [[290, 20, "start"]])).toBe(false);
    expect(labels.words.map((word) => word.text)).toEqual(["first", "second"]);
  });
  it("cuts a name that has no room at a word", () => {
    expect(short("short", 200)).toBe("short");
    expect(short("the mass of shafts, flywheel and fastenings", 120)).toMatch(/…$/);
  });
});
