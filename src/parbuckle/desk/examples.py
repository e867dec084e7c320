"""The shipped cases as documents: to open the app with something in it."""

from __future__ import annotations

from importlib.resources import files

from parbuckle.desk.exchange import take_in
from parbuckle.desk.keeping import keep
from parbuckle.quantity.errors import CallError
from parbuckle.store.port import Store
from parbuckle.store.rows import Row

DEMO = ("quarry-outboard", "tidal-frame", "training-drum")
"""The three invented cases that a demonstration opens with."""


def keep_example(store: Store, name: str, who: str, kit: str | None = None) -> Row:
    """Keep a shipped case, with its kit where none is named.

    Parameters
    ----------
    store : Store
        Where.
    name : str
        One of ``DEMO``.
    who : str
        Who asked for it.
    kit : str, optional
        Id of a kit that is kept already.

    Returns
    -------
    Row
        The case.

    Raises
    ------
    CallError
        If there is no such example.
    """
    if name not in DEMO:
        raise CallError(f"there is no example '{name[:40]}'. Allowed: {', '.join(DEMO)}.")
    folder = files("parbuckle.data") / "cases"
    case, own = take_in((folder / f"{name}.toml").read_text("utf-8"), (folder / "kit.toml").read_text("utf-8"))
    if kit is None and own is not None:
        kit = keep(store, "kit", own, who, "taken from the example").id
    return keep(store, "case", case, who, f"taken from the example {name}", kit=kit)


def keep_demo(store: Store, who: str = "demo") -> tuple[Row, ...]:
    """Keep all of them with one kit, unless the store holds a case already.

    Parameters
    ----------
    store : Store
        Where.
    who : str
        Who asked for it.

    Returns
    -------
    tuple of Row
        The cases of the store.
    """
    kit: str | None = None
    for name in () if store.rows("case") else DEMO:
        kit = keep_example(store, name, who, kit).kit
    return store.rows("case")
