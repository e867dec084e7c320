"""Where each number of a tended lift stands in the tables of the integrators.

A table is an array of plain numbers; a name here is a row of it. The compiled form reads them as constants.
"""

from __future__ import annotations

from typing import Any, NamedTuple

Inputs = Any
"""What hangs on neither bag nor tender, by field: single numbers of one member, or columns of members."""


class _BaseFields(NamedTuple):
    """Inputs of a member that are neither a bag's nor a tender's."""

    density: int = 0
    air: int = 1
    heaviness: int = 2  # M/(R T)
    jet: int = 3  # sqrt(R T/M)
    weight: int = 4
    mass: int = 5
    bag_added: int = 6
    area: int = 7
    bag_drag: int = 8
    reach: int = 9
    stiffness: int = 10  # of the line; 0 for none
    paid: int = 11
    paying: int = 12
    start: int = 13
    rise: int = 14
    surface: int = 15
    bottom: int = 16


class _BagFields(NamedTuple):
    """Inputs of a bag."""

    capacity: int = 0
    product: int = 1  # pV of its gas at the start
    over: int = 2  # pressure above the water's that it never passes; infinite where its relief valve is followed
    relief: int = 3  # pressure above the water's at which its relief valve opens
    relief_area: int = 4  # 0 where relief is at once
    head: int = 5  # pressure of the gas column under the dump for each m3 of gas
    skin: int = 6  # of the full bag


class _TenderFields(NamedTuple):
    """Inputs of a tender."""

    bag: int = 0
    delay: int = 1
    vent_above: int = 2
    vent_until: int = 3
    add_below: int = 4
    add_until: int = 5
    ceiling: int = 6
    dump: int = 7
    pull: int = 8  # infinite where the dump stays open until it is slow
    watch: int = 9
    gas: int = 10
    thrust: int = 11
    marks: int = 12
    unanswered: int = 13


class _HandFields(NamedTuple):
    """State of a tender on the way."""

    mood: int = 0  # what he sees: -1 too fast, 0 well, 1 too slow
    wants: int = 1  # what his hands do now, one delay later
    valve: int = 2
    shut: int = 3  # time at which the pull ends
    look: int = 4  # time at which the watch ends
    go: int = 5  # time at which he lets go
    left: int = 6  # time at which he did
    misses: int = 7
    pulls: int = 8
    pull_speed: int = 9
    mark: int = 10  # last depth that he counted, and when
    mark_time: int = 11
    head: int = 12  # first pending action, and how many there are
    waiting: int = 13


class _AnswerFields(NamedTuple):
    """Answers of a member; after them two for each bag (gas, over-pressure), two for each tender (pulls, let go)."""

    end: int = 0
    time: int = 1
    speed: int = 2
    max_speed: int = 3
    max_mean: int = 4
    min_depth: int = 5
    end_depth: int = 6
    spilled: int = 7
    vented: int = 8
    added: int = 9
    tension: int = 10
    steps: int = 11


class _Events(NamedTuple):
    """What can happen inside a step; the first two are ends."""

    nothing: int = 0
    surface: int = 1
    bottom: int = 2
    turn: int = 3  # from rising to sinking or back
    brim: int = 4  # a bag becomes full
    fast: int = 5
    well: int = 6
    slow: int = 7
    ceiling: int = 8
    counted: int = 9  # a depth mark passes
    line: int = 10  # the line comes tight or slack


BASE, BAG, TENDER, HAND, ANSWER, EVENT = (
    _BaseFields(),
    _BagFields(),
    _TenderFields(),
    _HandFields(),
    _AnswerFields(),
    _Events(),
)

FAILED = -1.0
"""End of a member that took too many steps, or whose tender had too many actions pending."""

STAYS, OUT_OF_TIME = 0.0, 3.0
"""End of a member that never left the bottom, and of one still on its way; the others are events."""

MOST_STEPS = 400_000
"""Steps after which a member is given up and its answer refused."""
