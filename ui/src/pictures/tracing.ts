/** Reading a trace: the moment between its rows, and the dumps that can be seen in it. */
import type { TraceRow } from "./plan";

/** The state at a moment, between two rows on a straight line. */
export function at(trace: readonly TraceRow[], t: number): TraceRow | null {
  const first = trace[0];
  const last = trace[trace.length - 1];
  if (!first || !last) return null;
  if (t <= first.t_s) return first;
  if (t >= last.t_s) return last;
  let low = 0;
  let high = trace.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((trace[middle]?.t_s ?? 0) <= t) low = middle;
    else high = middle;
  }
  const [a, b] = [trace[low], trace[high]];
  if (!a || !b || b.t_s <= a.t_s) return a ?? first;
  const share = (t - a.t_s) / (b.t_s - a.t_s);
  const mix = (x: number, y: number): number => x + share * (y - x);
  const volumes = Object.fromEntries(Object.entries(a.bag_volumes_l).map(([id, litres]) => [id, mix(litres, b.bag_volumes_l[id] ?? litres)]));
  const row: TraceRow = { t_s: t, depth_m: mix(a.depth_m, b.depth_m), speed_m_s: mix(a.speed_m_s, b.speed_m_s), bag_volumes_l: volumes };
  if (a.surplus_kg !== undefined && b.surplus_kg !== undefined) row.surplus_kg = mix(a.surplus_kg, b.surplus_kg);
  return row;
}

/** Moments at which gas is let out: a bag loses gas while the load rises. */
export function dumps(trace: readonly TraceRow[]): { t_s: number; depth_m: number; bag: string }[] {
  const rows: { t_s: number; depth_m: number; bag: string }[] = [];
  const open = new Set<string>();
  for (let n = 1; n < trace.length; n += 1) {
    const [a, b] = [trace[n - 1], trace[n]];
    if (!a || !b) continue;
    for (const [id, litres] of Object.entries(b.bag_volumes_l)) {
      const lost = (a.bag_volumes_l[id] ?? litres) - litres > 0.002 * Math.max(litres, 1) && b.depth_m <= a.depth_m;
      if (lost && !open.has(id)) rows.push({ t_s: a.t_s, depth_m: a.depth_m, bag: id });
      if (lost) open.add(id);
      else open.delete(id);
    }
  }
  return rows;
}

/** The moments at which a bag that began in part is full. */
export function fulls(trace: readonly TraceRow[], really: Readonly<Record<string, number>>): { t_s: number; depth_m: number; bag: string }[] {
  return Object.entries(really).flatMap(([bag, litres]) => {
    const enough = (row: TraceRow): boolean => (row.bag_volumes_l[bag] ?? 0) >= litres * 0.999;
    const first = trace[0];
    if (!first || enough(first)) return [];
    const row = trace.find(enough);
    return row ? [{ t_s: row.t_s, depth_m: row.depth_m, bag }] : [];
  });
}
