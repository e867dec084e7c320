"""From the tasks of a case to tasks of the dive stage: times, long ends, who is needed, how deep."""

from __future__ import annotations

import numpy as np

from parbuckle.case.diving import Dive
from parbuckle.case.diving import Task as CaseTask
from parbuckle.dive.problem import Task
from parbuckle.plan.asking import Asking
from parbuckle.plan.stages import Stages
from parbuckle.quantity.band import HIGH, LOW, at_share
from parbuckle.quantity.errors import CaseError
from parbuckle.quantity.frozen import Floats


def dive_tasks(
    stages: Stages, asking: Asking, place: int, dive: Dive, depth: Floats, filling: float
) -> tuple[Task, ...]:
    """Give the tasks of one dive.

    Parameters
    ----------
    stages : Stages
        Case, site and house.
    asking : Asking
        Where inputs are drawn and noted.
    place : int
        Place of the dive in the case, from 0.
    dive : Dive
        The dive.
    depth : Floats
        Depth to the bottom at that time, m, shape (n,).
    filling : float
        Counted seconds of filling by the lift plan; a task that fills takes at least so long.

    Returns
    -------
    tuple of Task
        In order.

    Raises
    ------
    CaseError
        If a task is deeper than the bottom, or somebody is in two places.
    """
    cold = at_share(stages.site.temperature, LOW) < stages.house["cold"]
    slow = stages.house["cold_factor"] if cold else 1.0
    rows: list[Task] = []
    for number, told in enumerate(dive.tasks, start=1):
        key = f"dive[{place + 1}].tasks[{number}]"
        _check(told, rows, key)
        path = f"dive.{place + 1}.{told.do}.{number}"
        given = told.time or (stages.case.search.minutes if told.do.lower().startswith("search") else None)
        if given is None:
            asking.lacks(f"{key}.time", "dive", f"How long '{told.do}' takes is not told.")
        known = asking.known(f"{path}.time", given, "task_time")
        time = np.maximum(asking.ensemble.draw(f"{path}.time", known), filling if _fills(told) else 0.0)
        longest = max(known.high * (slow if told.effort == "work" else 1.0), at_share(time, HIGH))
        here = depth.copy() if told.depth is None else asking.ensemble.draw(f"{path}.depth", told.depth)
        if told.depth is not None and told.depth.low > at_share(depth, HIGH):
            raise CaseError(
                f"'{told.do}' lies deeper than the bottom",
                key=f"{key}.depth",
                given=told.depth.text,
                allowed=f"down to {at_share(depth, HIGH):.1f} m at that time",
                do="correct the depth of the task or of the site",
            )
        by = tuple(dict.fromkeys([*told.by, *([told.check] if told.check and told.by else [])]))
        rows.append(Task(told.do, by, time, longest, told.effort, here, told.meanwhile))
    return tuple(rows)


def _check(told: CaseTask, before: list[Task], key: str) -> None:
    """Somebody cannot do two tasks at the same time."""
    if not told.meanwhile:
        return
    if not before:
        do = "take meanwhile out of it"
        raise CaseError("the first task has no task before it", key=f"{key}.meanwhile", given="true", do=do)
    beside = [before[-1]]
    for task in reversed(before[:-1]):
        if not beside[-1].meanwhile:
            break
        beside.append(task)
    mine = {*told.by, *([told.check] if told.check else [])}
    twice = sorted(name for name in mine if any(name in task.by for task in beside))
    if twice or not mine or any(not task.by for task in beside):
        raise CaseError(
            f"{', '.join(twice) or 'the whole team'} would be in two places at once",
            key=f"{key}.by",
            given=told.do,
            allowed="other people than those of the task that is done meanwhile",
            do="give it to somebody else, or do one after the other",
        )


def _fills(told: CaseTask) -> bool:
    return any(word.startswith("fill") for word in told.do.lower().replace(",", " ").split())
