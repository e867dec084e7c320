"""The one error tree: every error that a user can meet, with the exit code that belongs to it.

ParbuckleError
├── CaseError        something in a file is written wrongly: file, key, line, given, allowed
├── RangeError       a law was asked outside its valid range
└── CallError        the command itself was called wrongly
"""

from __future__ import annotations


class ParbuckleError(Exception):
    """Base of all errors that the program raises on purpose; exit code 1."""


class RangeError(ParbuckleError, ValueError):
    """A law was asked for a value outside the range in which it holds."""


class CallError(ParbuckleError):
    """The command was called with arguments that do not fit together."""


class CaseError(ParbuckleError):
    """Something in a case or kit file is written wrongly.

    Parameters
    ----------
    what : str
        What is wrong, in one sentence.
    file : str
        Name of the file as the user wrote it; empty when there is none.
    key : str
        Path of the key, such as ``object.part[2].mass``; empty for the whole file.
    line : int or None
        Line of the file where it stands, where that can be found.
    given : str
        What was given.
    allowed : str
        What is allowed.
    do : str
        What to do about it.
    """

    def __init__(
        self,
        what: str,
        *,
        file: str = "",
        key: str = "",
        line: int | None = None,
        given: str = "",
        allowed: str = "",
        do: str = "",
    ) -> None:
        super().__init__(what)
        self.what, self.file, self.key, self.line = what, file, key, line
        self.given, self.allowed, self.do = given, allowed, do

    def __str__(self) -> str:
        where = self.file + (f", line {self.line}" if self.line else "")
        rows = [where + (": " if where else "") + (f"{self.key}: " if self.key else "") + self.what]
        for label, text in (("given", self.given), ("allowed", self.allowed), ("do", self.do)):
            if text:
                rows.append(f"  {label:8}{text}")
        return "\n".join(rows)
