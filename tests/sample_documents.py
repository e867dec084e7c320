"""The shipped cases as written documents, and their plans with few draws."""

from __future__ import annotations

import copy
from functools import cache
from typing import Any

from guard.shipped import CASES, shipped
from parbuckle.case.moments import plain
from parbuckle.desk.documents import plan_documents

ALL = (*CASES, "mooring-block")
"""Every shipped case."""

DRAWS = 256


def case_of(name: str) -> dict[str, Any]:
    """Give the document of a shipped case; a copy of its own."""
    return copy.deepcopy(_document(name))


def kit_of(case: dict[str, Any]) -> dict[str, Any] | None:
    """Give the document of the kit that a case names."""
    return copy.deepcopy(_document("kit")) if "kit" in case else None


def planned(name: str) -> dict[str, Any]:
    """Give the plan of a shipped case; a copy of its own."""
    return copy.deepcopy(_plan(name))


@cache
def _document(name: str) -> dict[str, Any]:
    document: dict[str, Any] = plain(shipped(name))
    return document


@cache
def _plan(name: str) -> dict[str, Any]:
    case = case_of(name)
    plan, faults = plan_documents(case, kit_of(case), f"{name}.toml", DRAWS)
    assert plan is not None, faults
    return plan
