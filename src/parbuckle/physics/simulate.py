"""Tended lifts, all members: which form runs, in how many threads, and one member with its way."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from typing import Any

import numpy as np

from parbuckle.physics import balance, escape, events, hands, kernel, step_cubic, ten_seconds, tended_laws
from parbuckle.physics.choose import choose, choose_one, larger, larger_one, smaller, smaller_one
from parbuckle.physics.compiled import compiled, compiled_soon, compiler_state
from parbuckle.physics.layout import ANSWER, FAILED
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
_SIGNATURE = "void(float64[:, ::1], int64, int64, int64, int64, float64, float64, float64[:, ::1], float64[:, ::1])"
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
    kernel._note,
    kernel.follow,
)
_INSTEAD: dict[str, Callable[..., Any]] = {
    "choose": choose_one,
    "larger": larger_one,
    "smaller": smaller_one,
    "skin": balance.skin_one,
    "escape": escape.escape_one,
    "shortened": tended_laws.shortened_one,
}
_SELDOM = (
    *(hands.notice, hands.warn, hands.next_due, hands._let_go, hands._use_dump, hands.act, hands.set_valves),
    *(hands.start_hands, hands.busy_bags, events.speed_passes, events.depth_passes, events.tell, step_cubic.landing),
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
    if form not in (None, *FORMS) or not 1 <= threads <= _MOST_THREADS:
        raise RangeError(f"given form {form!r} and {threads} threads, allowed {FORMS} and 1 to {_MOST_THREADS}")
    table = columns(tended)
    out = None if form == "lockstep" else _by_kernel(tended, table, threads, wait or form == "kernel")
    if out is None:
        out = lockstep(table, len(tended.body.capacity), len(tended.tenders), tended.step, tended.limit)
    if (out[ANSWER.end] == FAILED).any():
        raise RangeError("a tended lift does not end, or its tender has too many actions pending")
    return answer(out, tended)


_MOST_THREADS = 64


def _by_kernel(tended: Tended, table: Floats, threads: int, wait: bool) -> Floats | None:
    few = tended.size <= FEW and not wait and compiler_state() != "ready"
    run = kernel.runner(1) if few else _kernel(wait, tended.size > WORTH_COMPILING)
    if run is None:
        return None
    n, bags, tenders = tended.size, len(tended.body.capacity), len(tended.tenders)
    rows = np.ascontiguousarray(table.T)
    out = np.zeros((n, len(ANSWER) + 2 * bags + 2 * tenders))
    none = np.zeros((0, kernel.TRACE + bags))

    def block(first: int) -> None:
        last = min(first + _BLOCK, n)
        run(rows, first, last, bags, tenders, tended.step, tended.limit, none, out)

    starts = range(0, n, _BLOCK)
    if threads == 1 or n <= _BLOCK:
        for first in starts:
            block(first)
    else:
        with ThreadPoolExecutor(threads) as pool:
            list(pool.map(block, starts))
    return np.ascontiguousarray(out.T)


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
        return compiled(kernel.runner, _SIGNATURE, _PARTS, _INSTEAD, _APART)
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
    one = tended if tended.size == 1 and member == 0 else tended.take(np.array([member]))
    bags, tenders = len(one.body.capacity), len(one.tenders)
    rows = np.ascontiguousarray(columns(one).T)
    out = np.zeros((1, len(ANSWER) + 2 * bags + 2 * tenders))
    trace = np.empty((_TRACE_ROWS, kernel.TRACE + bags))
    run = _kernel(False, False) or kernel.runner(1)
    run(rows, 0, 1, bags, tenders, one.step, one.limit, trace, out)
    steps = int(out[0, ANSWER.steps]) + 1
    if steps > _TRACE_ROWS:
        raise RangeError(f"the way has {steps} steps, {_TRACE_ROWS} can be kept")
    kept = np.ascontiguousarray(trace[:steps].T)
    t, z, r, opened, push, event = kept[: kernel.TRACE]
    return Way(t, z, r, opened, push, event, kept[kernel.TRACE :])
