"""``parbuckle dive``: who goes and for how long, whether it fits slack water, and what is left to breathe."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from parbuckle.cli.plan import draws, exit_code
from parbuckle.quantity.errors import CallError


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
    command.add_argument("--log", metavar="FILE", type=Path, nargs="+", help="logs of one diver: UDDF, table or slate")
    command.add_argument("--mapping", metavar="FILE", type=Path, help="which column of a table is what")
    command.add_argument("--dive", metavar="N", type=int, help="number of the planned dive that the logs belong to")
    command.add_argument("--diver", metavar="NAME", help="who made the logged dives; earlier dives count")
    command.add_argument("--uddf", metavar="FILE", type=Path, help="write the logged dives as UDDF")
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
        0 no stop found, 2 stops or must-answers are open; with logs 0.
    """
    if args.log:
        return _logs(args)
    _alone(args)
    from parbuckle.cli.output import console, print_json
    from parbuckle.desk.diving import dive

    document = dive(args.case, args.draws, args.seed)
    if args.json:
        print_json(document)
    else:
        from parbuckle.cli.dive_screen import show

        show(document, console())
    return exit_code(document)


def _logs(args: argparse.Namespace) -> int:
    from parbuckle.cli.output import console, print_json
    from parbuckle.desk.logs import LogCall, logs

    call = LogCall(tuple(args.log), args.mapping, args.dive, args.diver, args.uddf)
    document = logs(args.case, call, args.draws, args.seed)
    if args.json:
        print_json(document)
    else:
        from parbuckle.cli.log_screen import show_logs

        show_logs(document, console())
    return 0


def _alone(args: argparse.Namespace) -> None:
    """Refuse what says something about logs where none is given."""
    for name in ("mapping", "dive", "diver", "uddf"):
        if getattr(args, name) is not None:
            raise CallError(f"--{name} needs --log FILE")
