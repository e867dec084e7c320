"""A case file to start from: the commented starter, or a shipped example with its kit."""

from __future__ import annotations

import difflib
import tomllib
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path

from parbuckle.quantity.errors import CallError

_SUFFIX, _SEALED = ".toml", ".sealed.toml"


def new_case(out: Path, name: str | None = None) -> tuple[Path, ...]:
    """Write a new case file, and beside it the kit file that it names; never touch a file that exists.

    Parameters
    ----------
    out : Path
        The case file to write.
    name : str, optional
        Name of a shipped example; the commented starter case when left out.

    Returns
    -------
    tuple of Path
        The files written, the case first. A kit that already lies there with the same text is used as it is.

    Raises
    ------
    CallError
        If a file exists already, the folder does not, or no example has that name. Nothing is written then.

    Notes
    -----
    An example's sealed file is the instructor's and is not copied; the case works without it.
    """
    case = _example(name) if name else files("parbuckle.data").joinpath("starter.toml")
    wanted = {out: case.read_bytes()}
    if kit := tomllib.loads(wanted[out].decode()).get("kit"):
        wanted[out.parent / kit] = _cases().joinpath(kit).read_bytes()
    missing = {path: text for path, text in wanted.items() if _is_missing(path, text, out)}
    for path, text in missing.items():
        _write_new(path, text)
    return tuple(missing)


def example_names() -> tuple[str, ...]:
    """List the shipped examples.

    Returns
    -------
    tuple of str
        Names that :func:`new_case` takes, in alphabetical order.

    Examples
    --------
    >>> "first-answer" in example_names()
    True
    """
    names = [f.name for f in _cases().iterdir() if f.name.endswith(_SUFFIX) and not f.name.endswith(_SEALED)]
    return tuple(sorted(n.removesuffix(_SUFFIX) for n in names if n != "kit.toml"))


def _cases() -> Traversable:
    return files("parbuckle.data").joinpath("cases")


def _example(name: str) -> Traversable:
    names = example_names()
    if name not in names:
        near = difflib.get_close_matches(name, names, n=1)
        hint = f" Did you mean {near[0]}?" if near else ""
        raise CallError(f"There is no example {name!r}.{hint} There are: {', '.join(names)}.")
    return _cases().joinpath(name + _SUFFIX)


def _is_missing(path: Path, text: bytes, out: Path) -> bool:
    """Tell whether the file is still to be written; refuse when another one is in its place."""
    if not path.parent.is_dir():
        raise CallError(f"The folder {path.parent} does not exist. Make it first.")
    if not (path.exists() or path.is_symlink()):
        return True
    if path != out and path.is_file() and path.read_bytes() == text:
        return False
    raise CallError(f"{path} exists already and is not touched. Nothing was written. Choose another name or folder.")


def _write_new(path: Path, text: bytes) -> None:
    try:
        with path.open("xb") as file:
            file.write(text)
    except OSError as error:
        raise CallError(f"{path} cannot be written: {error.strerror}.") from None
