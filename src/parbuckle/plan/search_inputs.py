"""From the case to the search problem: accounts in metres round the datum, sweep width, speed, time, limits."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

import numpy as np

from parbuckle.case.diving import Dive
from parbuckle.case.finding import Account as ToldAccount
from parbuckle.case.model import Case
from parbuckle.case.written import Point
from parbuckle.physics.constants import G
from parbuckle.plan.asking import Asking
from parbuckle.plan.people import role_row
from parbuckle.plan.site_inputs import stream_at
from parbuckle.plan.stages import Stages
from parbuckle.quantity.bearing import is_magnetic, to_true
from parbuckle.quantity.draws import Ensemble
from parbuckle.quantity.errors import CaseError
from parbuckle.quantity.frozen import Floats
from parbuckle.quantity.spread import Spread
from parbuckle.search.choice_desk import Site
from parbuckle.search.datum import Datum
from parbuckle.search.declination import model_declination
from parbuckle.search.numbers import number, pair
from parbuckle.search.practice import Practice, practices
from parbuckle.search.problem import (
    Account,
    AreaAccount,
    BearingAccount,
    Place,
    PointAccount,
    SearchProblem,
    Sinking,
    TrackAccount,
    Water,
)
from parbuckle.search.seeing import (
    contrast_factor,
    slower_is_better,
    sweep_by_touch,
    sweep_from_trial,
    sweep_from_visibility,
)
from parbuckle.search.sinking import SEVENTH_POWER, fall_speed, landing_angle

_MINUTE = 60.0
_STEPS = 288  # equally likely bearings and distances of one account
_SOFT = ("soft mud", "silt")
_ON_A_LINE = ("circles", "arcs", "jackstay")


@dataclass(frozen=True)
class SearchAsked:
    """What the search was asked, and where its metres begin.

    Parameters
    ----------
    datum : Datum
        Origin of the local map.
    datum_told : bool
        False when the first place of an account stands in for it.
    problem : SearchProblem
        For the search stage.
    site : Site
        Boat, shore and wall.
    rows : tuple of Practice
        Patterns to choose from.
    declination : float or None
        rad, east positive; None when neither typed nor known to the model.
    declination_words : str
        Where it comes from and for which day.
    sweep_words : str
        Where the sweep width comes from.
    seen_at : float
        How far off it has to be seen for a pass to prove something, m.
    divers : tuple of str
        Names of those who search, where they are known.
    """

    datum: Datum
    datum_told: bool
    problem: SearchProblem
    site: Site
    rows: tuple[Practice, ...]
    declination: float | None
    declination_words: str
    sweep_words: str
    seen_at: float
    divers: tuple[str, ...]


def search_dive(case: Case) -> Dive | None:
    """Give the first dive that searches.

    Parameters
    ----------
    case : Case
        The case.

    Returns
    -------
    Dive or None
        None when no dive does.
    """
    return next((dive for dive in case.dive if "search" in dive.does), None)


def search_asked(stages: Stages, minutes: float | None = None) -> SearchAsked | None:
    """Gather what the search stage needs.

    Parameters
    ----------
    stages : Stages
        Case and what the stages before found.
    minutes : float, optional
        Time on the pattern, min; left out: as the case says.

    Returns
    -------
    SearchAsked or None
        None when nobody told anything and no area is given.

    Raises
    ------
    CaseError
        If an account is not whole, or a place lies farther than 50 km from the datum.
    """
    case = stages.case
    if not case.account and not case.search.area:
        return None
    own = Ensemble(stages.asking.ensemble.n, stages.asking.ensemble.seed, {}, stages.asking.ensemble.cuts)
    asking = Asking(own, stages.asking.unanswered, stages.asking.assumed)
    datum = _datum(case)
    told, told_words = declination_of(case, datum)
    accounts = tuple(
        a for n, row in enumerate(case.account, start=1) if (a := _account(stages, asking, datum, told, n, row))
    )
    if not accounts and case.search.area:
        accounts = (AreaAccount("the area", 1.0, None, _places(datum, case.search.area)),)
    if not accounts:
        return None
    visibility = _visibility(case, asking)
    width, width_words, seen_at, tried = _sweep(case, asking, visibility)
    dive = search_dive(case)
    divers = _divers(dive)
    stream, towards = _stream(case, asking, dive)
    problem = SearchProblem(
        accounts=accounts,
        elsewhere=asking.known("search.elsewhere", case.search.elsewhere, "elsewhere").mid,
        water=_water(case, asking, datum),
        law=case.search.law,
        p0=1.0,
        sweep_width=width,
        speed=asking.draw("search.speed", case.search.speed, "search_speed"),
        minutes=minutes if minutes is not None else _minutes(case, asking, dive),
        visibility=visibility,
        tried=tried,
        divers=max(len(divers), 2),
        stream=stream,
        stream_towards=towards,
    )
    return SearchAsked(
        datum,
        case.site.datum is not None,
        problem,
        _site(case, datum),
        _rows(case),
        told,
        told_words,
        width_words,
        seen_at,
        divers,
    )


def declination_of(case: Case, datum: Datum) -> tuple[float | None, str]:
    """Give the magnetic declination: as typed, else by the World Magnetic Model on the day.

    Parameters
    ----------
    case : Case
        The case.
    datum : Datum
        The place.

    Returns
    -------
    tuple
        rad, east positive, or None; and words with the date.
    """
    if case.site.declination is not None:
        return case.site.declination.mid, f"declination as typed: {case.site.declination.text}"
    dive = search_dive(case) or next((d for d in case.dive if d.start is not None), None)
    when = dive.start if dive and dive.start else case.case.lost
    if when is None:
        return None, "no date and no declination are given: magnetic headings cannot be worked out"
    try:
        turned = model_declination(datum.lat, datum.lon, date(when.year, when.month, when.day))
    except ValueError:
        return None, "the date lies outside the World Magnetic Model: type the declination"
    side = "east" if turned >= 0.0 else "west"
    return turned, f"{abs(math.degrees(turned)):.1f}° {side} on {when.date().isoformat()}, World Magnetic Model"


def _datum(case: Case) -> Datum:
    first = [p for row in case.account for p in (row.at, row.from_, *row.along[:1], *row.area[:1]) if p is not None]
    place = case.site.datum or (first or list(case.search.area))[0]
    return Datum(place.lat, place.lon)


def _place(datum: Datum, point: Point) -> Place:
    east, north = datum.to_local(point.lat, point.lon)
    return float(east), float(north)


def _places(datum: Datum, points: Sequence[Point]) -> tuple[Place, ...]:
    return tuple(_place(datum, p) for p in points)


def _account(
    stages: Stages, asking: Asking, datum: Datum, declination: float | None, n: int, row: ToldAccount
) -> Account | None:
    who = row.who or f"account {n}"
    weight = row.sure if isinstance(row.sure, float) else number("sure", row.sure or "fairly")
    path = f"account.{n}.{row.who or ''}"
    sinking = _sinking(stages, asking, path, declination, row)
    key = f"account[{n}]"
    if row.at is not None or row.along:
        if row.within is None or not row.within.mid > 0.0:
            asking.lacks(f"{key}.within", "search", "How near it lies to the place decides the map.")
            return None
        if row.at is not None:
            return PointAccount(who, weight, sinking, _place(datum, row.at), row.within.mid)
        return TrackAccount(who, weight, sinking, _places(datum, row.along), row.within.mid)
    if row.area:
        return AreaAccount(who, weight, sinking, _places(datum, row.area))
    if row.from_ is None or row.bearing is None or row.distance is None:
        asking.lacks(key, "search", "An account is a place, a bearing and a distance, a track, or an area.")
        return None
    bearing = _true(row.bearing, declination, f"{key}.bearing")
    u = (np.arange(_STEPS) + 0.5) / _STEPS
    return BearingAccount(who, weight, sinking, _place(datum, row.from_), bearing.at(u), row.distance.at(u))


def _true(bearing: Spread, declination: float | None, key: str) -> Spread:
    if is_magnetic(bearing) and declination is None:
        do = "give site.declination, or the date of a dive"
        raise CaseError("a magnetic bearing needs the declination", key=key, given=bearing.text, do=do)
    return to_true(bearing, declination or 0.0)


def _sinking(stages: Stages, asking: Asking, path: str, declination: float | None, row: ToldAccount) -> Sinking | None:
    told = row.sank_through
    if told is None or told.speed is None or told.towards is None:
        return None
    towards = _true(told.towards, declination, "account.sank_through.towards")
    falls = _falls(stages, asking, path, told.sinks_at, told.shape)
    if falls is None:
        asking.lacks("account.sank_through.sinks_at", "search", "The drift follows from how fast it sinks.")
        return None
    return Sinking(
        depth=asking.draw("site.depth", stages.case.site.depth, "depth"),
        fall_speed=falls,
        stream=SEVENTH_POWER * asking.ensemble.draw(f"{path}.speed", told.speed),
        towards=asking.ensemble.draw(f"{path}.towards", towards),
        angle=landing_angle(told.shape),
    )


def _falls(stages: Stages, asking: Asking, path: str, told: Spread | None, shape: str | None) -> Floats | None:
    """Speed of sinking: as told, else from weight in water and the face of a cube of the water that it displaces."""
    if told is not None:
        return asking.ensemble.draw(f"{path}.sinks_at", told)
    load = stages.load
    if load is None or not bool((load.wet_weight > 0.0).all()):
        return None
    face = load.displaced ** (2.0 / 3.0)
    return fall_speed(load.wet_weight * G, face, stages.site.water_density, shape)


def _water(case: Case, asking: Asking, datum: Datum) -> Water:
    shore, deepest = case.site.shore, case.search.deepest
    profile = tuple((w.mid, d.mid) for w, d in shore.profile) if shore and shore.bearing else ()
    return Water(
        area=(_places(datum, case.search.area),) if case.search.area else (),
        shore_bearing=shore.bearing.mid if shore and shore.bearing else 0.0,
        shore_profile=profile,
        depth_limit=deepest.mid if deepest else math.inf,
        depth=asking.known("site.depth", case.site.depth, "depth").mid if deepest else 0.0,
    )


def _visibility(case: Case, asking: Asking) -> Floats:
    """How far one sees; an arm's reach is felt where nothing is seen."""
    felt = 0.5 * pair("touch", "reach")[0]
    return np.maximum(asking.draw("site.visibility", case.site.visibility, "visibility"), felt)


def _sweep(case: Case, asking: Asking, visibility: Floats) -> tuple[Floats, str, float, bool]:
    """Sweep width, where it comes from, how far off it must be seen, and whether that was tried."""
    told, draw = case.search, asking.ensemble.draw
    if told.sweep_width is not None:
        width = draw("search.sweep_width", told.sweep_width)
        return width, "measured on a sample", 0.5 * told.sweep_width.mid, True
    if told.by == "touch":
        reach = sweep_by_touch(asking.ensemble.uniform("search.touch"))
        felt = _felt(case, asking.ensemble.uniform("search.touch.felt"))
        return reach * felt, "by touch", 0.5 * float(np.mean(reach)), False
    low, high = contrast_factor(told.contrast)
    factor = low + (high - low) * (asking.ensemble.uniform("search.contrast") if high > low else 0.0)
    if told.trial is not None:
        seen = told.trial.seen_at
        width = sweep_from_trial(draw("search.trial.seen_at", seen), factor)
        if told.trial.speed is not None:
            speed = asking.draw("search.speed", told.speed, "search_speed")
            width = slower_is_better(width, speed, draw("search.trial.speed", told.trial.speed))
        return width, f"from a trial on a sample, seen at {seen.text}", seen.mid, True
    size = draw("search.size", told.size) if told.size is not None else np.full(visibility.shape, np.inf)
    width = np.maximum(sweep_from_visibility(visibility, size, factor), pair("touch", "reach")[0])
    seen_to = case.site.visibility.text if case.site.visibility else f"{float(np.median(visibility)):.1f} m, assumed,"
    of = f"an object of {told.size.text}" if told.size else "an object that is large enough"
    return width, f"from visibility {seen_to} and {of}", float(np.median(visibility)), False


def _felt(case: Case, u: Floats) -> Floats:
    """Share of what lies within reach that hands find: the sweep width is reach times that share."""
    low, high = pair("touch", "soft" if (case.site.bottom or "") in _SOFT else "hard")
    return np.asarray(low + (high - low) * u)


def _minutes(case: Case, asking: Asking, dive: Dive | None) -> float:
    if case.search.minutes is not None:
        return case.search.minutes.mid / _MINUTE
    tasks = [t.time.mid for t in dive.tasks if t.time is not None and "search" in t.do.casefold()] if dive else []
    if not tasks:
        return asking.known("search.minutes", None, "search_minutes").mid / _MINUTE
    return sum(tasks) / _MINUTE


def _divers(dive: Dive | None) -> tuple[str, ...]:
    """Those who search; else all in the water who do not stand by."""
    if dive is None:
        return ()
    own = [m.person for m in dive.team if m.role == "searcher"]
    return tuple(own or [m.person for m in dive.team if role_row(m.role).get("in_water")])


def _stream(case: Case, asking: Asking, dive: Dive | None) -> tuple[float, float]:
    vector = stream_at(case, asking, dive.start if dive else None)
    if vector is None:
        return 0.0, 0.0
    east, north = float(np.median(vector[0])), float(np.median(vector[1]))
    return math.hypot(east, north), math.atan2(east, north) % (2.0 * math.pi)


def _site(case: Case, datum: Datum) -> Site:
    told = case.search
    return Site(told.boat, _places(datum, told.stands), _places(datum, told.wall))


def _rows(case: Case) -> tuple[Practice, ...]:
    told = case.search
    rows = [row for row in practices() if not told.only or row.name in told.only]
    if told.line is None:
        return tuple(rows)
    longest = told.line.mid
    return tuple(replace(r, limit=min(r.limit, longest)) if r.name in _ON_A_LINE else r for r in rows)
