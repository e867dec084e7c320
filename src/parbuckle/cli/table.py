"""``parbuckle table``: the team's bags against loads and depths, on two pages to be laminated; a pool-test sheet."""

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
    command.add_argument(
        "--pool-sheet", metavar="SHEET.pdf", type=Path, help="write the sheet for the team's own pool test as well"
    )
    command.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Write the table, and the pool-test sheet where it is asked for.

    Parameters
    ----------
    args : argparse.Namespace
        The parsed call.

    Returns
    -------
    int
        0.

    Raises
    ------
    CallError
        If both papers would go into one file.
    """
    from parbuckle.cli.output import say
    from parbuckle.desk.tabling import write_pool_sheet, write_table
    from parbuckle.quantity.errors import CallError

    if args.pool_sheet == args.out:
        raise CallError(f"{args.out}: the table and the pool-test sheet need two files")
    write_table(args.kit, args.out)
    say(f"The table is written: {args.out}")
    if args.pool_sheet:
        write_pool_sheet(args.kit, args.pool_sheet)
        say(f"The pool-test sheet is written: {args.pool_sheet}")
    return 0
