"""The search in sentences: accounts, cautions, patterns, what was proved, and whether the time is enough."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from parbuckle.case.finding import Account as ToldAccount
from parbuckle.plan.search_inputs import search_dive
from parbuckle.quantity.band import HIGH, LOW, at_share
from parbuckle.quantity.shown import show_si
from parbuckle.search.legs import Pattern
from parbuckle.search.numbers import chance_in_words, number
from parbuckle.search.problem import Account, AreaAccount, BearingAccount, PointAccount
from parbuckle.search.result import Caution

if TYPE_CHECKING:
    from parbuckle.plan.searching import Searched
    from parbuckle.plan.stages import Stages

_MINUTE = 60.0
_LAWS = {
    "random": "random search: the chance to see it in a cell is 1 − e^(−C), C the area swept over the area",
    "half-normal": "half-normal: seen less and less to the sides, as measured on a sample",
    "inverse cube": "inverse cube: falls with the cube of the distance, as measured on a sample",
}


def law_words(law: str) -> str:
    """Say what a law of detection means.

    Parameters
    ----------
    law : str
        Its name.

    Returns
    -------
    str
        Half a sentence.

    Examples
    --------
    >>> law_words("random")[:13]
    'random search'
    """
    return _LAWS[law]


def account_words(account: Account, told: ToldAccount | None) -> str:
    """Say what one account is.

    Parameters
    ----------
    account : Account
        In metres round the datum.
    told : Account or None
        As it stands in the case.

    Returns
    -------
    str
        Kind, how it was asked, and how sure it is.
    """
    if isinstance(account, PointAccount):
        kind = "a place"
    elif isinstance(account, BearingAccount):
        kind = "a bearing and a distance"
    else:
        kind = "an area" if isinstance(account, AreaAccount) else "a track"
    how = f", {told.how}" if told is not None and told.how else ""
    sure = f", {told.sure}" if told is not None and isinstance(told.sure, str) else ""
    sank = "; it sank from there through the stream" if account.sinking is not None else ""
    return f"{kind}{how}{sure}{sank}"


def caution_words(caution: Caution) -> str:
    """Say what has to be looked at in the accounts.

    Parameters
    ----------
    caution : Caution
        From the search stage.

    Returns
    -------
    str
        One or two sentences.

    Examples
    --------
    >>> caution_words(Caution("range over water", ("the helm",), (0.25,)))
    'the helm judged a distance over water: people say too little. It may be 25 % more.'
    """
    if caution.code == "range over water":
        return (
            f"{caution.who[0]} judged a distance over water: people say too little. "
            f"It may be {100.0 * caution.values[0]:.0f} % more."
        )
    first, second = caution.who
    if first.strip().casefold() == second.strip().casefold():
        return f"{first} is counted twice. One witness is one account."
    return f"{first} and {second} say nearly the same place. If they talked, they are one account."


def map_words(found: Searched) -> str:
    """Say how the chances lie.

    Parameters
    ----------
    found : Searched
        The search.

    Returns
    -------
    str
        Shares on the map, where it cannot be searched, and elsewhere.
    """
    now = found.now
    closed = f", {_percent(now.closed_share)} where it cannot be searched" if now.closed_share > 0.0 else ""
    return f"{_percent(now.on_map)} where it can be searched{closed}, {_percent(now.elsewhere)} elsewhere"


def pattern_words(units: str, pattern: Pattern) -> str:
    """Say how a pattern is laid out.

    Parameters
    ----------
    units : str
        ``metric`` or ``imperial``.
    pattern : Pattern
        What is swum.

    Returns
    -------
    str
        One sentence with its measures.
    """
    has = dict(pattern.parameters)

    def length(key: str) -> str:
        return show_si(has[key], "length", units)

    if pattern.name == "circles":
        outer = show_si(max((leg.radius for leg in pattern.lanes), default=0.0), "length", units)
        rings = f"{has['rings']:.0f} rings, {length('spacing')} apart"
        return f"Circles on a line from a shot: {rings}, the last at {outer}."
    if "lanes" in has and "length" in has:
        return f"{has['lanes']:.0f} lanes of {length('length')}, {length('spacing')} apart."
    count = len({leg.lane for leg in pattern.lanes})
    apart = f", {length('spacing')} apart" if "spacing" in has else ""
    whole = show_si(pattern.search_length, "length", units)
    return f"{pattern.name.capitalize()}: {count} legs{apart}, {whole} in all."


def proof_words(found: Searched) -> str:
    """Say what the passes have proved, one step more carefully where the sight was never tried on a sample.

    Parameters
    ----------
    found : Searched
        The search.

    Returns
    -------
    str
        How much is covered, and the chance that it is not here, if it can be seen as far as it was counted with.
    """
    proof, asked = found.proof, found.asked
    assert proof is not None
    seen = show_si(asked.seen_at, "length")
    sight = f"felt within {seen}" if asked.sweep_words == "by touch" else f"seen at {seen}"
    word = chance_in_words(min(max(proof.not_here, 0.0), 1.0), asked.problem.tried)
    untried = "" if asked.problem.tried else " That was never tried on a sample: the word is one step lower."
    return (
        f"We have covered {_percent(proof.covered)} of where it could be; {_percent(proof.not_here)} "
        f"that it is not here ({word}), if it can be {sight}.{untried}"
    )


def stop_words(found: Searched) -> str:
    """Say whether another dive is worth it.

    Parameters
    ----------
    found : Searched
        The search.

    Returns
    -------
    str
        One or two sentences.
    """
    best = found.choice.answers[0].chance if found.choice.answers else 0.0
    elsewhere = f"The chance that it is elsewhere is now {_percent(found.now.elsewhere)}."
    if best < number("proof", "stop_below"):
        return f"The best next dive finds it in {_percent(best)} of cases: ask the witnesses again first. {elsewhere}"
    return f"The best next dive finds it in {_percent(best)} of cases. {elsewhere}"


def window_words(stages: Stages, found: Searched) -> dict[str, Any] | None:
    """Say whether search and lift fit into the dive that is to do both.

    Parameters
    ----------
    stages : Stages
        The case.
    found : Searched
        The search.

    Returns
    -------
    dict or None
        ``minutes_needed``, ``minutes_there``, ``fits``, ``words``; None when no dive searches.
    """
    dive = search_dive(stages.case)
    if dive is None:
        return None
    others = [t.time.high for t in dive.tasks if t.time is not None and "search" not in t.do.casefold()]
    down = at_share(stages.site.depth, HIGH) / stages.house["descent"]
    needed = found.asked.problem.minutes + (sum(others) + down) / _MINUTE
    there = no_stop_minutes(stages, dive)
    fits = None if there is None else needed <= there
    if there is None:
        words = f"Way down, search and what follows take {needed:.0f} min; how long the dive may last is not known."
    else:
        what = "Way down, search and the tasks after it take" if others else "Way down and search take"
        words = f"{what} {needed:.0f} min; without a stop there are {there:.0f}: {'it fits' if fits else 'too long'}."
    return {"minutes_needed": needed, "minutes_there": there, "fits": fits, "words": words}


def no_stop_minutes(stages: Stages, dive: Any) -> float | None:
    """Give the time without a stop of a dive, the shorter of model and table.

    Parameters
    ----------
    stages : Stages
        Results.
    dive : Dive
        A dive of the case.

    Returns
    -------
    float or None
        min; None when the dive was not worked out or has no limit.
    """
    if stages.diving is None:
        return None
    mine = next((d for d in stages.diving.dives if stages.case.dive[d.place] is dive), None)
    if mine is None or not mine.divers:
        return None
    model = min(at_share(d.limit, LOW) for d in mine.divers)
    table = min((d.table for d in mine.divers if d.table is not None), default=math.inf)
    shortest = min(model, table)
    return shortest / _MINUTE if math.isfinite(shortest) else None


def _percent(share: float) -> str:
    return f"{100.0 * share:.0f} %"
