"""What is kept: a document as it was written, and the steps that made it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

Kind = Literal["case", "kit"]

KINDS: tuple[Kind, ...] = ("case", "kit")
"""What a kept document can be."""


@dataclass(frozen=True, slots=True)
class Row:
    """One kept document.

    Parameters
    ----------
    id : str
        Its own id.
    kind : str
        One of ``KINDS``.
    title : str
        What it is called in a list.
    document : Mapping
        The tree as it was written: objects, lists, texts, numbers, truths. It may hold values that are wrong.
    revision : int
        Number of its last step, from 1.
    changed_at : str
        Time of the last step, ISO 8601 in UTC.
    kit : str or None
        Id of the kit of a case.
    parent : str or None
        Id of the case that this one is a variant of.
    variant : str or None
        What the variant is called.
    """

    id: str
    kind: Kind
    title: str
    document: Mapping[str, Any]
    revision: int = 1
    changed_at: str = ""
    kit: str | None = None
    parent: str | None = None
    variant: str | None = None


@dataclass(frozen=True, slots=True)
class Step:
    """One step of a document's history; it is never altered.

    Parameters
    ----------
    at : str
        Time, ISO 8601 in UTC.
    who : str
        Who made it.
    what : str
        What was done, in one sentence.
    changes : tuple of Mapping
        What was changed, in order.
    inverse : tuple of Mapping
        What takes it back, in order.
    gesture : str or None
        Steps of one gesture, one after another, are taken back together.
    back : str
        ``undo`` or ``redo`` where the step takes others back or does them again; otherwise empty.
    number : int
        The revision that it made; the store gives it.
    """

    at: str
    who: str
    what: str
    changes: tuple[Mapping[str, Any], ...] = ()
    inverse: tuple[Mapping[str, Any], ...] = ()
    gesture: str | None = None
    back: Literal["", "undo", "redo"] = ""
    number: int = field(default=0)
