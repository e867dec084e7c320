"""A slow reference for a tended lift, in plain floats. It imports no law of the program.

It follows one lift with a solver of high order from event to event: bags that reach their brim, spill or relieve and
leave that state again, turning points, what tenders see, and what their hands do one delay later.
"""

from __future__ import annotations

import heapq
import math
from dataclasses import dataclass, field

import numpy as np
from scipy.integrate import solve_ivp

from sample_tended import AIR, G0, GAS, Array, Diver, Lift

GAMMA = 1.4

_MOST_SEGMENTS = 20_000


@dataclass
class Told:
    """What the reference found."""

    end: str
    time: float
    max_speed: float
    pulls: int
    vented: float  # free m3
    added: float
    spilled: float
    samples: list[tuple[float, float]] = field(default_factory=list)


class _Hands:
    """One tender's state, in its own words."""

    def __init__(self, diver: Diver, depth: float) -> None:
        self.d, self.mood, self.wants, self.open, self.gone = diver, 0, 0, False, False
        self.agenda: list[tuple[float, int, int, object]] = []
        self.count, self.watching, self.misses, self.pull_speed, self.leaving = 0, False, 0, 0.0, False
        self.mark, self.marked, self.pulls = depth, 0.0, 0

    def put(self, t: float, rank: int, what: object) -> None:
        self.count += 1
        heapq.heappush(self.agenda, (t, rank, self.count, what))

    def sees(self, t: float, mood: int) -> None:
        self.mood = mood
        self.put(t + self.d.delay, 2, mood)

    def flees(self, t: float) -> None:
        if not self.leaving:
            self.leaving = True
            self.put(t + self.d.delay, 0, "go")

    def do(self, t: float, speed: float) -> None:
        while self.agenda and self.agenda[0][0] <= t + 1e-12 and not self.gone:
            what = heapq.heappop(self.agenda)[3]
            if what == "go":
                self.leave()
            elif what == "shut":
                self.open = False
            elif what == "look":
                self.watching = False
                missed = self.wants < 0 and speed >= self.pull_speed
                self.misses = self.misses + 1 if missed else 0
                if self.d.unanswered and self.misses >= self.d.unanswered:
                    self.leave()
                else:
                    self.use(t, speed)
            else:
                self.wants = int(what)  # type: ignore[call-overload]
                self.use(t, speed)

    def leave(self) -> None:
        self.gone, self.open, self.wants, self.agenda = True, False, 0, []

    def use(self, t: float, speed: float) -> None:
        wants = self.wants < 0 and self.d.policy != "none" and self.d.dump > 0.0
        if self.d.policy != "pulls":
            self.pulls += wants and not self.open
            self.open = wants
        elif wants and not self.watching:
            self.pulls += 1
            self.open = self.watching = True
            self.pull_speed = speed
            self.put(t + self.d.pull, 1, "shut")
            self.put(t + self.d.pull + self.d.watch, 3, "look")

    def judge(self, speed: float) -> int:
        d = self.d
        if speed > d.above or (self.mood < 0 and speed >= d.until):
            return -1
        if speed < d.below or (self.mood > 0 and speed <= d.enough):
            return 1
        return 0


class _Gas:
    """Laws of the reference, for one lift."""

    def __init__(self, lift: Lift) -> None:
        self.lift, self.per = lift, AIR / (GAS * lift.kelvin)
        self.sound = math.sqrt(GAS * lift.kelvin / AIR)

    def volume(self, i: int, m: float, p: float) -> float:
        return min(m / p, self.lift.capacity[i])

    def dumped(self, i: int, m: float, p: float, area: float) -> float:
        """Isentropic flow through the dump under the head of the gas column, Pa m3/s."""
        lift = self.lift
        if area <= 0.0 or m <= 0.0:
            return 0.0
        head = lift.rho * G0 * lift.height[i] * self.volume(i, m, p) / lift.capacity[i]
        inside = max(p, m / lift.capacity[i]) + head
        loss = 1.0 - p / inside
        return area * inside * self.sound * math.sqrt(2.0 * loss * (1.0 - 1.5 * loss / GAMMA))


def reference(lift: Lift, limit: float = 1800.0, rtol: float = 1e-10) -> Told:
    """Follow one lift to its end."""
    return _Reference(lift, limit, rtol).run()


class _Reference:
    def __init__(self, lift: Lift, limit: float, rtol: float) -> None:
        self.lift, self.limit, self.rtol, self.gas = lift, limit, rtol, _Gas(lift)
        self.hands = [_Hands(d, lift.depth) for d in lift.divers]
        start = lift.pressure(lift.depth)
        self.k = len(lift.gas)
        self.capped, self.brim = [False] * self.k, [False] * self.k
        self.tight = lift.line is not None and lift.depth > lift.line[1]
        m = [min(v * start, c * (start + r)) for v, c, r in zip(lift.gas, lift.capacity, lift.relief, strict=True)]
        self.t, self.y = 0.0, [lift.depth, lift.rise, *m, 0.0, 0.0, 0.0]
        self.told = Told("late", limit, max(lift.rise, 0.0), 0, 0.0, 0.0, 0.0)
        self.rising = lift.rise >= 0.0

    def flows(self, y: list[float] | Array, i: int) -> tuple[float, float]:
        p = self.lift.pressure(y[0])
        area = sum(h.d.dump for h in self.hands if h.open and h.d.bag == i)
        put = sum(h.d.gas for h in self.hands if h.wants > 0 and h.d.bag == i) * self.lift.air
        return self.gas.dumped(i, y[2 + i], p, area), put

    def rhs(self, t: float, y: Array) -> list[float]:
        lift, p, w = self.lift, self.lift.pressure(y[0]), y[1]
        force, mass, area = -lift.weight, lift.mass, lift.area
        change, out, into, over = [], 0.0, 0.0, 0.0
        for i, capacity in enumerate(lift.capacity):
            volume = self.gas.volume(i, y[2 + i], p)
            force += G0 * (lift.rho * volume - self.gas.per * y[2 + i])
            mass += lift.bag_added * volume
            area += lift.bag_drag * volume ** (2.0 / 3.0)
            lost, put = self.flows(y, i)
            rate = put - lost
            if self.capped[i]:
                lowered = -capacity * lift.rho * G0 * w
                over += rate - lowered
                rate = lowered
            change.append(rate)
            out, into = out + lost, into + put
        force += sum(h.wants * h.d.thrust for h in self.hands)
        if lift.line is not None:
            stiff, paid, paying = lift.line
            force -= stiff * max(y[0] - paid - paying * t, 0.0)
        return [-w, (force - 0.5 * lift.rho * area * w * abs(w)) / mass, *change, out, into, over]

    def events(self) -> list[tuple[object, object]]:
        """Give what can happen next, as (function, what)."""
        lift = self.lift
        found: list[tuple[object, object]] = [
            (_event(lambda t, y: y[1], -1 if self.rising else 1), "turn"),
            (_event(lambda t, y: y[0] - lift.surface, -1), "surface"),
        ]
        if self.rhs(self.t, np.array(self.y))[1] > 1e-9:
            found.append((_event(lambda t, y: self.rhs(t, y)[1], -1), "peak"))
        if not self.rising:
            found.append((_event(lambda t, y: y[0] - lift.ground, 1), "bottom"))
        for i in range(self.k):
            cap, relief = lift.capacity[i], lift.relief[i]
            if self.capped[i]:
                found.append((_event(lambda t, y, i=i: self.excess(y, i), -1), ("free", i)))
            else:
                if relief:
                    level = _event(
                        lambda t, y, i=i, c=cap: y[2 + i] / c - lift.pressure(y[0]), -1 if self.brim[i] else 1
                    )
                    found.append((level, ("brim", i)))
                level = _event(lambda t, y, i=i, c=cap, r=relief: y[2 + i] / c - lift.pressure(y[0]) - r, 1)
                found.append((level, ("cap", i)))
        for h in self.hands:
            if h.gone:
                continue
            if h.d.count:
                found.append((_event(lambda t, y, h=h: y[0] - (h.mark - h.d.count), -1), ("mark", h, -1)))
                found.append((_event(lambda t, y, h=h: y[0] - (h.mark + h.d.count), 1), ("mark", h, 1)))
                continue
            ups = {0: [(h.d.above, -1)], 1: [(h.d.enough, 0)], -1: []}[h.mood]
            downs = {0: [(h.d.below, 1)], -1: [(h.d.until, 0)], 1: []}[h.mood]
            found += [(_event(lambda t, y, v=v: y[1] - v, 1), ("sees", h, mood)) for v, mood in ups]
            found += [(_event(lambda t, y, v=v: y[1] - v, -1), ("sees", h, mood)) for v, mood in downs]
            if not h.leaving and math.isfinite(h.d.ceiling):
                found.append((_event(lambda t, y, h=h: y[1] - h.d.ceiling, 1), ("flees", h)))
        if lift.line is not None:
            _, paid, paying = lift.line
            found.append((_event(lambda t, y: y[0] - paid - paying * t, -1 if self.tight else 1), "line"))
        return found

    def excess(self, y: Array, i: int) -> float:
        """Rate at which a capped bag loses gas by itself; below 0 it is no longer capped."""
        lost, put = self.flows(y, i)
        return self.lift.capacity[i] * self.lift.rho * G0 * y[1] + put - lost

    def settle(self) -> None:
        """At the start of a segment: which bags are at their cap and stay there."""
        p = self.lift.pressure(self.y[0])
        for i in range(self.k):
            cap = self.lift.capacity[i] * (p + self.lift.relief[i])
            at_cap = self.y[2 + i] >= cap * (1.0 - 1e-11)
            first = self.t == 0.0 and self.y[1] == 0.0
            self.capped[i] = at_cap and (self.excess(np.array(self.y), i) > 1e-9 or first)

    def run(self) -> Told:
        lift, told = self.lift, self.told
        if lift.rise == 0.0 and self.rhs(0.0, np.array(self.y))[1] <= 0.0 and lift.depth >= lift.ground:
            return Told("stays", 0.0, 0.0, 0, 0.0, 0.0, 0.0)
        for _ in range(_MOST_SEGMENTS):
            if self.t >= self.limit - 1e-9:
                break
            for h in self.hands:
                h.do(self.t, self.y[1])
            self.settle()
            due = min([self.limit, *(h.agenda[0][0] for h in self.hands if h.agenda)])
            events = self.events()
            solved = solve_ivp(
                self.rhs,
                (self.t, due),
                self.y,
                method="DOP853",
                rtol=self.rtol,
                atol=1e-12,
                first_step=min(0.01, due - self.t),
                max_step=0.5,
                events=[e for e, _ in events],
            )
            self.t, self.y = float(solved.t[-1]), [float(v) for v in solved.y[:, -1]]
            told.max_speed = max(told.max_speed, self.y[1])
            if solved.status == 1:
                hits = [(ts[-1], n) for n, ts in enumerate(solved.t_events) if len(ts)]
                what = events[max(hits)[1]][1]
                if what in ("surface", "bottom"):
                    told.end = str(what)
                    break
                self.happens(what)
            else:
                self.t = due
        else:
            raise AssertionError("the reference does not end")
        told.time = self.t
        told.pulls = sum(h.pulls for h in self.hands)
        told.vented, told.added, told.spilled = (v / lift.air for v in self.y[-3:])
        return told

    def happens(self, what: object) -> None:
        if what == "turn":
            self.rising, self.y[1] = not self.rising, 0.0
        elif what == "line":
            self.tight = not self.tight
        elif isinstance(what, tuple) and what[0] == "brim":
            self.brim[what[1]] = not self.brim[what[1]]
        elif isinstance(what, tuple) and what[0] == "sees":
            what[1].sees(self.t, what[2])
        elif isinstance(what, tuple) and what[0] == "flees":
            what[1].flees(self.t)
        elif isinstance(what, tuple) and what[0] == "mark":
            h, way = what[1], what[2]
            speed = -way * h.d.count / (self.t - h.marked)
            h.mark, h.marked = h.mark + way * h.d.count, self.t
            if speed > h.d.ceiling:
                h.flees(self.t)
            mood = h.judge(speed)
            if mood != h.mood:
                h.sees(self.t, mood)


def _event(function, direction: int):  # type: ignore[no-untyped-def]
    function.terminal, function.direction = True, direction
    return function
