"""``parbuckle dive``: who goes and for how long, whether it fits slack water, and what is left to breathe."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from parbuckle.cli.plan import draws, exit_code


def add(subparsers: Any) -> None:
    """Add the command to the parser.

    Parameters
    ----------
    subparsers : argparse._SubParsersAction
        Where commands are added.
    """
    command = subparsers.add_parser(
        "dive", help="the dives: times, slack, limits, breathing gas", description=__doc__, allow_abbrev=False
    )
    command.add_argument("case", metavar="CASE.toml", type=Path, help="the case file")
    command.add_argument("--json", action="store_true", help="print the answers as one JSON document")
    command.add_argument("--draws", metavar="N", type=draws, default=1024, help="number of draws (default 1024)")
    command.add_argument("--seed", metavar="S", type=int, default=1, help="seed of the draws (default 1)")
    command.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Work the dives out and show the answer.

    Parameters
    ----------
    args : argparse.Namespace
        The parsed call.

    Returns
    -------
    int
        0 no stop found, 2 stops or must-answers are open.
    """
    from parbuckle.cli.output import console, print_json
    from parbuckle.desk.diving import dive

    document = dive(args.case, args.draws, args.seed)
    if args.json:
        print_json(document)
    else:
        from parbuckle.cli.dive_screen import show

        show(document, console())
    return exit_code(document)
