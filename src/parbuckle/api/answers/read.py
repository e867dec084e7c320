"""Answers to be read beside a plan: variants, where a number comes from, files."""

from __future__ import annotations

from pydantic import Field

from parbuckle.api.answers.base import Answer


class Column(Answer):
    """One case of a comparison."""

    id: str
    title: str
    variant: str | None
    revision: int


class Compared(Answer):
    """One row of a comparison."""

    section: str
    name: str
    cells: list[str]
    differs: bool


class CompareSaid(Answer):
    """Cases side by side."""

    columns: list[Column]
    rows: list[Compared]


class Input(Answer):
    """A value that a number hangs on."""

    key: str
    text: str


class NumberSaid(Answer):
    """Where a number comes from."""

    path: str
    name: str
    value: str
    range: list[float] | None = Field(description="Low, likely, high; null where it has no band.")
    formula: str
    numbers: str
    source: str
    section: int | None
    inputs: list[Input]


class FileLine(Answer):
    """A file that can be had, or why not."""

    name: str
    title: str
    type: str
    why_not: str | None


class FileList(Answer):
    """All files of a case."""

    files: list[FileLine]
