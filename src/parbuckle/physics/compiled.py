"""The one door to the compiler: gives a function compiled where that can be had, and as it is where not.

Numba is asked for by name and may be missing. What it made is kept on disk where a folder can be written; where none
can, it is made anew in each process. Nothing is read from the environment and no global switch is touched.
"""

from __future__ import annotations

import hashlib
import importlib
import inspect
from collections.abc import Callable, Iterable
from pathlib import Path
from threading import Lock, Thread
from types import FunctionType
from typing import Any

from parbuckle.physics import machine_code

_OPTIONS = {"nogil": True, "error_model": "numpy", "forceinline": True}  # no fast arithmetic: equal bits are promised
_BARE = {"no_cpython_wrapper": True, "no_cfunc_wrapper": True}  # nobody else calls a part
_INNER = {**_OPTIONS, **_BARE, "_nrt": False}  # parts make no arrays and keep none, so none is counted
_APART = {**_INNER, "forceinline": False}
_lock = Lock()
_made: dict[str, Callable[..., Any] | None] = {}
_working: dict[str, Thread] = {}

STATES = ("none", "working", "ready")
"""Nothing compiled (not asked for, or it cannot be); the compiler works beside; something compiled can be called."""


def can_compile() -> bool:
    """Tell whether the compiler can be had.

    Returns
    -------
    bool
        False where it is not installed, or does not load.
    """
    return _compiler() is not None


def compiled(
    entry: Callable[..., Any],
    signature: str,
    parts: Iterable[Callable[..., Any]],
    instead: dict[str, Callable[..., Any]] | None = None,
    apart: frozenset[str] = frozenset(),
    alone: bool = False,
) -> Callable[..., Any] | None:
    """Give a function compiled for one signature, with all that it calls.

    The name space of each function is copied with the compiled parts in it; the functions themselves stay as they are.
    What is kept on disk belongs to the digest of all sources in it, so a change in a part is seen.

    Parameters
    ----------
    entry : callable
        Takes the digest of the sources as a number and gives the function that is called from outside, which closes
        over it and uses it: what is kept on disk is found by such numbers.
    signature : str
        Types of the arguments as Numba writes them.
    parts : iterable of callable
        Functions that it calls, each after those that it calls itself.
    instead : dict, optional
        By name: a function for single numbers that takes the place of a part, with the same value.
    apart : frozenset of str
        Names of parts that are seldom called: they are made once and not written into those that call them, so that
        the compiler has less to do.
    alone : bool
        True for a function that gives nothing back and makes no arrays: it is kept as machine code, which a later
        process calls without the compiler.

    Returns
    -------
    callable or None
        None without a compiler.

    Notes
    -----
    Source: own work, after the documentation of Numba (jit, caching).
    """
    key = _key(entry)
    with _lock:
        if key not in _made:
            few, other = tuple(parts), instead or {}
            found = _kept(entry, signature, few, other) if alone else None
            numba = None if found else _compiler()
            _made[key] = found if numba is None else _make(numba, entry, signature, few, other, apart, alone)
        return _made[key]


def compiled_soon(
    entry: Callable[..., Any],
    signature: str,
    parts: Iterable[Callable[..., Any]],
    instead: dict[str, Callable[..., Any]] | None = None,
    apart: frozenset[str] = frozenset(),
    begin: bool = True,
) -> Callable[..., Any] | None:
    """Give a function compiled if that takes no waiting; otherwise let the compiler start beside, in a thread.

    No waiting is: it was compiled in this process, or it is kept on disk.

    Parameters
    ----------
    entry, signature, parts, instead, apart : Callable
        The same as for ``compiled``.
    begin : bool
        Whether the compiler may start.

    Returns
    -------
    callable or None
        None while the compiler works, and without one.

    Notes
    -----
    The thread ends with the process. Source: own work.
    """
    key, few = _key(entry), tuple(parts)
    if key in _made:
        return _made[key]
    at_work = _working.get(key)
    if at_work is not None and at_work.is_alive():
        return None
    with _lock:
        found = _kept(entry, signature, few, instead or {})
        if found is not None:
            _made[key] = found
            return found
    if not begin or not can_compile():
        return None
    told = (entry, signature, few, instead, apart, True)
    _working[key] = Thread(target=compiled, args=told, daemon=True, name=f"compile {key}")
    _working[key].start()
    return None


def compiler_state() -> str:
    """Tell how far the compiler is.

    Returns
    -------
    str
        One of ``STATES``.

    Examples
    --------
    >>> compiler_state() in STATES
    True
    """
    if any(thread.is_alive() for thread in _working.values()):
        return "working"
    return "ready" if any(made is not None for made in _made.values()) else "none"


def _key(entry: Callable[..., Any]) -> str:
    return f"{entry.__module__}.{entry.__qualname__}"


def _compiler() -> Any:
    try:
        return importlib.import_module("numba")
    except ImportError:
        return None


def _make(
    numba: Any,
    entry: Callable[..., Any],
    signature: str,
    parts: tuple[Callable[..., Any], ...],
    instead: dict[str, Callable[..., Any]],
    apart: frozenset[str],
    alone: bool,
) -> Callable[..., Any]:
    digest = _digest((entry, *parts, *instead.values()))
    outer = _outer(numba, entry, parts, instead, apart, digest)
    if alone:
        options, source = {**_INNER, "forceinline": False}, inspect.getfile(entry)
        made = machine_code.make(numba, outer, options, digest, source, signature)
        if made is not None:
            return made
    try:
        kept: Callable[..., Any] = numba.njit(signature, cache=True, **_OPTIONS)(outer)
    except (RuntimeError, OSError):  # no folder can be written
        kept = numba.njit(signature, **_OPTIONS)(outer)
    return kept


def _kept(
    entry: Callable[..., Any], signature: str, parts: tuple[Callable[..., Any], ...], instead: dict[str, Any]
) -> Callable[..., Any] | None:
    """Give the machine code of an earlier process, if there is any."""
    if machine_code.versions() is None:
        return None
    digest = _digest((entry, *parts, *instead.values()))
    return machine_code.load(entry(digest).__name__, inspect.getfile(entry), digest, signature)


def _outer(
    numba: Any,
    entry: Callable[..., Any],
    parts: tuple[Callable[..., Any], ...],
    instead: dict[str, Callable[..., Any]],
    apart: frozenset[str],
    digest: int,
) -> FunctionType:
    """Give the outermost function with its parts ready to be compiled; nothing is compiled here."""
    known: dict[str, Any] = {}
    for part in parts:
        source = instead.get(part.__name__, part)
        how = _APART if part.__name__ in apart else _INNER
        known[part.__name__] = numba.njit(**how)(_with(source, known))
    return _with(entry(digest), known)


def _with(function: Callable[..., Any], known: dict[str, Any]) -> FunctionType:
    """Copy a function with the compiled parts in its name space."""
    assert isinstance(function, FunctionType)
    scope = {**function.__globals__, **known}
    copy = FunctionType(function.__code__, scope, function.__name__, None, function.__closure__)
    copy.__module__ = function.__module__
    copy.__qualname__ = function.__qualname__
    return copy


def _digest(functions: tuple[Callable[..., Any], ...]) -> int:
    """Number that changes with any source that is compiled, and with any constant that it reads from elsewhere."""
    mixed = hashlib.blake2b(str(machine_code.versions()).encode(), digest_size=7)
    for name in sorted({inspect.getfile(f) for f in functions} | {__file__, machine_code.__file__}):
        mixed.update(Path(name).read_bytes())
    for function in functions:
        assert isinstance(function, FunctionType)
        for name in function.__code__.co_names:
            value = function.__globals__.get(name)
            if isinstance(value, (bool, int, float, str, tuple)):
                mixed.update(f"{name} = {value!r}".encode())
    return int.from_bytes(mixed.digest(), "little")
