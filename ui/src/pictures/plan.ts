/** The pieces of the plan document that the pictures draw. Numbers are in the units their names end with. */

export type Units = "metric" | "imperial";
export type Band = { low: number; likely: number; high: number; of?: number };
export type Place = [number, number]; // metres east and north of the datum

export type SketchBag = { id: string; width_m: number; height_m: number; fill_share: number };
export type SketchPerson = {
  name: string;
  role: string;
  side: string | null;
  x_m: number | null;
  depth_m: number | null;
};
export type Sketch = {
  depth_m: number;
  strop_m: number | null;
  load: { length_m: number | null; height_m: number | null } | null;
  bags: SketchBag[];
  people: SketchPerson[];
  bottom_circle_m: number | null;
  surface_circle_m: number | null;
  sling_angle_deg: number | null;
  line_to_surface: string | null;
  restraint: string | null;
  crown_line: string | null;
};
export type Circles = { bottom_m: number | null; surface_m: number | null; drift_towards_deg: number | null };

export type FanRow = { t_s: number; low: number; likely: number; high: number };
export type EventRow = { what: string; words: string; t_s: Band | null; depth_m: Band | null };
export type VentRow = { depth_m: number; needed: number; can: Band | null };
export type MapOfControl = {
  share: number[];
  delay_s: number[];
  held: number[][];
  here: { share: number | null; delay_s: Band | null } | null;
};
export type UnderControl = {
  fan: FanRow[] | null;
  events: EventRow[] | null;
  time_s: Band | null;
  map: MapOfControl | null;
  ceiling_m_min?: number;
  target_m_min?: number;
};
export type Ascent = {
  fan: FanRow[] | null;
  full_at_m: number | null;
  vent_l_s: VentRow[] | null;
  under_control: UnderControl | null;
  rate?: { target_m_min: number; ceiling_m_min: number } | null;
};
export type TraceRow = {
  t_s: number;
  depth_m: number;
  speed_m_s: number;
  bag_volumes_l: Record<string, number>;
  surplus_kg?: number;
};
export type LiftBag = { id: string; fill: string; really_l: Band; height_m: number | null; fill_share?: number };

export type RiggingRow = {
  item: string;
  kind: string;
  load_n: number;
  limit_n: number | null;
  used: number | null;
  ok: boolean | null;
  source: string;
  notes: string[];
};
export type DriverRow = { input: string; key: string; share: number };

export type Task = { does: string; min: Band };
export type StreamWindow = {
  limit_m_s: number;
  opens: BandOfTimes | null;
  slack: BandOfTimes | null;
  closes: BandOfTimes | null;
};
export type BandOfTimes = { low: string; likely: string; high: string };
export type Stop = { depth_m: number; min: number };
export type Dive = {
  label: string;
  start: string | null;
  depth_m: Band;
  tasks: Task[];
  bottom_time_min: Band;
  way_up_min: Band;
  no_stop_min: { model: number | null; navy_table: number | null };
  stops: Stop[];
  always_stop: Stop | null;
  window: StreamWindow | null;
  latest_leave_bottom: string | null;
  latest_from: string | null;
  over_run: { bottom_time_min: number; longer_by_min: number; stops: Stop[]; way_up_min: number } | null;
  ascent: { rate_m_min: number };
  divers?: { name: string; turn_bar?: number | null; leave_bottom_bar?: number | null }[];
};
export type Clock = { earliest_in: string | null; latest_off_bottom: string | null };

export type Leg = {
  n: number;
  lane: number | null;
  from: Place;
  to: Place;
  kind: string;
  length_m: number;
  heading_true_deg: number | null;
  heading_mag_deg: number | null;
  ring: { centre: Place; radius_m: number; from_deg: number; to_deg: number } | null;
};
export type Pattern = {
  pattern: string;
  words: string;
  chance: number | null;
  coverage_mean: number | null;
  spacing_m: number | null;
  minutes?: number | null;
  start?: { east_m: number; north_m: number; lat: number; lon: number } | null;
  legs?: Leg[];
  judged?: string | null;
  why_not?: string | null;
};
export type Account = {
  who: string;
  words: string;
  weight: number;
  centre_east_m: number;
  centre_north_m: number;
  radius95_m: number | null;
};
export type Contour = { share: number; rings: Place[][] };
export type Pass = {
  n?: number;
  pattern?: string;
  words?: string;
  legs?: Leg[];
  coverage?: number | null;
  places?: Place[];
};
export type Search = {
  datum: { lat: number; lon: number; text_dm: string };
  accounts: Account[];
  contours: Contour[];
  dots: Place[];
  area: Place[] | null;
  closed?: Place[][] | null;
  best: Pattern | null;
  second?: Pattern | null;
  alternatives?: Pattern[];
  bound?: { chance: number | null; definite: number | null } | null;
  passes?: Pass[];
  sweep_width_m?: Band | null;
  seen_at_m?: number | null;
  elsewhere?: number;
};
