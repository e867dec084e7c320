"""``parbuckle table``: the team's own bags against loads and depths, on two pages to be laminated."""

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
    command = subparsers.add_parser(
        "table", help="print the team's own bags against loads and depths", description=__doc__, allow_abbrev=False
    )
    command.add_argument("kit", metavar="KIT.toml", type=Path, help="the kit file")
    command.add_argument("--out", metavar="OUT.pdf", type=Path, required=True, help="where to write the table")
    command.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Write the table.

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
    from parbuckle.desk.tabling import write_table

    write_table(args.kit, args.out)
    say(f"The table is written: {args.out}")
    return 0
