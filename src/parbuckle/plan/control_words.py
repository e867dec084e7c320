"""The ascent under control in words: what to expect by depth, who does what, when to let go."""

from __future__ import annotations

from typing import Any

from parbuckle.case.model import Case
from parbuckle.lift.problem import LiftProblem
from parbuckle.lift.result import LiftResult
from parbuckle.lift.tending_problem import TendingProblem
from parbuckle.plan.bands import likely
from parbuckle.plan.control_changes import drag_area, holders_drag
from parbuckle.plan.people import lift_dive
from parbuckle.quantity.band import HIGH, LIKELY, LOW, at_share
from parbuckle.quantity.shown import show_si

Row = dict[str, Any]

POLICY_WORDS = {
    "pulls": "One short pull of the dump, then watch. Pull again only if it is still too fast.",
    "hold": "Hold the dump open until the load is slow, then shut it.",
    "crack": "Keep the dump open by a crack while it is too fast.",
}
"""What each policy means, for the tender."""

CAN, EDGE, CANNOT = "can be held", "on the edge", "cannot be held"
"""The three states of a lift that people take up."""

RUNAWAY_CARD = (
    "Let go. Never chase it.",
    "Move aside and away, up-stream. Look up.",
    "It may spill and fall back: stay out of the circle.",
    "Count people. Then come up at your own rate.",
)
"""What everybody does when it gets away."""

_DOES = {
    "bag tender": "Holds the dump of {bag} and does nothing else. Watches the rate, not the load.",
    "load tender": "Stays level with the load. Reads the rate from {reference}. Calls stop.",
    "instructor": "Stays aside and above the circle. Ends it when a signal is not answered.",
}
_EVEN = 1.05  # growth over that at the bottom below which nothing is said of it


def state_of(asked: TendingProblem, lift: LiftResult, within: float) -> str:
    """Give the state of the lift: by its closed form, and one step more cautious where few draws are held.

    The budget is held against the reaction times of the team: above all but the slowest it can be held, under all but
    the fastest it cannot.

    Parameters
    ----------
    asked : TendingProblem
        The team.
    lift : LiftResult
        Over all draws.
    within : float
        Share of the draws within the rate.

    Returns
    -------
    str
        One of ``CAN``, ``EDGE``, ``CANNOT``.
    """
    budget = likely(lift.control.budget)
    if budget is None:
        return CAN
    if budget < at_share(asked.people.delay, LOW):
        return CANNOT
    return EDGE if budget < at_share(asked.people.delay, HIGH) or within < asked.asked_chance else CAN


def sentence_of(
    state: str, problem: LiftProblem, lift: LiftResult, asked: TendingProblem, within: float, units: str
) -> str:
    """Say in a sentence or two why.

    Parameters
    ----------
    state : str
        State of the lift.
    problem : LiftProblem
        The lift.
    lift : LiftResult
        Over all draws.
    asked : TendingProblem
        The team.
    within : float
        Share of the draws within the rate.
    units : str
        ``metric`` or ``imperial``.

    Returns
    -------
    str
        For a supervisor.
    """
    budget = likely(lift.control.budget)
    if budget is None:
        first = "Nothing in these bags can grow."
    else:
        quick, slow = (at_share(asked.people.delay, share) for share in (LOW, HIGH))
        taken = f"{quick:.1f} to {show_si(slow, 'time', units)}"
        first = f"Time to react {show_si(budget, 'time', units)}; people take {taken}."
    tail = {
        CAN: "Somebody who does nothing else can hold it.",
        EDGE: "It is held in some draws and not in others. See what would change it.",
        CANNOT: "It grows faster than people react. Take other bags, or another way.",
    }[state]
    if state == EDGE and budget is not None and within < asked.asked_chance <= 1.0:
        tail = (
            f"Followed draw by draw, it keeps the rate in about {round(within * 100)} of 100. See what would change it."
        )
    return f"{first} {pull_words(problem, lift, asked)} {tail}".replace("  ", " ")


def pull_words(problem: LiftProblem, lift: LiftResult, asked: TendingProblem) -> str:
    """Say how one short pull stands to the neutral window, of the load alone and with the divers who hold on.

    Parameters
    ----------
    problem : LiftProblem
        The lift.
    lift : LiftResult
        Over all draws.
    asked : TendingProblem
        The team; its pull.

    Returns
    -------
    str
        One or two sentences; no number without a measured pull.
    """
    if not asked.measured:
        return "What one pull loses is not measured: no count of pulls. Measure it in a pool."
    alone = asked.lost / lift.control.window
    area = drag_area(problem, lift)
    held = at_share(alone * area / (area + holders_drag(problem, asked)), LIKELY)
    words = f"One pull is {at_share(alone, LIKELY):.1f} windows of the load alone, {held:.1f} with the divers on it"
    return f"{words}: it will stop and sink." if held > 1.0 else f"{words}."


def expect(
    problem: LiftProblem, lift: LiftResult, asked: TendingProblem, policy: str, left_at: float | None, units: str
) -> list[Row]:
    """Say what to expect by depth.

    A count of pulls is told only where the pull is measured.

    Parameters
    ----------
    problem : LiftProblem
        The lift.
    lift : LiftResult
        Over all draws.
    asked : TendingProblem
        The team.
    policy : str
        What the tender does.
    left_at : float or None
        Depth at which the divers leave it, m.
    units : str
        ``metric`` or ``imperial``.

    Returns
    -------
    list of dict
        ``depth_m`` and ``words``, from the bottom up.
    """
    start = at_share(problem.depth, LIKELY)
    rows: list[Row] = [{"depth_m": start, "words": "It hangs trimmed. Go together, on one signal. Watch first."}]
    control = lift.control
    deepest = at_share(control.vent[0], LIKELY) if len(control.vent) else 0.0
    for depth, vent in zip(control.vent_depths, control.vent, strict=True):
        needed = at_share(vent, LIKELY)
        if depth < start and needed > 0.0:
            rows.append({"depth_m": depth, "words": _growth(needed, deepest, asked, policy, units)})
    if left_at is not None and left_at < start:
        rows = [row for row in rows if row["depth_m"] != left_at]
        words = "Leave the load here. It goes on alone with its line; nobody vents it from here."
        rows.append({"depth_m": left_at, "words": words})
    return sorted(rows, key=lambda row: -row["depth_m"])


def _growth(needed: float, deepest: float, asked: TendingProblem, policy: str, units: str) -> str:
    rate = needed / deepest
    words = (
        f"The gas grows {rate:.1f} times as fast as down there."
        if rate >= _EVEN
        else "Slow growth: watch more than you pull."
    )
    if asked.measured and policy == "pulls":
        words += f" About one short pull each {show_si(at_share(asked.lost, LIKELY) / needed, 'time', units)}."
    return words


def who_does_what(case: Case, bag: str) -> list[Row]:
    """Give who goes up with it and what each one does.

    Parameters
    ----------
    case : Case
        The case.
    bag : str
        Id of the part-filled bag.

    Returns
    -------
    list of dict
        ``name``, ``role``, ``does``.
    """
    dive = lift_dive(case)
    reference = case.lift.reference or "a line that hangs still"
    return [
        {"name": m.person, "role": m.role, "does": _DOES[m.role].format(bag=bag, reference=f"the {reference}")}
        for m in (dive.team if dive else ())
        if m.role in _DOES
    ]


def let_go_if(problem: LiftProblem, lift: LiftResult, units: str) -> list[str]:
    """Give when the people on it let go.

    Parameters
    ----------
    problem : LiftProblem
        The lift.
    lift : LiftResult
        Over all draws.
    units : str
        ``metric`` or ``imperial``.

    Returns
    -------
    list of str
        Short sentences.
    """
    rows = [
        f"It rises faster than {show_si(problem.ceiling, 'rate', units)}.",
        "Two pulls have no answer.",
        "A line goes round anyone.",
        "A signal is not answered.",
    ]
    back = likely(lift.control.no_return)
    if back is not None:
        rows.insert(1, f"It has risen {show_si(0.5 * back, 'length', units)} while you fin against it.")
    return rows
