"""``parbuckle search``: where to start, how to swim it, what chance that has, and what has been proved."""

from __future__ import annotations

import argparse
import math
from pathlib import Path
from typing import Any

from parbuckle.cli.plan import draws, exit_code

LONGEST = 1440.0
"""Longest time on a pattern that can be asked for, min."""


def add(subparsers: Any) -> None:
    """Add the command to the parser.

    Parameters
    ----------
    subparsers : argparse._SubParsersAction
        Where commands are added.
    """
    command = subparsers.add_parser(
        "search", help="where to look: pattern, place, spacing, chance", description=__doc__, allow_abbrev=False
    )
    command.add_argument("case", metavar="CASE.toml", type=Path, help="the case file")
    command.add_argument("--json", action="store_true", help="print the answers as one JSON document")
    command.add_argument("--minutes", metavar="T", type=minutes, help="time on the pattern, turns included")
    command.add_argument("--export", metavar="OUT", type=Path, help="write .gpx, .kml, .geojson or .csv as well")
    command.add_argument("--card", metavar="OUT.pdf", type=Path, help="write the card for the divers as well")
    command.add_argument("--draws", metavar="N", type=draws, default=1024, help="number of draws (default 1024)")
    command.add_argument("--seed", metavar="S", type=int, default=1, help="seed of the draws (default 1)")
    command.set_defaults(run=run)


def minutes(text: str) -> float:
    """Read a time on the pattern.

    Parameters
    ----------
    text : str
        As given on the command line, minutes.

    Returns
    -------
    float
        Above 0.

    Raises
    ------
    argparse.ArgumentTypeError
        If it is no number, or outside.

    Examples
    --------
    >>> minutes("25")
    25.0
    """
    try:
        value = float(text)
    except ValueError:
        value = math.nan
    if 0.0 < value <= LONGEST:
        return value
    raise argparse.ArgumentTypeError(f"{text!r} is no time; write minutes above 0 and up to {LONGEST:.0f}")


def run(args: argparse.Namespace) -> int:
    """Work the search out and show the answer.

    Parameters
    ----------
    args : argparse.Namespace
        The parsed call.

    Returns
    -------
    int
        0 no stop found, 2 stops or must-answers are open.
    """
    from parbuckle.cli.output import console, print_json, say
    from parbuckle.desk.searching import export, search, write_card

    document = search(args.case, args.minutes, args.draws, args.seed)
    for out, write in ((args.export, export), (args.card, write_card)):
        if out:
            write(document, out)
            say(f"The search is written: {out}")
    if args.json:
        print_json(document)
    else:
        from parbuckle.cli.search_screen import show

        show(document, console())
    return exit_code(document)
