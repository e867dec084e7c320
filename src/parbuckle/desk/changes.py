"""Changes of a written document: made, taken back, and held against those of somebody else."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from copy import deepcopy
from typing import Any

from parbuckle.quantity.errors import CallError

Change = Mapping[str, Any]
Place = tuple[str | int, ...]

OPERATIONS = ("set", "remove", "insert", "move")
"""What a change can do. ``set`` and ``remove`` a key or a row; ``insert`` a row before an index; ``move`` a row."""

_MOST_DEEP = 12
_MOST_ROWS = 500


def change(document: Mapping[str, Any], changes: Iterable[Change]) -> tuple[dict[str, Any], tuple[Change, ...]]:
    """Make changes in a copy of a document.

    Parameters
    ----------
    document : Mapping
        The tree as it was written; it stays as it is.
    changes : iterable of Mapping
        Each ``{op, path, value}``, or ``{op: "move", path, to}``; a path holds keys and indices from 0. ``set`` makes
        the tables that are missing on the way.

    Returns
    -------
    tuple
        The changed tree, and the changes that take them back, in the order to make them.

    Raises
    ------
    CallError
        If a change cannot be read or its place is not there.

    Examples
    --------
    >>> tree, back = change({"object": {}}, [{"op": "set", "path": ["object", "name"], "value": "anchor"}])
    >>> tree
    {'object': {'name': 'anchor'}}
    >>> change(tree, back)[0]
    {'object': {}}
    """
    tree = deepcopy(dict(document))
    back: list[Change] = []
    for one in changes:
        op, path = _read(one)
        back.extend(_DOES[op](tree, path, one))
    return tree, tuple(reversed(back))


def clash(mine: Iterable[Change], theirs: Iterable[Change]) -> Place | None:
    """Find where changes of two people meet: at one place, one inside the other, or in a list whose rows moved.

    Parameters
    ----------
    mine, theirs : iterable of Mapping
        Changes that were both made on the same document.

    Returns
    -------
    tuple or None
        The place of theirs; None when both can stand.

    Examples
    --------
    >>> a = {"op": "set", "path": ["site", "depth"], "value": "16 m"}
    >>> clash([a], [{"op": "set", "path": ["site", "depth"], "value": "17 m"}])
    ('site', 'depth')
    >>> clash([a], [{"op": "set", "path": ["site", "bottom"], "value": "mud"}]) is None
    True
    """
    places = [_touched(one) for one in mine]
    for one in theirs:
        there = _touched(one)
        if any(here[: len(there)] == there or there[: len(here)] == here for here in places):
            return _read(one)[1]
    return None


def value_at(document: Mapping[str, Any], path: Sequence[str | int]) -> Any:
    """Give what stands at a place.

    Parameters
    ----------
    document : Mapping
        The tree.
    path : sequence
        Keys and indices from 0.

    Returns
    -------
    Any
        None where nothing stands.
    """
    here: Any = document
    for step in path:
        if not _is_there(here, step):
            return None
        here = here[step]
    return here


def _read(one: Change) -> tuple[str, Place]:
    op, path = one.get("op"), one.get("path")
    if op not in OPERATIONS:
        raise CallError(f"a change cannot do '{str(op)[:40]}'. Allowed: {', '.join(OPERATIONS)}.")
    steps = path if isinstance(path, (list, tuple)) else ()
    fits = all(isinstance(step, str) or (_whole(step) and step >= 0) for step in steps)
    if not steps or len(steps) > _MOST_DEEP or not fits or not isinstance(steps[0], str):
        raise CallError(f"a change needs a path of 1 to {_MOST_DEEP} keys and row numbers, beginning with a key.")
    if op in ("set", "insert") and "value" not in one:
        raise CallError(f"a change that does '{op}' needs a value.")
    return op, tuple(steps)


def _whole(step: object) -> bool:
    return isinstance(step, int) and not isinstance(step, bool)


def _touched(one: Change) -> Place:
    """The place that a change alters: for rows that come, go or move, the whole list."""
    op, path = _read(one)
    shifts = op in ("insert", "move") or (op == "remove" and isinstance(path[-1], int))
    return path[:-1] if shifts else path


def _set(tree: dict[str, Any], path: Place, one: Change) -> list[Change]:
    here: Any = tree
    made: Place = ()
    for depth, step in enumerate(path[:-1], 1):
        if isinstance(here, dict) and isinstance(step, str) and step not in here:
            here[step] = {}
            made = made or path[:depth]
        here = _into(here, step, path)
    last = path[-1]
    there = _is_there(here, last)
    if not there and not (isinstance(last, str) and isinstance(here, dict)):
        raise _nowhere(path)
    old = here[last] if there else None
    here[last] = deepcopy(one["value"])
    if there:
        return [{"op": "set", "path": list(path), "value": old}]
    return [{"op": "remove", "path": list(made or path)}]


def _remove(tree: dict[str, Any], path: Place, one: Change) -> list[Change]:
    here = _table(tree, path)
    if not _is_there(here, path[-1]):
        raise _nowhere(path)
    old = here.pop(path[-1])
    return [{"op": "insert" if isinstance(path[-1], int) else "set", "path": list(path), "value": old}]


def _insert(tree: dict[str, Any], path: Place, one: Change) -> list[Change]:
    at = path[-1]
    if at == 0 and value_at(tree, path[:-1]) is None:  # the first row makes its list
        return _set(tree, path[:-1], {"value": [one["value"]]})
    rows = _rows(tree, path)
    if not isinstance(at, int) or at > len(rows) or len(rows) >= _MOST_ROWS:
        raise _nowhere(path)
    rows.insert(at, deepcopy(one["value"]))
    return [{"op": "remove", "path": list(path)}]


def _move(tree: dict[str, Any], path: Place, one: Change) -> list[Change]:
    rows, at, to = _rows(tree, path), path[-1], one.get("to")
    if not isinstance(at, int) or not _whole(to) or not (0 <= at < len(rows) and 0 <= int(to or 0) < len(rows)):
        raise _nowhere(path)
    rows.insert(int(to or 0), rows.pop(at))
    return [{"op": "move", "path": [*path[:-1], int(to or 0)], "to": at}]


def _table(tree: dict[str, Any], path: Place) -> Any:
    here: Any = tree
    for step in path[:-1]:
        here = _into(here, step, path)
    return here


def _rows(tree: dict[str, Any], path: Place) -> list[Any]:
    here = _table(tree, path)
    if not isinstance(here, list):
        raise _nowhere(path)
    return here


def _into(here: Any, step: str | int, path: Place) -> Any:
    if not _is_there(here, step):
        raise _nowhere(path)
    return here[step]


def _is_there(here: Any, step: str | int) -> bool:
    if isinstance(step, str):
        return isinstance(here, dict) and step in here
    return isinstance(here, list) and 0 <= step < len(here)


def _nowhere(path: Place) -> CallError:
    return CallError(f"there is no such place in the document: {'.'.join(str(step) for step in path)}")


_DOES = {"set": _set, "remove": _remove, "insert": _insert, "move": _move}
