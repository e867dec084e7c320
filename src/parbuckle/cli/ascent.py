"""``parbuckle ascent``: will these people hold it on the way up, and what if they do not."""

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
        "ascent", help="the way up: can it be held, and what if not", description=__doc__, allow_abbrev=False
    )
    command.add_argument("case", metavar="CASE.toml", type=Path, help="the case file")
    command.add_argument("--json", action="store_true", help="print the answers and one trace as one JSON document")
    command.add_argument("--bags", metavar="ID,ID", type=ids, default=(), help="take these bags of the kit")
    command.add_argument("--draws", metavar="N", type=draws, default=1024, help="number of draws (default 1024)")
    command.add_argument("--seed", metavar="S", type=int, default=1, help="seed of the draws (default 1)")
    command.set_defaults(run=run)


def ids(text: str) -> tuple[str, ...]:
    """Read ids that are separated by commas.

    Parameters
    ----------
    text : str
        As given on the command line.

    Returns
    -------
    tuple of str
        At least one.

    Raises
    ------
    argparse.ArgumentTypeError
        If there is none, or an empty one between two commas.

    Examples
    --------
    >>> ids("C25, C15")
    ('C25', 'C15')
    """
    found = tuple(part.strip() for part in text.split(","))
    if all(found):
        return found
    raise argparse.ArgumentTypeError(f"{text!r} is no list of bags; write ids with commas between, such as C25,C15")


def run(args: argparse.Namespace) -> int:
    """Work the way up out and show the answer.

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
    from parbuckle.desk.ascending import ascend

    document = ascend(args.case, args.bags, args.draws, args.seed, trace=args.json)
    if args.json:
        print_json(document)
    else:
        from parbuckle.cli.ascent_screen import show

        show(document, console())
    return exit_code(document)
