"""Tended lifts, all members: which form runs, in how many threads, and one member with its way."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from parbuckle.physics import balance, escape, events, hands, kernel, passing, step_cubic, ten_seconds, tended_laws
from parbuckle.physics.choose import choose, choose_one, larger, larger_one, smaller, smaller_one
from parbuckle.physics.compiled import compiled, compiled_soon, compiler_state
from parbuckle.physics.hands import PENDING
from parbuckle.physics.layout import ANSWER, BAG, BASE, FAILED, HAND, TENDER
from parbuckle.physics.ten_seconds import SLOTS
from parbuckle.physics.tended import Tended, TendedRise
from parbuckle.physics.tended_columns import answer, columns
from parbuckle.physics.tended_lockstep import lockstep
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats, Frozen

FORMS = ("lockstep", "kernel")
"""All members side by side in NumPy, or one after the other in a compiled loop. Both give the same."""

FEW = 2
"""Up to so many members the kernel runs as it is written, so that no compiler has to load."""

WORTH_COMPILING = 1024
"""Above so many members the compiler starts by itself if the kernel is not ready; for fewer, ``warm_up`` starts it."""

_BLOCK = 128  # members that one thread takes at a time
_TRACE_ROWS = 20_000
_ROWS, _ROOM = "float64[:, ::1]", "float64[:, :, ::1]"
_SIGNATURE = (
    f"void({_ROWS}, {_ROOM}, {_ROOM}, int64, int64, float64, float64, {_ROWS}, {_ROWS}, "
    f"{_ROWS}, boolean[:, ::1], {_ROWS}, {_ROOM}, {_ROWS})"
)
_PARTS: tuple[Callable[..., Any], ...] = (
    choose,
    larger,
    smaller,
    balance.interface_pressure,
    balance.gas_volume,
    balance.gas_held,
    balance.skin,
    balance.lift_left,
    balance.water_drag,
    balance.inertia,
    balance.line_pull,
    escape.escape,
    escape.escape_open,
    escape.relieved,
    tended_laws.slopes,
    tended_laws.shortened,
    tended_laws.step_size,
    step_cubic.cubic,
    step_cubic.along,
    step_cubic.landing,
    step_cubic.crossing,
    step_cubic.best_mean,
    tended_laws.advance,
    hands.seen,
    hands.notice,
    hands.warn,
    hands.next_due,
    hands._let_go,
    hands._use_dump,
    hands.act,
    hands.set_valves,
    hands.start_hands,
    hands.busy_bags,
    events.turning,
    events.speed_passes,
    events.depth_passes,
    events.first_event,
    events.tell,
    ten_seconds.start_mean,
    ten_seconds.sample,
    ten_seconds.between,
    ten_seconds.way_at,
    ten_seconds.final_mean,
    passing.gates,
    passing.swing,
    passing.fills,
    passing.line_moves,
    kernel._note,
    kernel.inputs_of,
    kernel.follow,
)
_INSTEAD: dict[str, Callable[..., Any]] = {
    "choose": choose_one,
    "larger": larger_one,
    "smaller": smaller_one,
    "skin": balance.skin_one,
    "escape": escape.escape_one,
    "escape_open": escape.escape_open_one,
    "shortened": tended_laws.shortened_one,
}
_SELDOM = (
    *(hands.notice, hands.warn, hands.next_due, hands._let_go, hands._use_dump, hands.act, hands.set_valves),
    *(hands.start_hands, hands.busy_bags, events.speed_passes, events.depth_passes, events.tell, step_cubic.landing),
    *(events.turning, events.first_event, passing.gates),
    *(ten_seconds.start_mean, ten_seconds.way_at, ten_seconds.final_mean, kernel._note, escape.relieved),
)
_APART = frozenset(part.__name__ for part in _SELDOM)


def simulate(tended: Tended, threads: int = 2, form: str | None = None, wait: bool = False) -> TendedRise:
    """Follow all members of a tended lift to their ends.

    Parameters
    ----------
    tended : Tended
        The lift.
    threads : int
        Threads of the compiled form, 1 to 64; the answer does not hang on it.
    form : str, optional
        One of ``FORMS``; when left out, the kernel: as it is written for a ``FEW`` members, compiled for more if it was
        compiled before, on this machine or in this process; otherwise lockstep, while the compiler works beside for
        more than ``WORTH_COMPILING``.
    wait : bool
        Whether to wait for the compiler.

    Returns
    -------
    TendedRise
        One column for each member.

    Raises
    ------
    RangeError
        If a member does not end, or a tender has too many actions pending.

    Notes
    -----
    Members do not see each other: order, blocks and threads change no bit, and neither does the form.
    """
    return simulate_all((tended,), threads, form, wait)[0]


def simulate_all(
    lifts: Sequence[Tended], threads: int = 2, form: str | None = None, wait: bool = False
) -> tuple[TendedRise, ...]:
    """Follow the members of several tended lifts in one run.

    Parameters
    ----------
    lifts : sequence of Tended
        With as many bags and tenders each, one step and one limit; at least one lift.
    threads : int
        As for ``simulate``.
    form : str, optional
        As for ``simulate``; the number of members is that of all lifts together.
    wait : bool
        Whether to wait for the compiler.

    Returns
    -------
    tuple of TendedRise
        The same as ``simulate`` gives for each lift.

    Raises
    ------
    RangeError
        If the lifts cannot run together, or as ``simulate``.
    """
    if form not in (None, *FORMS) or not 1 <= threads <= _MOST_THREADS:
        raise RangeError(f"given form {form!r} and {threads} threads, allowed {FORMS} and 1 to {_MOST_THREADS}")
    if len({_shape(tended) for tended in lifts}) != 1:
        raise RangeError("lifts that run together need as many bags and tenders each, one step and one limit")
    tables = [columns(tended) for tended in lifts]
    table = tables[0] if len(tables) == 1 else np.concatenate(tables, axis=1)
    bags, tenders, step, limit = _shape(lifts[0])
    out = None if form == "lockstep" else _by_kernel(lifts[0], table, threads, wait or form == "kernel")
    if out is None:
        out = lockstep(table, bags, tenders, step, limit)
    if (out[ANSWER.end] == FAILED).any():
        raise RangeError("a tended lift does not end, or its tender has too many actions pending")
    ends = np.cumsum([tended.size for tended in lifts])
    return tuple(answer(out[:, end - tended.size : end], tended) for tended, end in zip(lifts, ends, strict=True))


_MOST_THREADS = 64


def _shape(tended: Tended) -> tuple[int, int, float, float]:
    return len(tended.body.capacity), len(tended.tenders), tended.step, tended.limit


def _by_kernel(tended: Tended, table: Floats, threads: int, wait: bool) -> Floats | None:
    n = table.shape[1]
    few = n <= FEW and not wait and compiler_state() != "ready"
    run = kernel.runner(1) if few else _kernel(wait, n > WORTH_COMPILING)
    if run is None:
        return None
    bags, tenders = len(tended.body.capacity), len(tended.tenders)
    inputs = _by_member(table, bags, tenders)
    out = np.zeros((n, len(ANSWER) + 2 * bags + 2 * tenders))
    none = np.zeros((0, kernel.TRACE + bags))

    def block(first: int) -> None:
        last = min(first + _BLOCK, n)
        run(*inputs, first, last, tended.step, tended.limit, none, out, *_room(bags, tenders))

    starts = range(0, n, _BLOCK)
    if threads == 1 or n <= _BLOCK:
        for first in starts:
            block(first)
    else:
        from concurrent.futures import ThreadPoolExecutor  # here, because it takes long to load

        with ThreadPoolExecutor(threads) as pool:
            list(pool.map(block, starts))
    return np.ascontiguousarray(out.T)


def _by_member(table: Floats, bags: int, tenders: int) -> tuple[Floats, Floats, Floats]:
    """Give the inputs member by member: their own, those of their bags and of their tenders."""
    n, split = table.shape[1], len(BASE) + len(BAG) * bags
    return (
        np.ascontiguousarray(table[: len(BASE)].T),
        np.ascontiguousarray(table[len(BASE) : split].reshape(len(BAG), bags, n).transpose(2, 0, 1)),
        np.ascontiguousarray(table[split:].reshape(len(TENDER), tenders, n).transpose(2, 0, 1)),
    )


def _room(bags: int, tenders: int) -> tuple[Any, ...]:
    """Give the kernel room to work in, one for each thread."""
    return (
        np.zeros((kernel.ROOM, bags)),
        np.zeros((kernel.MARKS, bags), dtype=bool),
        np.zeros((len(HAND), tenders)),
        np.zeros((2, tenders, PENDING)),
        np.zeros((2, SLOTS)),
    )


def warm_up(wait: bool = False) -> bool:
    """Let the compiled form be made, once for this machine: beside, or while the caller waits.

    Parameters
    ----------
    wait : bool
        Whether to wait.

    Returns
    -------
    bool
        Whether the kernel is ready now.
    """
    return _kernel(wait, True) is not None


def _kernel(wait: bool, begin: bool) -> Callable[..., Any] | None:
    if wait:
        return compiled(kernel.runner, _SIGNATURE, _PARTS, _INSTEAD, _APART, alone=True)
    return compiled_soon(kernel.runner, _SIGNATURE, _PARTS, _INSTEAD, _APART, begin)


@dataclass(frozen=True)
class Way(Frozen):
    """The way of one member, step by step.

    Parameters
    ----------
    time, depth, speed : Floats
        s, m and m/s upward at the start and after each step, shape (steps,).
    open_dump : Floats
        Open dumps, m2, shape (steps,).
    push : Floats
        Force of the divers' fins, N, up positive, shape (steps,).
    event : Floats
        What happened there: a number of ``layout.EVENT``, shape (steps,).
    volumes : Floats
        Gas in each bag, m3, shape (k, steps).
    """

    time: Floats
    depth: Floats
    speed: Floats
    open_dump: Floats
    push: Floats
    event: Floats
    volumes: Floats


def way_of(tended: Tended, member: int = 0) -> Way:
    """Follow one member and keep its way.

    Parameters
    ----------
    tended : Tended
        The lift.
    member : int
        Which column.

    Returns
    -------
    Way
        Every step, up to 20,000.

    Raises
    ------
    RangeError
        If it takes more steps than are kept.

    Notes
    -----
    The kernel runs: compiled where that takes no waiting, otherwise as it is.
    """
    return ways_of(tended, (member,))[0]


def ways_of(tended: Tended, members: Sequence[int]) -> tuple[Way, ...]:
    """Follow some members and keep their ways.

    Parameters
    ----------
    tended : Tended
        The lift.
    members : sequence of int
        Which columns, at least one.

    Returns
    -------
    tuple of Way
        As ``way_of`` gives each.

    Raises
    ------
    RangeError
        If one takes more steps than are kept.
    """
    some = tended if tended.size == 1 and tuple(members) == (0,) else tended.take(np.array(members))
    bags, tenders = len(some.body.capacity), len(some.tenders)
    inputs = _by_member(columns(some), bags, tenders)
    room = _room(bags, tenders)
    out = np.zeros((some.size, len(ANSWER) + 2 * bags + 2 * tenders))
    trace = np.empty((_TRACE_ROWS, kernel.TRACE + bags))
    run = _kernel(False, False) or kernel.runner(1)
    ways = []
    for i in range(some.size):
        run(*inputs, i, i + 1, some.step, some.limit, trace, out, *room)
        steps = int(out[i, ANSWER.steps]) + 1
        if steps > _TRACE_ROWS:
            raise RangeError(f"the way has {steps} steps, {_TRACE_ROWS} can be kept")
        kept = np.ascontiguousarray(trace[:steps].T)
        t, z, r, opened, push, event = kept[: kernel.TRACE]
        ways.append(Way(t, z, r, opened, push, event, kept[kernel.TRACE :]))
    return tuple(ways)
