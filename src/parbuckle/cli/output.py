"""Where the commands write: one JSON document or one screen on standard output, all else on standard error."""

from __future__ import annotations

import io
import json
import sys
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from rich.console import Console

PIPED_WIDTH = 100
"""Columns of a screen that goes into a file or a pipe."""


def speak_utf8() -> None:
    """Write UTF-8 whatever the machine's locale says; what cannot be written is escaped, never an error."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(encoding="utf-8", errors="backslashreplace")


def say(text: str) -> None:
    """Write a message on standard error.

    Parameters
    ----------
    text : str
        What to say, without the last line end.
    """
    print(text, file=sys.stderr)


def print_json(document: dict[str, Any]) -> None:
    """Print the one JSON document of a command on standard output.

    Parameters
    ----------
    document : dict
        Plain values only; no NaN and no infinity.

    Raises
    ------
    ValueError
        If a number is not finite: nothing is printed then.
    """
    text = json.dumps(document, ensure_ascii=False, allow_nan=False)
    print(text)


def console() -> Console:
    """Make the console that screens are drawn on.

    Returns
    -------
    rich.console.Console
        As wide as the terminal, or 100 columns and without colour when piped.
    """
    from rich.console import Console

    width = None if sys.stdout.isatty() else PIPED_WIDTH
    return Console(file=sys.stdout, width=width, highlight=False, emoji=False, markup=False)
