"""The base of all answers, and the error that any of them may be instead."""

from __future__ import annotations

from typing import Any

from pydantic import BaseModel, ConfigDict, Field


class Answer(BaseModel):
    """Base of all answers: an entry that is not told here is a fault."""

    model_config = ConfigDict(extra="forbid", ser_json_inf_nan="null")


class Told(BaseModel):
    """What went wrong, in words."""

    model_config = ConfigDict(extra="allow")

    what: str = Field(description="What is wrong, in one sentence.")
    key: str | None = Field(default=None, description="The value that is meant.")
    given: str | None = Field(default=None, description="What was given.")
    allowed: str | None = Field(default=None, description="What is allowed.")
    do: str | None = Field(default=None, description="What to do.")
    by: str | None = Field(default=None, description="Who changed it first (409).")
    at: str | None = Field(default=None, description="When (409).")
    theirs: Any = Field(default=None, description="What stands there now (409).")
    revision: int | None = Field(default=None, description="The revision that it stands at now (409).")


class Refused(Answer):
    """The one form of every error."""

    error: Told


REFUSALS: dict[int | str, dict[str, Any]] = {
    status: {"model": Refused, "description": what}
    for status, what in (
        (404, "Nothing is kept under this id."),
        (409, "Somebody else changed it first."),
        (411, "The length of the body is not told."),
        (413, "The body is too large."),
        (415, "The body is no JSON."),
        (421, "Not asked under a name of this server."),
        (422, "Something was written wrongly."),
    )
}
"""What any route may answer instead."""
