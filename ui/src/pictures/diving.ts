/** The way of one dive in minutes and metres, read out of the plan's likely lengths. */
import type { Dive, Stop } from "./plan";

export type Corner = [number, number]; // minutes since leaving the surface, depth in m

/** From the surface to the surface. */
export function planned(dive: Dive): Corner[] {
  const depth = dive.depth_m.likely;
  const bottom = dive.bottom_time_min.likely;
  const work = dive.tasks.reduce((sum, task) => sum + task.min.likely, 0);
  return [[0, 0], [Math.max(bottom - work, 0), depth], ...upFrom(dive, bottom, dive.stops, dive.way_up_min.likely)];
}

/** What the longer dive adds: from the end of the plan's stay on. */
export function late(dive: Dive): Corner[] {
  const told = dive.over_run;
  if (!told) return [];
  return [[dive.bottom_time_min.likely, dive.depth_m.likely], ...upFrom(dive, told.bottom_time_min, told.stops, told.way_up_min)];
}

/** The way up with its stops; the usual stop stands in it where the plan's time holds it. */
function upFrom(dive: Dive, leave: number, stops: Stop[], lasts: number): Corner[] {
  const depth = dive.depth_m.likely;
  const rate = dive.ascent.rate_m_min;
  const length = (way: Stop[]): number => Math.abs(depth / rate + way.reduce((sum, stop) => sum + stop.min, 0) - lasts);
  const whole = dive.always_stop ? [...stops, dive.always_stop] : stops;
  const held = length(whole) <= length(stops) ? whole : stops;
  let now = leave;
  let at = depth;
  const way: Corner[] = [[now, at]];
  for (const stop of [...held].filter((one) => one.depth_m < depth).sort((a, b) => b.depth_m - a.depth_m)) {
    now += (at - stop.depth_m) / rate;
    at = stop.depth_m;
    way.push([now, at], [now + stop.min, at]);
    now += stop.min;
  }
  way.push([now + at / rate, 0]);
  return way;
}

/** The stays on the way up: begin, end, depth. */
export function stays(way: readonly Corner[]): { begin: number; end: number; depth: number }[] {
  return way.flatMap(([begin, depth], n) => {
    const next = way[n + 1];
    return next && next[1] === depth && next[0] > begin && depth > 0 ? [{ begin, end: next[0], depth }] : [];
  });
}

/** Both limits without a stop, the shorter first. */
export function limits(dive: Dive): { at: number; name: "model" | "navy_table" }[] {
  return (["model", "navy_table"] as const)
    .flatMap((name) => {
      const at = dive.no_stop_min[name];
      return at === null ? [] : [{ at, name }];
    })
    .sort((a, b) => a.at - b.at);
}
