"""A swimmer made of dice judges the promised chances: drops objects, swims legs that err, looks. Own code."""

from __future__ import annotations

import math

import numpy as np
import pytest

from parbuckle.search.curves import Curve
from parbuckle.search.expected import Ground, expected_chance, expected_coverage, width_nodes
from parbuckle.search.fit_problem import places
from parbuckle.search.legs import Leg, Pattern
from parbuckle.search.patterns.lanes import along_wall, lanes
from parbuckle.search.patterns.rounds import arcs, circles
from parbuckle.search.patterns.squares import expanding_square, sector
from parbuckle.search.practice import TrackError, practices

DROPS = 100_000
SUB_LOOKS = 10
WIDTHS = np.linspace(2.0, 3.2, 400)


def two_witnesses() -> Ground:
    """A round account and a long one, side by side."""
    cell = 1.3
    line = np.arange(-45.0, 45.0, cell) + 0.5 * cell
    x, y = (a.ravel() for a in np.meshgrid(line, line))
    one = np.exp(-((x - 4.0) ** 2 + (y - 2.0) ** 2) / (2 * 9.0**2)) / 9.0**2
    u, v = 0.8 * (x + 12.0) + 0.6 * (y + 5.0), -0.6 * (x + 12.0) + 0.8 * (y + 5.0)
    two = np.exp(-(u**2) / (2 * 14.0**2) - v**2 / (2 * 4.0**2)) / (14.0 * 4.0)
    share = 0.65 * one + 0.35 * two
    some = share > 1e-4 * share.max()
    return Ground(x[some], y[some], 0.92 * share[some] / share[some].sum(), cell)


GROUND = two_witnesses()
CENTRE = (2.0, 1.0)
PATTERNS: dict[str, Pattern] = {
    "circles": circles(CENTRE, 2.3, 7, 0.6, 1.0),
    "arcs": arcs((-20.0, -25.0), 14.0, 2.4, 7, 0.2, 1.3),
    "jackstay": lanes((0.0, 0.0), math.radians(50.0), 32.0, 2.6, 9),
    "along a wall": along_wall(((-20.0, -12.0), (-2.0, -10.0), (12.0, 4.0)), 1.3, 2.6, 4, -1.0),
    "line abreast": lanes((0.0, 0.0), 0.3, 40.0, 2.4, 3, "line abreast", 3),
    "expanding square": expanding_square(CENTRE, 2.5, 18, 0.4, 1.0, 0.7),
    "sector": sector(CENTRE, 16.0, 0.3, 2),
    "compass lanes": lanes((0.0, 0.0), 1.0, 30.0, 3.0, 7, "compass lanes"),
    "towed diver": lanes((0.0, 0.0), 0.8, 80.0, 3.5, 9, "towed diver"),
}
ERRORS = {row.name: row.error for row in practices()}


def test_every_pattern_is_swum() -> None:
    assert PATTERNS.keys() == ERRORS.keys()


def curve_at(law: str, x: np.ndarray, w: np.ndarray, p0: float) -> np.ndarray:
    """Chance to see at a distance, written out once more."""
    if law == "half-normal":
        s = w / (p0 * math.sqrt(2.0 * math.pi))
        return p0 * np.exp(-(x**2) / (2.0 * s**2))
    if law == "inverse cube":
        return 1.0 - np.exp(-(w**2) / (4.0 * math.pi * np.maximum(x**2, 1e-12)))
    return p0 * (np.abs(x) <= w / (2.0 * p0))


def swim(pattern: Pattern, error: TrackError, law: str, p0: float, seed: int) -> np.ndarray:
    """Drop objects, swim the pattern anew for each, look; tell which are found."""
    dice = np.random.default_rng(seed)
    odds = GROUND.share / GROUND.share.sum()
    cell = dice.choice(odds.size, DROPS, p=odds)
    east = GROUND.east[cell] + GROUND.cell * (dice.random(DROPS) - 0.5) - error.placement * dice.standard_normal(DROPS)
    north = (
        GROUND.north[cell] + GROUND.cell * (dice.random(DROPS) - 0.5) - error.placement * dice.standard_normal(DROPS)
    )
    w = dice.choice(WIDTHS, DROPS)
    found = np.zeros(DROPS, dtype=bool)
    x, y = (np.full(DROPS, pattern.legs[0].start[k]) for k in (0, 1))
    stretch = 1.0 + error.distance * dice.standard_normal(DROPS)
    for leg in pattern.legs:
        if error.heading:
            if error.marked and leg.start == pattern.legs[0].start:
                x, y = (np.full(DROPS, leg.start[k]) for k in (0, 1))
            way = leg.heading + error.heading * dice.standard_normal(DROPS)
            run = leg.length * stretch
            if leg.lane:
                ahead = (east - x) * np.sin(way) + (north - y) * np.cos(way)
                off = (east - x) * np.cos(way) - (north - y) * np.sin(way)
                found |= look(law, off, (ahead > 0.0) & (ahead < run), w, p0, leg, error, dice)
            x, y = x + run * np.sin(way), y + run * np.cos(way)
        elif leg.lane:
            off, beside = by_line(leg, error, east, north, dice)
            found |= look(law, off, beside, w, p0, leg, error, dice)
    return found


def by_line(
    leg: Leg, error: TrackError, east: np.ndarray, north: np.ndarray, dice: np.random.Generator
) -> tuple[np.ndarray, np.ndarray]:
    if leg.centre is None:
        dx, dy = (leg.end[0] - leg.start[0]) / leg.length, (leg.end[1] - leg.start[1]) / leg.length
        ahead = (east - leg.start[0]) * dx + (north - leg.start[1]) * dy
        off = (east - leg.start[0]) * dy - (north - leg.start[1]) * dx
    else:
        bearing = np.degrees(np.arctan2(east - leg.centre[0], north - leg.centre[1]))
        off = np.hypot(east - leg.centre[0], north - leg.centre[1]) - leg.radius
        gone = (bearing - math.degrees(leg.begins)) * math.copysign(1.0, leg.turns) % 360.0
        gone = np.where(gone > 0.5 * (360.0 + abs(math.degrees(leg.turns))), gone - 360.0, gone)
        ahead = np.radians(gone) * leg.radius
        if abs(leg.turns) > 6.283:
            return off, np.ones(DROPS, dtype=bool)
    first, last = (error.along * dice.standard_normal(DROPS) for _ in range(2))
    return off, (ahead > first) & (ahead < leg.length + last)


def look(
    law: str,
    off: np.ndarray,
    beside: np.ndarray,
    w: np.ndarray,
    p0: float,
    leg: Leg,
    error: TrackError,
    dice: np.random.Generator,
) -> np.ndarray:
    line = leg.radius if leg.centre is not None else 0.5 * leg.length
    sd = 0.0 if error.heading else math.hypot(error.across, error.share * line)
    if law != "random":
        seen = curve_at(law, off + sd * dice.standard_normal(DROPS), w, p0)
        return beside & (dice.random(DROPS) < seen)
    looks = dice.poisson(SUB_LOOKS, DROPS)  # narrow looks, thrown anywhere into the leg's own strip
    found = np.zeros(DROPS, dtype=bool)
    for k in range(int(looks.max())):
        thrown = leg.strip * (dice.random(DROPS) - 0.5) + sd * dice.standard_normal(DROPS)
        found |= (looks > k) & (np.abs(off + thrown) < 0.5 * w / SUB_LOOKS)
    return beside & found


CASES = [(name, law, p0) for name in PATTERNS for law, p0 in (("half-normal", 0.9),)] + [
    ("circles", "inverse cube", 1.0),
    ("jackstay", "inverse cube", 1.0),
    ("jackstay", "definite range", 1.0),
    ("arcs", "definite range", 0.8),
    ("circles", "random", 1.0),
    ("jackstay", "random", 1.0),
    ("expanding square", "random", 1.0),
]


@pytest.mark.parametrize(("name", "law", "p0"), CASES)
def test_the_promised_chance_is_what_the_swimmer_finds(name: str, law: str, p0: float) -> None:
    pattern, error = PATTERNS[name], ERRORS[name]
    found = swim(pattern, error, law, p0, 11)
    curves = [Curve(law, float(w), p0) for w in width_nodes(WIDTHS, 3)]
    coverage = expected_coverage(pattern, curves, error, GROUND, 500)
    on_map = float(GROUND.share.sum())
    promised = float(GROUND.share @ coverage)
    four = 4.0 * on_map * found.std() / math.sqrt(DROPS)
    assert abs(promised - on_map * found.mean()) < four
    quick = on_map * expected_chance(pattern, curves, error, *places(GROUND, error.placement))
    assert quick == pytest.approx(promised, abs=0.012)


def test_the_swimmer_would_see_a_wrong_promise() -> None:
    pattern, error = PATTERNS["jackstay"], ERRORS["jackstay"]
    found = swim(pattern, error, "half-normal", 0.9, 11)
    wider = expected_coverage(pattern, [Curve("half-normal", 2.6 * 1.05, 0.9)], error, GROUND)
    four = 4.0 * found.std() / math.sqrt(DROPS)
    assert abs(float(GROUND.share @ wider) - float(GROUND.share.sum()) * found.mean()) > four
