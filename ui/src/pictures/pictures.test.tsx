/** The pictures as they come to the page: what they say, the table behind, marks that move by hand and key. */
import { cleanup, fireEvent, render, screen, within } from "@testing-library/preact";
import { afterEach, describe, expect, it, vi } from "vitest";
import { ascent, dive, search, sketch, trace, written } from "./fixtures";
import { toLatLon } from "./geo";
import { passOf } from "./map_pass";
import { AscentFan, AscentPlayer, ControlMap, Drivers, ExposurePicture, LiftDrawing, RangeLines, RiggingLoads, SearchCover, SiteMap, TimeLine, VentChart } from "./index";

afterEach(cleanup);

const words = (): string => document.body.textContent ?? "";

describe("a picture without its piece of the plan", () => {
  it.each([
    ["SiteMap", <SiteMap search={null} />],
    ["SearchCover", <SearchCover search={null} />],
    ["LiftDrawing", <LiftDrawing sketch={null} />],
    ["AscentFan", <AscentFan ascent={null} />],
    ["AscentPlayer", <AscentPlayer trace={[]} bags={[]} />],
    ["VentChart", <VentChart rows={null} />],
    ["ControlMap", <ControlMap map={null} />],
    ["RiggingLoads", <RiggingLoads rows={[]} />],
    ["Drivers", <Drivers rows={null} />],
    ["RangeLines", <RangeLines rows={[{ name: "wet weight", band: null }]} />],
    ["ExposurePicture", <ExposurePicture dive={null} />],
    ["TimeLine", <TimeLine dives={[]} />],
  ])("%s says so in words", (_name, picture) => {
    render(picture);
    expect(words()).toMatch(/Nothing to draw yet|No dive has a start yet/);
    expect(document.querySelector("svg")).toBeNull();
  });
});

describe("every picture", () => {
  it.each([
    ["SearchCover", <SearchCover search={search} />],
    ["AscentFan", <AscentFan ascent={ascent} />],
    ["VentChart", <VentChart rows={ascent.vent_l_s} />],
    ["ControlMap", <ControlMap map={ascent.under_control?.map} />],
    ["Drivers", <Drivers rows={[{ input: "the mass", key: "object.mass", share: 0.6 }]} />],
    ["RangeLines", <RangeLines rows={[{ name: "wet weight", band: { low: 34, likely: 37, high: 40 } }]} />],
    ["ExposurePicture", <ExposurePicture dive={dive} />],
    ["TimeLine", <TimeLine dives={[dive]} daylight_until="2027-05-09T21:00:00+01:00" />],
  ])("%s has a name and the same as a table", (_name, picture) => {
    render(picture);
    expect(screen.getByRole("img").getAttribute("aria-label")).toBeTruthy();
    expect(screen.getAllByRole("table", { hidden: true }).length).toBeGreaterThan(0);
    expect(words()).not.toMatch(/NaN|undefined|Infinity/);
    expect(document.body.innerHTML).not.toMatch(/NaN|Infinity/);
  });

  it("follows imperial units", () => {
    render(<RangeLines units="imperial" rows={[{ name: "wet weight", band: { low: 34, likely: 37, high: 40 } }]} />);
    expect(words()).toContain("82\u202flb");
  });
});

describe("rigging", () => {
  it("says in words what is over its limit, and what has none", () => {
    const row = { kind: "line", load_n: 700, limit_n: 500, source: "marked", notes: [] };
    render(<RiggingLoads rows={[{ ...row, item: "CROWN", used: 1.4, ok: false }, { ...row, item: "K1", limit_n: null, used: null, ok: null }]} />);
    expect(words()).toContain("140\u202f%, over its limit");
    expect(words()).toContain("limit not known");
  });
});

describe("the lift", () => {
  it("names people, bags and both circles", () => {
    render(<LiftDrawing sketch={sketch} circles={null} />);
    for (const word of ["Ines, up-stream", "Tomas, level", "C25", "C15", "C10", "may come up within 17\u202fm", "keep clear within 12\u202fm"]) expect(words()).toContain(word);
    expect(screen.queryByRole("slider")).toBeNull();
  });

  it("tries a larger bag when its mark is pulled up, and by key", () => {
    const tried = vi.fn();
    render(<LiftDrawing sketch={sketch} litres={{ C25: 26, C15: 15, C10: 10 }} onTryBag={tried} />);
    const mark = screen.getByRole("slider", { name: /Size of bag C15/ });
    fireEvent.keyDown(mark, { key: "ArrowUp" });
    const up = tried.mock.lastCall?.[0] as { id: string; index: number; litres: number; done: boolean };
    expect(up).toMatchObject({ id: "C15", index: 1, done: true });
    expect(up.litres).toBeGreaterThan(15);
    fireEvent.keyDown(mark, { key: "ArrowDown" });
    expect((tried.mock.lastCall?.[0] as { litres: number }).litres).toBeLessThan(15);
    fireEvent.keyDown(mark, { key: "a" });
    expect(tried).toHaveBeenCalledTimes(2);
  });
});

describe("the map", () => {
  it("moves a place by arrow keys, a metre and ten, and says where it is", () => {
    const moved = vi.fn();
    render(<SiteMap search={search} written={written} onMove={moved} />);
    const mark = screen.getByRole("button", { name: /account: the helm/ });
    fireEvent.keyDown(mark, { key: "ArrowUp" });
    expect(moved.mock.lastCall?.[0]).toMatchObject({ path: ["account", 0, "at"] });
    const north = (moved.mock.lastCall?.[0] as { value: { lat: number } }).value.lat;
    expect((north - 52.48228) * 111_250).toBeCloseTo(1, 1);
    fireEvent.keyDown(mark, { key: "ArrowRight", shiftKey: true });
    const east = (moved.mock.lastCall?.[0] as { value: { lon: number } }).value.lon;
    expect((east + 3.71532) * 67_900).toBeCloseTo(10, 0);
    expect(screen.getByRole("status").textContent).toContain("account: the helm is at 52 28.9");
  });

  it("moves a place by the pointer and tells it when the hand lets go", () => {
    const moved = vi.fn();
    render(<SiteMap search={search} written={written} onMove={moved} />);
    const mark = screen.getByRole("button", { name: /^datum/ });
    fireEvent.pointerDown(mark, { clientX: 100, clientY: 100, pointerId: 1 });
    fireEvent.pointerMove(mark, { clientX: 130, clientY: 100, pointerId: 1 });
    expect(moved).not.toHaveBeenCalled();
    fireEvent.pointerUp(mark, { clientX: 130, clientY: 100, pointerId: 1 });
    expect(moved).toHaveBeenCalledTimes(1);
    const told = moved.mock.lastCall?.[0] as { path: unknown[]; value: { lat: number; lon: number } };
    expect(told.path).toEqual(["site", "datum"]);
    expect(told.value.lon).toBeGreaterThan(-3.7154);
    expect(told.value.lat).toBeCloseTo(52.4821, 5);
  });

  it("does not take a press for a move", () => {
    const moved = vi.fn();
    render(<SiteMap search={search} written={written} onMove={moved} />);
    const mark = screen.getByRole("button", { name: /^datum/ });
    fireEvent.pointerDown(mark, { clientX: 100, clientY: 100, pointerId: 1 });
    fireEvent.pointerUp(mark, { clientX: 101, clientY: 100, pointerId: 1 });
    expect(moved).not.toHaveBeenCalled();
  });

  it("lays the lanes elsewhere, and writes a pass only when asked to", () => {
    const swum = vi.fn();
    render(<SiteMap search={search} written={written} onMove={() => undefined} onPass={swum} />);
    const mark = screen.getByRole("button", { name: /^the proposed lanes/ });
    expect(screen.queryByRole("button", { name: /write the pass/ })).toBeNull();
    fireEvent.keyDown(mark, { key: "ArrowRight", shiftKey: true });
    fireEvent.keyDown(mark, { key: "ArrowUp" });
    expect(swum).not.toHaveBeenCalled();
    fireEvent.click(screen.getByRole("button", { name: /write the pass/ }));
    const pass = swum.mock.lastCall?.[0] as { pattern: string; centre: { lat: number; lon: number }; spacing: string; radius: string };
    expect(pass).toMatchObject({ pattern: "circles", spacing: "2.00 m", radius: "3.00 m" });
    expect((pass.centre.lat - 52.4822762) * 111_250).toBeCloseTo(1, 1);
    expect(screen.queryByRole("button", { name: /write the pass/ })).toBeNull();
  });

  it("writes straight lanes as the places that were passed", () => {
    const legs = [
      { n: 1, lane: 1, from: [0, 0] as [number, number], to: [0, 20] as [number, number], kind: "lane", length_m: 20, heading_true_deg: 0, heading_mag_deg: 0, ring: null },
      { n: 2, lane: 0, from: [0, 20] as [number, number], to: [2, 20] as [number, number], kind: "shift", length_m: 2, heading_true_deg: 90, heading_mag_deg: 90, ring: null },
    ];
    const pattern = { pattern: "compass lanes", words: "", chance: null, coverage_mean: null, spacing_m: 2, legs };
    expect(passOf(pattern, search.datum, [0, 0])).toEqual({ along: [toLatLon(search.datum, [0, 0]), toLatLon(search.datum, [0, 20]), toLatLon(search.datum, [2, 20])] });
  });

  it("holds what is drawn in a table, and nothing moves where nothing may", () => {
    render(<SiteMap search={search} written={written} />);
    expect(screen.queryByRole("button", { name: /^datum/ })).toBeNull();
    const table = screen.getByRole("table", { hidden: true });
    expect(within(table).getByText("account: the helm")).toBeTruthy();
    expect(words()).toContain("52 28.926 N 003 42.924 W");
  });

  it("draws from the written places alone while the plan is away", () => {
    render(<SiteMap search={null} written={written} onMove={() => undefined} />);
    expect(screen.getByRole("button", { name: /account: the helm/ })).toBeTruthy();
  });
});

describe("the player", () => {
  it("shows the moment of the slider and says when the rate is over its ceiling", () => {
    const bags = [
      { id: "C25", fill: "full", really_l: { low: 25, likely: 26, high: 27 }, height_m: 0.75 },
      { id: "C15", fill: "part", really_l: { low: 14, likely: 15, high: 16 }, height_m: 0.6 },
    ];
    render(<AscentPlayer trace={trace} bags={bags} ceiling_m_min={9} sketch={sketch} />);
    const slider = screen.getByRole("slider") as HTMLInputElement;
    fireEvent.input(slider, { target: { value: "10" } });
    expect(words()).toContain("rate 6\u202fm/min");
    expect(words()).not.toContain("over the ceiling");
    fireEvent.input(slider, { target: { value: "30" } });
    expect(words()).toContain("rate 12\u202fm/min: over the ceiling");
    expect(words()).toContain("C15 13\u202fl");
  });
});

describe("the time line", () => {
  it("tells the window, slack and the latest time off the bottom", () => {
    render(<TimeLine dives={[dive]} />);
    for (const word of ["stream under the limit 09:25 to 10:44", "slack 10:07", "latest off the bottom 10:21"]) expect(words()).toContain(word);
  });
});
