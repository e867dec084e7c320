/** The proposed lanes, moved by hand, as a pass that was swum: what a case writes of it. */
import { toLatLon, type LatLon } from "./geo";
import type { Leg, Pattern, Place } from "./plan";

/** Lanes that lie east and north of where they are proposed. */
export function shifted(legs: readonly Leg[], by: Place): Leg[] {
  const move = (place: Place): Place => [place[0] + by[0], place[1] + by[1]];
  return legs.map((leg) => ({ ...leg, from: move(leg.from), to: move(leg.to), ring: leg.ring ? { ...leg.ring, centre: move(leg.ring.centre) } : null }));
}

/** Circles by their shot, spacing and line; other lanes by the places that were passed, in order. */
export function passOf(pattern: Pattern, datum: LatLon, by: Place): Record<string, unknown> | null {
  const legs = shifted(pattern.legs ?? [], by);
  const rings = legs.flatMap((leg) => (leg.ring ? [leg.ring] : []));
  const first = rings[0];
  if (pattern.pattern === "circles" && first && pattern.spacing_m) {
    const radius = Math.max(...rings.map((ring) => ring.radius_m));
    return { pattern: "circles", centre: toLatLon(datum, first.centre), spacing: metres(pattern.spacing_m), radius: metres(radius) };
  }
  if (rings.length || !legs.length) return null;
  const places: Place[] = [];
  for (const leg of legs)
    for (const place of [leg.from, leg.to]) {
      const last = places[places.length - 1];
      if (!last || Math.hypot(last[0] - place[0], last[1] - place[1]) > 0.05) places.push(place);
    }
  return { along: places.map((place) => toLatLon(datum, place)) };
}

const metres = (value: number): string => `${value.toFixed(2)} m`;
