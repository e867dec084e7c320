"""What may be sent to the server: each body with its limits."""

from __future__ import annotations

import json
from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field, model_validator

_Who = Annotated[str, Field(min_length=1, max_length=80, description="Who does it.")]
_Base = Annotated[int, Field(ge=1, description="The revision that it was made on.")]

_MOST_DEEP = 40


class Body(BaseModel):
    """Base of all bodies: no unknown keys, and nothing that a store cannot keep."""

    model_config = ConfigDict(extra="forbid")

    @model_validator(mode="before")
    @classmethod
    def _can_be_kept(cls, raw: Any) -> Any:
        if _depth(raw) > _MOST_DEEP:
            raise ValueError(f"at most {_MOST_DEEP} tables and lists may lie in each other")
        try:
            text = json.dumps(raw, allow_nan=False, ensure_ascii=False).encode()
        except ValueError as error:
            raise ValueError("numbers must be finite, and texts must be Unicode") from error
        if b"\\u0000" in text:
            raise ValueError("a text may not hold the character 0")
        return raw


class ChangeBody(Body):
    """One change of a document."""

    op: Literal["set", "remove", "insert", "move"] = Field(description="What it does.")
    path: list[str | int] = Field(min_length=1, max_length=12, description="Keys, and indices from 0.")
    value: Any = Field(default=None, description="What is set or inserted.")
    to: int | None = Field(default=None, ge=0, description="Index that a row is moved to.")


class EditBody(Body):
    """Changes of one kept document."""

    base: _Base
    who: _Who
    changes: list[ChangeBody] = Field(min_length=1, max_length=100, description="In order.")
    gesture: str | None = Field(default=None, max_length=80, description="Steps of one gesture go back together.")
    what: str = Field(default="", max_length=200, description="What was done, in one sentence.")


class TryBody(Body):
    """Changes to try; nothing is saved."""

    changes: list[ChangeBody] = Field(min_length=1, max_length=100, description="In order.")


class SeenBody(Body):
    """Something done to a document as it was seen."""

    base: _Base
    who: _Who


class RestoreBody(SeenBody):
    """An old revision to go back to."""

    revision: int = Field(ge=1, description="Which.")


class ChooseBody(SeenBody):
    """A variant that the case becomes."""

    variant: str = Field(max_length=40, description="Id of the variant.")


class VariantBody(Body):
    """A new variant of a case."""

    name: str = Field(min_length=1, max_length=80, description="What it is called.")
    who: _Who


class NewCaseBody(Body):
    """A new case: out of an example, or out of the ten first answers."""

    who: _Who
    example: str | None = Field(default=None, max_length=60, description="Name of a shipped example.")
    answers: dict[str, Any] | None = Field(default=None, max_length=40, description="By the key of the question.")
    kit: str | None = Field(default=None, max_length=40, description="Id of the kit.")


class ImportBody(Body):
    """Files taken in, as text."""

    who: _Who
    case: str = Field(max_length=1_000_000, description="Text of the case file.")
    kit: str | None = Field(default=None, max_length=1_000_000, description="Text of the kit file.")


def _depth(raw: Any) -> int:
    """Count how many tables and lists lie in each other, level by level."""
    level, deep = [raw], 0
    while level and deep <= _MOST_DEEP:
        inside = [list(v.values()) if isinstance(v, dict) else v for v in level if isinstance(v, (dict, list))]
        level, deep = [value for values in inside for value in values], deep + bool(inside)
    return deep


def sent(changes: list[ChangeBody]) -> list[dict[str, Any]]:
    """Give changes as the desk reads them.

    Parameters
    ----------
    changes : list of ChangeBody
        As they were sent.

    Returns
    -------
    list of dict
        Only with the keys that were sent.
    """
    return [change.model_dump(exclude_unset=True) for change in changes]
