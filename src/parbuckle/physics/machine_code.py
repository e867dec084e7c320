"""Compiled loops kept on disk as machine code, and called without the compiler that made them.

The code of one function that takes numbers and arrays, gives nothing back and asks for no memory. It needs only the
small library under the compiler, which loads in a few hundredths of a second. What is kept belongs to one digest of the
sources, one processor and one version of that library; anything else on disk is not looked at.
"""

from __future__ import annotations

import contextlib
import ctypes
import hashlib
import importlib
import importlib.util
import json
import os
import re
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np

_SUFFIX = ".kept"
_NUMBERS = {"float64": (ctypes.c_double, np.float64), "int64": (ctypes.c_int64, np.int64), "boolean": (None, np.bool_)}
_ARGUMENT = re.compile(r"(float64|int64|boolean)(\[[^\]]*\])?")
_WHOLE = re.compile(r"void\((.*)\)")
_ALWAYS = ("memset", "memcpy", "memmove", "cbrt", "sqrt")  # what a compiler may call by itself


class MachineCode:
    """A loaded function.

    Parameters
    ----------
    address : int
        Where it stands.
    signature : str
        Types of the arguments as Numba writes them.
    engine : Any
        What holds the code in memory.
    """

    def __init__(self, address: int, signature: str, engine: Any) -> None:
        self._engine, self._kinds = engine, kinds(signature)
        types: list[Any] = [ctypes.c_void_p, ctypes.c_void_p]  # for what it gives back, and for errors: not used
        for number, axes in self._kinds:
            if axes:  # owner, parent, items, size of one, address, shape, strides
                types += [ctypes.c_void_p, ctypes.c_void_p, ctypes.c_int64, ctypes.c_int64, ctypes.c_void_p]
                types += [ctypes.c_int64] * (2 * axes)
            else:
                types.append(_NUMBERS[number][0])
        self._call = ctypes.CFUNCTYPE(ctypes.c_int32, *types)(address)

    def __call__(self, *arguments: Any) -> None:
        """Call it; other threads go on meanwhile."""
        told: list[Any] = []
        for (number, axes), value in zip(self._kinds, arguments, strict=True):
            if axes:
                if value.dtype != _NUMBERS[number][1] or value.ndim != axes or not value.flags.carray:
                    raise TypeError(f"expected an array of {number} with {axes} axes, writable and without gaps")
                told += [None, None, value.size, value.itemsize, value.ctypes.data, *value.shape, *value.strides]
            else:
                told.append(value)
        spare = (ctypes.c_void_p * 2)()
        self._call(ctypes.addressof(spare), ctypes.addressof(spare) + ctypes.sizeof(ctypes.c_void_p), *told)


def kinds(signature: str) -> list[tuple[str, int]]:
    """Give kind and number of axes of each argument.

    Parameters
    ----------
    signature : str
        As Numba writes it.

    Returns
    -------
    list of (str, int)
        Axes are 0 for a number.

    Raises
    ------
    ValueError
        For a function that gives something back, or an argument of another kind.

    Examples
    --------
    >>> kinds("void(float64[:, ::1], int64)")
    [('float64', 2), ('int64', 0)]
    """
    whole = _WHOLE.fullmatch(signature)
    found = _ARGUMENT.findall(whole[1]) if whole else []
    if whole is None or ", ".join("".join(one) for one in found) != whole[1]:
        raise ValueError(f"not known: {signature}")
    return [(number, axes.count(":") - axes.count("::")) for number, axes in found]


def versions() -> str | None:
    """Name the compiler and the library under it, without loading the compiler.

    Returns
    -------
    str or None
        None without one of the two.
    """
    spec = importlib.util.find_spec("numba")
    if spec is None or spec.origin is None or importlib.util.find_spec("llvmlite") is None:
        return None
    told = Path(spec.origin).with_name("_version.py")
    return f"{told.read_text('utf-8') if told.is_file() else spec.origin} {sys.version}"


def load(name: str, source: str, digest: int, signature: str) -> MachineCode | None:
    """Load a function that was kept.

    Parameters
    ----------
    name : str
        Of the function.
    source : str
        File in which it stands.
    digest : int
        Of all sources.
    signature : str
        Types of its arguments.

    Returns
    -------
    MachineCode or None
        None where nothing fitting is kept, or it does not load.
    """
    for folder in _folders(source):
        with contextlib.suppress(OSError, ValueError, KeyError, RuntimeError, ImportError):
            told = (folder / _file_name(name, digest, signature)).read_bytes()
            mark, head, code = told.split(b"\n", 2)
            if mark == _mark(head + code):
                return _loaded(json.loads(head), code, signature)
    return None


def make(
    numba: Any, function: Callable[..., Any], options: dict[str, Any], digest: int, source: str, signature: str
) -> MachineCode | None:
    """Compile a function to machine code, keep that where a folder can be written, and load it.

    Parameters
    ----------
    numba : Any
        The compiler.
    function : callable
        What is compiled.
    options : dict
        Options of the compiler.
    digest : int
        Of all sources.
    source : str
        File in which it stands.
    signature : str
        Types of its arguments.

    Returns
    -------
    MachineCode or None
        None where this form cannot be had here.
    """
    try:
        kinds(signature)
        told = next(iter(numba.njit(signature, **options)(function).overloads.values()))
        code, module = told.library._get_compiled_object(), told.library._final_module
        needs = sorted(f.name for f in module.functions if f.is_declaration and not f.name.startswith("llvm."))
        head = {"symbol": told.fndesc.llvm_func_name, "needs": needs}
        made = _loaded(head, code, signature)
    except (AttributeError, ValueError, RuntimeError, StopIteration):
        return None
    _write(_file_name(function.__name__, digest, signature), source, json.dumps(head).encode(), code)
    return made


def _loaded(head: dict[str, Any], code: bytes, signature: str) -> MachineCode:
    """Put code into memory, after a look whether all that it calls is there: the library would end the process."""
    llvm = importlib.import_module("llvmlite.binding")
    llvm.initialize_native_target()
    llvm.initialize_native_asmprinter()
    machine = llvm.Target.from_default_triple().create_target_machine(jit=True)
    engine = llvm.create_mcjit_compiler(llvm.parse_assembly(""), machine)
    if any(llvm.address_of_symbol(name) is None for name in (*head["needs"], *_ALWAYS)):
        raise RuntimeError("the code calls something that is not there")
    engine.add_object_file(llvm.ObjectFileRef.from_data(code))
    engine.finalize_object()
    return MachineCode(engine.get_function_address(head["symbol"]), signature, engine)


def _file_name(name: str, digest: int, signature: str) -> str:
    llvm = importlib.import_module("llvmlite.binding")
    processor = f"{llvm.get_process_triple()} {llvm.get_host_cpu_name()} {llvm.get_host_cpu_features().flatten()}"
    told = f"{digest} {signature} {processor} {importlib.import_module('llvmlite').__version__}"
    return f"{name}-{hashlib.blake2b(told.encode(), digest_size=12).hexdigest()}{_SUFFIX}"


def _mark(content: bytes) -> bytes:
    return hashlib.blake2b(content, digest_size=16).hexdigest().encode()


def _folders(source: str) -> list[Path]:
    """Give the places where it may be kept: beside Python's own compiled files, or in the home of the user."""
    places = [Path(importlib.util.cache_from_source(source)).parent]
    with contextlib.suppress(RuntimeError):  # nobody's home
        places.append(Path.home() / ".cache" / "parbuckle")
    return places


def _write(file_name: str, source: str, head: bytes, code: bytes) -> None:
    for folder in _folders(source):
        try:
            folder.mkdir(parents=True, exist_ok=True)
            half = folder / f"{file_name}.{os.getpid()}"
            half.write_bytes(_mark(head + code) + b"\n" + head + b"\n" + code)
            half.replace(folder / file_name)
        except OSError:
            continue
        return
