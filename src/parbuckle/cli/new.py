"""``parbuckle new``: a case file to start from."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any


def add(subparsers: Any) -> None:
    """Add the command to the parser.

    Parameters
    ----------
    subparsers : argparse._SubParsersAction
        Where commands are added.
    """
    command = subparsers.add_parser("new", help="write a case to start from", description=__doc__, allow_abbrev=False)
    command.add_argument("out", metavar="OUT.toml", type=Path, help="the file to write; never overwrites one")
    command.add_argument("--from", metavar="NAME", dest="name", help="start from a shipped example instead")
    command.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Write the case file, and the kit that it needs.

    Parameters
    ----------
    args : argparse.Namespace
        The parsed call.

    Returns
    -------
    int
        0.
    """
    from parbuckle.cli.output import say
    from parbuckle.desk.starting import new_case

    for path in new_case(args.out, args.name):
        say(f"Written: {path}")
    say(f"Edit it, then: parbuckle plan {args.out}")
    return 0
