"""What can be taken back: found from the steps of a document alone, so that it is the same after a restart."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from parbuckle.desk.changes import Change
from parbuckle.store.rows import Step


@dataclass(frozen=True, slots=True)
class Reach:
    """What undo and redo would do now.

    Parameters
    ----------
    undo, redo : tuple of Step
        The steps of one gesture that would be taken back or done again, in the order in which they were made.
    """

    undo: tuple[Step, ...]
    redo: tuple[Step, ...]


def reach(steps: Iterable[Step]) -> Reach:
    """Find what undo and redo would do.

    Parameters
    ----------
    steps : iterable of Step
        The whole history, the oldest first. The first step makes the document and cannot be taken back.

    Returns
    -------
    Reach
        Empty where there is nothing.
    """
    done, undone = _walk(steps)
    return Reach(tuple(done[-1]) if done else (), tuple(undone[-1]) if undone else ())


def stands_taken_back(steps: Iterable[Step]) -> frozenset[int]:
    """Find the steps that were taken back and not done again.

    Parameters
    ----------
    steps : iterable of Step
        The whole history, the oldest first.

    Returns
    -------
    frozenset of int
        Their numbers. Those that can no more be done again, because something else was done, are among them.
    """
    told = tuple(steps)
    done, _ = _walk(told)
    standing = {step.number for gesture in done for step in gesture}
    return frozenset(step.number for step in told if step.changes and not step.back and step.number not in standing)


def _walk(steps: Iterable[Step]) -> tuple[list[list[Step]], list[list[Step]]]:
    """Follow a history: the gestures that stand, and those that could be done again."""
    done: list[list[Step]] = []
    undone: list[list[Step]] = []
    for step in steps:
        if step.back == "undo":
            undone.append(done.pop())
        elif step.back == "redo":
            done.append(undone.pop())
        elif step.changes:
            undone.clear()
            _join(done, step)
    return done, undone


def taken_back(steps: Sequence[Step]) -> tuple[Change, ...]:
    """Give the changes that take steps back.

    Parameters
    ----------
    steps : sequence of Step
        In the order in which they were made.

    Returns
    -------
    tuple of Mapping
        In the order to make them.
    """
    return tuple(one for step in reversed(steps) for one in step.inverse)


def done_again(steps: Sequence[Step]) -> tuple[Change, ...]:
    """Give the changes that do steps again.

    Parameters
    ----------
    steps : sequence of Step
        In the order in which they were made.

    Returns
    -------
    tuple of Mapping
        In the order to make them.
    """
    return tuple(one for step in steps for one in step.changes)


def _join(done: list[list[Step]], step: Step) -> None:
    last = done[-1][-1] if done else None
    same = last is not None and step.gesture and (step.gesture, step.who) == (last.gesture, last.who)
    if same and last is not None and last.number == step.number - 1:
        done[-1].append(step)
    else:
        done.append([step])
