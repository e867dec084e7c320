"""The port: all that the desk asks of a store, and the errors that a store gives back."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Protocol

from parbuckle.quantity.errors import ParbuckleError
from parbuckle.store.rows import Kind, Row, Step


class NotKeptError(ParbuckleError):
    """No document with this id is kept."""


class StaleError(ParbuckleError):
    """Somebody else changed the document first: it is at another revision now."""


class Store(Protocol):
    """Keeps documents and their steps. Every method is whole or not at all, and several threads may call at once."""

    def add(self, row: Row, step: Step) -> Row:
        """Keep a new document with its first step.

        Parameters
        ----------
        row : Row
            The document; revision 1.
        step : Step
            How it came to be.

        Returns
        -------
        Row
            As it is kept.
        """

    def get(self, kind: Kind, key: str) -> Row:
        """Give a document.

        Parameters
        ----------
        kind : str
            ``case`` or ``kit``.
        key : str
            Its id.

        Returns
        -------
        Row
            At its last revision.

        Raises
        ------
        NotKeptError
            If there is none, or it was taken out of the list.
        """

    def rows(self, kind: Kind) -> tuple[Row, ...]:
        """Give all documents of a kind, the one changed last first.

        Parameters
        ----------
        kind : str
            ``case`` or ``kit``.

        Returns
        -------
        tuple of Row
            Without those taken out of the list.
        """

    def put(self, row: Row, step: Step) -> Row:
        """Keep the next revision of a document.

        Parameters
        ----------
        row : Row
            With the new document and title, and the revision that it was made from.
        step : Step
            What was done.

        Returns
        -------
        Row
            With the next revision.

        Raises
        ------
        StaleError
            If the kept document is not at ``row.revision`` any more; nothing is kept then.
        NotKeptError
            If there is none.
        """

    def steps(self, key: str, after: int = 0) -> tuple[Step, ...]:
        """Give the history of a document.

        Parameters
        ----------
        key : str
            Its id.
        after : int
            Only steps with a greater number.

        Returns
        -------
        tuple of Step
            The oldest first.
        """

    def take_out(self, kind: Kind, key: str) -> None:
        """Take a document out of the list; it stays in the store with its history.

        Parameters
        ----------
        kind : str
            ``case`` or ``kit``.
        key : str
            Its id.

        Raises
        ------
        NotKeptError
            If there is none.
        """

    def close(self) -> None:
        """Let go of files and connections."""


def plain(document: Mapping[str, Any]) -> dict[str, Any]:
    """Give a document as a tree of its own, with nothing in it that JSON cannot hold.

    Parameters
    ----------
    document : Mapping
        The tree.

    Returns
    -------
    dict
        Objects and lists copied.

    Raises
    ------
    ValueError
        If it holds a number that is not finite.
    TypeError
        If it holds what JSON cannot write.
    """
    import json

    tree: dict[str, Any] = json.loads(json.dumps(document, allow_nan=False))
    return tree
