"""Guard: a docstring is a contract, so it is held against the signature, for the whole package."""

from __future__ import annotations

import importlib
import pkgutil
import sys
from types import ModuleType

import pytest
from pydantic import BaseModel

import parbuckle
from guard.contract import broken_contracts, undescribed_fields

NAMES = sorted(
    m.name for m in pkgutil.walk_packages(parbuckle.__path__, "parbuckle.") if not m.name.endswith("__main__")
)


@pytest.mark.parametrize("module", NAMES)
def test_documentation_is_the_signature(module: str) -> None:
    assert not broken_contracts(importlib.import_module(module))


@pytest.mark.parametrize("module", [n for n in NAMES if n.startswith("parbuckle.case.")])
def test_every_key_of_a_case_is_described(module: str) -> None:
    things = vars(importlib.import_module(module)).values()
    models = [t for t in things if isinstance(t, type) and issubclass(t, BaseModel) and t.__module__ == module]
    assert not [field for model in models for field in undescribed_fields(model)]


def planted(source: str) -> list[str]:
    module = sys.modules["planted"] = ModuleType("planted", "A planted module.")
    exec("from __future__ import annotations\nfrom dataclasses import dataclass\n" + source, vars(module))
    return broken_contracts(module)


GOOD = '''
def f(a: int, *rest: int, b: int = 1) -> int:
    """Add.

    Parameters
    ----------
    a : int
        One.
    *rest : int
        Others.
    b : int
        Two.

    Returns
    -------
    int
        Sum.
    """
@dataclass
class D:
    """Two values.

    Parameters
    ----------
    x, y : int
        Values.
    """
    x: int
    y: int
    @property
    def z(self) -> int:
        """Third."""
        return 3
'''


def test_a_kept_contract_passes() -> None:
    assert planted(GOOD) == []


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("    b : int\n        Two.\n", ""),
        ("b: int = 1", "c: int = 1"),
        ("Returns\n    -------", "Notes\n    -----"),
        ("x, y : int", "y, x : int"),
        ('        """Third."""\n', ""),
        ('"""Two values.', '"""'),
        ("    y: int\n", "    y: int\n    w: int = 0\n"),
        ("    @property\n", "    def public(self) -> None: ...\n    @property\n"),
    ],
)
def test_a_broken_contract_is_seen(old: str, new: str) -> None:
    assert old in GOOD
    assert planted(GOOD.replace(old, new, 1))


PORT = '''
from typing import Protocol
class Port(Protocol):
    """A port."""
    def give(self, key: str) -> str:
        """Give.

        Parameters
        ----------
        key : str
            Which.

        Returns
        -------
        str
            It.
        """
class Own(Port):
    """A way to keep it."""
    def give(self, key: str) -> str:
        return key
'''


def test_what_a_port_promises_is_documented_there_once() -> None:
    assert planted(PORT) == []
    other = PORT.replace("key: str) -> str:\n        return", "key: int) -> str:\n        return")
    assert planted(other) == ["planted.Own.give: no docstring"]
