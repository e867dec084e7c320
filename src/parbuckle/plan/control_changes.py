"""What would change whether a lift can be held: closed forms first, draws where they were followed."""

from __future__ import annotations

from typing import Any

import numpy as np

from parbuckle.lift.choose import Candidate
from parbuckle.lift.problem import LiftProblem
from parbuckle.lift.result import LiftResult
from parbuckle.lift.tending_problem import TendingProblem
from parbuckle.lift.tending_result import TendingResult
from parbuckle.physics.constants import G
from parbuckle.plan.bands import MINUTE, band_of, likely
from parbuckle.plan.methods import GATE_WORDS
from parbuckle.quantity.band import LIKELY, at_share
from parbuckle.quantity.frozen import Floats
from parbuckle.quantity.shown import show_si

Row = dict[str, Any]

_SHARES = np.arange(1, 21) / 20.0  # rows of the map: share of the lift that can grow
_DELAYS = np.arange(13) / 4.0  # its columns: reaction time, s


def changes(
    problem: LiftProblem, lift: LiftResult, asked: TendingProblem, found: TendingResult, person: str, units: str
) -> list[Row]:
    """Give what a measured pull, a drogue, a smaller trim bag, another target or a line from above would change.

    Parameters
    ----------
    problem : LiftProblem
        The lift.
    lift : LiftResult
        Over all draws.
    asked : TendingProblem
        The team.
    found : TendingResult
        What following the draws gave.
    person : str
        Whose numbers the team has.
    units : str
        ``metric`` or ``imperial``.

    Returns
    -------
    list of dict
        ``what``, ``words``, ``delay_budget_s`` (None where nothing can grow, or where it does not hang on it) and
        ``chance_within_rate`` (None where it was not followed).
    """
    budget = likely(lift.control.budget)
    tried = {t.name: t.within for t in found.changes}
    rows: list[Row] = []
    if not asked.measured:
        rows.append(_row("measured pull", "Measure in a pool what one short pull loses: then pulls can be counted."))
    if "half pulls" in tried:
        rows.append(_row("half pulls", "Pulls half as long, with the same watch.", budget, tried["half pulls"]))
    more = asked.more_drogue / at_share(drag_area(problem, lift), LIKELY)
    words = f"A drogue with {show_si(asked.more_drogue, 'area', units)} of drag area, made fast to the load."
    rows.append(_row("drogue", words, _times(budget, 1.0 + more), tried.get("drogue")))
    other = trim_bag(lift)
    if other is not None:
        filled = f"{', '.join(other.fill[:-1])} full and " if other.fill[:-1] else ""
        why = f" But: {GATE_WORDS[other.failed[0]]}." if other.failed else ""
        words = f"{filled}{other.fill[-1]} in part.{why}"
        rows.append(_row("smaller trim bag", words, other.budget if np.isfinite(other.budget) else None))
    rate = asked.more_target
    words = f"Aim at {show_si(rate, 'rate', units)} and not at {show_si(problem.target, 'rate', units)}."
    rows.append(_row("target rate", words, _times(budget, rate / problem.target), tried.get("target rate")))
    named = "practised tender" if person == "novice" else "novice tender"
    words = f"The assumed numbers of a {named}."
    rows.append(_row(named, words, budget, tried.get("other people")))
    rows.append(_row("line from above", "Keep it a few kilos heavy and haul it: nothing has to be vented in time."))
    return rows


def trim_bag(lift: LiftResult) -> Candidate | None:
    """Give the set of bags that leaves more time than the chosen one, the best of those that pass before any other.

    Parameters
    ----------
    lift : LiftResult
        Over all draws.

    Returns
    -------
    Candidate or None
        None when none of the sets that were kept for comparison leaves more time.
    """
    best = lift.choice.best
    longer = [c for c in lift.choice.others if best is not None and c.budget > best.budget and "float" not in c.failed]
    return max(longer, key=lambda c: (not c.failed, -len(c.failed), c.budget), default=None)


def drag_area(problem: LiftProblem, lift: LiftResult) -> Floats:
    """Give the drag area that belongs to the neutral window.

    CdA = 2 g V / w^2.

    Parameters
    ----------
    problem : LiftProblem
        The lift.
    lift : LiftResult
        Over all draws.

    Returns
    -------
    Floats
        m2, shape (n,).
    """
    return np.asarray(2.0 * G * lift.control.window / problem.target**2)


def holders_drag(problem: LiftProblem, asked: TendingProblem) -> Floats:
    """Give the drag area of the divers who hold on, and of a drogue.

    Parameters
    ----------
    problem : LiftProblem
        The lift.
    asked : TendingProblem
        The team.

    Returns
    -------
    Floats
        m2, shape (n,); without the divers where the case gives the drag of everything that moves.
    """
    own = 0.0 if problem.drag_area is not None else (2.0 if asked.on_load else 1.0) * asked.people.drag
    return np.asarray(asked.drogue + own)


def held_map(problem: LiftProblem, lift: LiftResult, asked: TendingProblem) -> Row:
    """Give the map: share that can grow against reaction time, and how many draws are held by the closed form.

    Budget of a share f: the plan's own budget times its share over f; drag and water stay those of the plan.

    Parameters
    ----------
    problem : LiftProblem
        The lift.
    lift : LiftResult
        Over all draws.
    asked : TendingProblem
        The team.

    Returns
    -------
    dict
        ``share``, ``delay_s``, ``held`` (rows share, columns delay) and ``here``.
    """
    control = lift.control
    grows = np.isfinite(control.budget)
    one = (control.budget[grows] * control.growing_share[grows]) if grows.any() else np.zeros(1)
    held = np.mean((one / _SHARES[:, None])[:, None, :] >= _DELAYS[:, None], axis=-1).tolist()
    return {
        "share": _SHARES.tolist(),
        "delay_s": _DELAYS.tolist(),
        "held": held,
        "here": {"share": likely(control.growing_share), "delay_s": band_of(asked.people.delay)},
    }


def _times(budget: float | None, factor: float) -> float | None:
    return None if budget is None else budget * factor


def _row(what: str, words: str, budget: float | None = None, within: float | None = None) -> Row:
    return {"what": what, "words": words, "delay_budget_s": budget, "chance_within_rate": within}


def set_sentence(problem: LiftProblem, lift: LiftResult, candidate: Candidate) -> str:
    """Say of one set whether people can hold it, and what another set of the same register would change.

    Parameters
    ----------
    problem : LiftProblem
        The lift.
    lift : LiftResult
        The choice, with the sets that were kept for comparison.
    candidate : Candidate
        The set.

    Returns
    -------
    str
        One sentence.
    """
    away = f"{candidate.runaway * MINUTE:.0f} m/min at most if it gets away"
    if not np.isfinite(candidate.budget):
        return f"can be held, nothing in it can grow; {away}."
    state = "can be held" if candidate.budget >= problem.rules.reaction else "cannot be held"
    words = f"{state}, budget {candidate.budget:.1f} s; {away}"
    better = _longer(candidate, lift)
    if better is None:
        return f"{words}."
    more = [b for b in better.fill if b not in candidate.fill]
    longer = f"{better.budget:.1f} s" if np.isfinite(better.budget) else "as long as you like"
    how = f"fetch {' and '.join(more)}" if more else f"fill {better.fill[-1]} last"
    return f"{words}. {how[0].upper()}{how[1:]} and it is {longer}."


def _longer(candidate: Candidate, lift: LiftResult) -> Candidate | None:
    """The set with the longest budget of those that pass and bring in at most one bag that this one lacks."""
    best = lift.choice.best
    known = [c for c in (*lift.choice.others, *([best] if best else [])) if not c.failed]
    longer = [c for c in known if c.budget > candidate.budget and len(set(c.fill) - set(candidate.fill)) <= 1]
    return max(longer, key=lambda c: c.budget, default=None)
