/** Small pieces of a plan for the tests: an invented lift and search. */
import type { Ascent, Dive, Search, Sketch, TraceRow } from "./plan";

const band = (low: number, likely: number, high: number): { low: number; likely: number; high: number } => ({ low, likely, high });

export const sketch: Sketch = {
  depth_m: 16,
  strop_m: 1,
  load: { length_m: 0.47, height_m: 0.31 },
  bags: [
    { id: "C25", width_m: 0.206, height_m: 0.75, fill_share: 1 },
    { id: "C15", width_m: 0.178, height_m: 0.6, fill_share: 0.79 },
    { id: "C10", width_m: 0.16, height_m: 0.5, fill_share: 0 },
  ],
  people: [
    { name: "Ines", role: "bag tender", side: "up-stream", x_m: -0.93, depth_m: 14.6 },
    { name: "Tomas", role: "load tender", side: "level", x_m: 0.93, depth_m: 15.7 },
  ],
  bottom_circle_m: 11.95,
  surface_circle_m: 16.98,
  sling_angle_deg: null,
  line_to_surface: "HAUL",
  restraint: null,
  crown_line: null,
};

export const ascent: Ascent = {
  fan: [
    { t_s: 0, low: 16, likely: 16, high: 16 },
    { t_s: 20, low: 2, likely: 6, high: 11 },
    { t_s: 40, low: 1.75, likely: 1.75, high: 4 },
  ],
  full_at_m: 6.3,
  vent_l_s: [
    { depth_m: 15, needed: 0.05, can: band(0.03, 0.1, 0.3) },
    { depth_m: 9, needed: 0.06, can: band(0.05, 0.12, 0.3) },
    { depth_m: 3, needed: 0.09, can: band(0.1, 0.2, 0.4) },
  ],
  under_control: {
    fan: [
      { t_s: 0, low: 16, likely: 16, high: 16 },
      { t_s: 80, low: 2, likely: 9, high: 12 },
      { t_s: 160, low: 1.75, likely: 1.75, high: 5 },
    ],
    events: [
      { what: "leaves the bottom", words: "It leaves the bottom.", t_s: band(0, 0, 0), depth_m: band(16, 16, 16) },
      { what: "bag full", words: "C15 is full.", t_s: band(10, 98, 103), depth_m: band(4.5, 6.3, 15) },
      { what: "never", words: "It never happens.", t_s: null, depth_m: null },
    ],
    time_s: band(74, 162, 207),
    map: {
      share: [0.25, 0.5, 1],
      delay_s: [0, 1, 2, 3],
      held: [
        [1, 1, 0.95, 0.5],
        [1, 0.6, 0.2, 0],
        [0.8, 0, 0, 0],
      ],
      here: { share: 0.32, delay_s: band(0.66, 1, 1.34) },
    },
  },
  rate: { target_m_min: 6, ceiling_m_min: 9 },
};

export const trace: TraceRow[] = [
  { t_s: 0, depth_m: 16, speed_m_s: 0, bag_volumes_l: { C25: 26, C15: 12 } },
  { t_s: 10, depth_m: 15, speed_m_s: 0.1, bag_volumes_l: { C25: 26, C15: 13 } },
  { t_s: 11, depth_m: 14.9, speed_m_s: 0.12, bag_volumes_l: { C25: 26, C15: 12.5 } },
  { t_s: 12, depth_m: 14.8, speed_m_s: 0.1, bag_volumes_l: { C25: 26, C15: 12 } },
  { t_s: 30, depth_m: 12, speed_m_s: 0.2, bag_volumes_l: { C25: 26, C15: 13 } },
];

export const dive: Dive = {
  label: "dive 1 (lift)",
  start: "2027-05-09T09:25:00+01:00",
  depth_m: band(16, 16, 16),
  tasks: [
    { does: "go to the mark", min: band(3, 3, 3) },
    { does: "rig", min: band(5, 7, 9) },
  ],
  bottom_time_min: band(10, 12, 14),
  way_up_min: band(5.33, 5.33, 5.33),
  no_stop_min: { model: 53.6, navy_table: 50 },
  stops: [],
  always_stop: { depth_m: 5, min: 3 },
  window: {
    limit_m_s: 0.26,
    opens: { low: "2027-05-09T09:07+01:00", likely: "2027-05-09T09:25+01:00", high: "2027-05-09T09:43+01:00" },
    slack: { low: "2027-05-09T09:49+01:00", likely: "2027-05-09T10:07+01:00", high: "2027-05-09T10:25+01:00" },
    closes: { low: "2027-05-09T10:27+01:00", likely: "2027-05-09T10:44+01:00", high: "2027-05-09T11:02+01:00" },
  },
  latest_leave_bottom: "2027-05-09T10:21+01:00",
  latest_from: "stream",
  over_run: { bottom_time_min: 30, longer_by_min: 18, stops: [{ depth_m: 3, min: 2 }], way_up_min: 7.33 },
  ascent: { rate_m_min: 6.857 },
};

export const search: Search = {
  datum: { lat: 52.4821, lon: -3.7154, text_dm: "52 28.926 N 003 42.924 W" },
  accounts: [{ who: "the helm", words: "a place", weight: 1, centre_east_m: 5.44, centre_north_m: 20.03, radius95_m: 18 }],
  contours: [
    { share: 0.5, rings: [[[-5, 10], [15, 10], [15, 30], [-5, 30], [-5, 10]]] },
    { share: 0.9, rings: [[[-12, 2], [23, 2], [23, 38], [-12, 38], [-12, 2]]] },
  ],
  dots: [
    [3, 18],
    [8, 24],
  ],
  area: null,
  best: {
    pattern: "circles",
    words: "Circles on a line from a shot.",
    chance: 0.57,
    coverage_mean: 1.8,
    spacing_m: 2,
    start: { east_m: 5.28, north_m: 19.61, lat: 52.4822762, lon: -3.7153223 },
    legs: [
      { n: 1, lane: 0, from: [5.28, 19.61], to: [5.28, 20.61], kind: "shift", length_m: 1, heading_true_deg: 0, heading_mag_deg: 0, ring: null },
      { n: 2, lane: 1, from: [5.28, 20.61], to: [5.28, 20.61], kind: "ring", length_m: 6.3, heading_true_deg: 90, heading_mag_deg: 90, ring: { centre: [5.28, 19.61], radius_m: 1, from_deg: 0, to_deg: 360 } },
      { n: 3, lane: 2, from: [5.28, 22.61], to: [5.28, 22.61], kind: "ring", length_m: 18.8, heading_true_deg: 90, heading_mag_deg: 90, ring: { centre: [5.28, 19.61], radius_m: 3, from_deg: 0, to_deg: 360 } },
    ],
  },
  alternatives: [{ pattern: "sector", words: "Sectors.", chance: null, coverage_mean: null, spacing_m: null, why_not: "the line is too short" }],
  bound: { chance: 0.64, definite: 0.85 },
  sweep_width_m: band(2, 2.6, 3.1),
};

export const written = {
  site: { datum: { lat: 52.4821, lon: -3.7154 } },
  account: [
    { who: "the helm", at: { lat: 52.48228, lon: -3.71532 } },
    { who: "an angler", from: { lat: 52.4815, lon: -3.716 }, bearing: "28 deg" },
    { who: "half typed", at: { lat: "52.4" } },
  ],
  search: { area: [{ lat: 52.482, lon: -3.716 }, { lat: 52.482, lon: -3.715 }, { lat: 52.4825, lon: -3.715 }], pass: [{ pattern: "circles", centre: { lat: 52.4822, lon: -3.7153 } }] },
};
