"""``parbuckle plan``: one case in, the plan on screen, as JSON, and as a brief on paper."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

DRAWS = range(1, 1_000_001)
"""Numbers of draws that can be asked for; a million needs about a gigabyte."""

_OPEN = ("stop", "unanswered")


def add(subparsers: Any) -> None:
    """Add the command to the parser.

    Parameters
    ----------
    subparsers : argparse._SubParsersAction
        Where commands are added.
    """
    command = subparsers.add_parser(
        "plan", help="plan a case: weight, bags, gas, ascent, findings", description=__doc__, allow_abbrev=False
    )
    command.add_argument("case", metavar="CASE.toml", type=Path, help="the case file")
    command.add_argument("--json", action="store_true", help="print the plan as one JSON document")
    command.add_argument("--brief", metavar="OUT.pdf", type=Path, help="write the brief for the team as well")
    command.add_argument("--draws", metavar="N", type=draws, default=1024, help="number of draws (default 1024)")
    command.add_argument("--seed", metavar="S", type=int, default=1, help="seed of the draws (default 1)")
    command.set_defaults(run=run)


def draws(text: str) -> int:
    """Read a number of draws.

    Parameters
    ----------
    text : str
        As given on the command line.

    Returns
    -------
    int
        1 to 1,000,000.

    Raises
    ------
    argparse.ArgumentTypeError
        If it is no whole number, or outside.

    Examples
    --------
    >>> draws("256")
    256
    """
    if text.isascii() and text.isdigit() and len(text) <= len(str(DRAWS.stop)) and int(text) in DRAWS:
        return int(text)
    raise argparse.ArgumentTypeError(f"{text!r} is no number of draws; allowed are {DRAWS.start} to {DRAWS.stop - 1:,}")


def run(args: argparse.Namespace) -> int:
    """Plan the case and show the answer.

    Parameters
    ----------
    args : argparse.Namespace
        The parsed call.

    Returns
    -------
    int
        0 no stop found, 2 stops or must-answers are open.
    """
    from parbuckle.cli.output import say
    from parbuckle.desk.planning import plan

    document = plan(args.case, args.draws, args.seed)
    if args.brief:
        from parbuckle.desk.briefing import write_brief

        write_brief(document, args.brief)
        say(f"The brief is written: {args.brief}")
    _answer(document, args.json)
    return exit_code(document)


def _answer(document: dict[str, Any], as_json: bool) -> None:
    from parbuckle.cli.output import console, print_json

    if as_json:
        print_json(document)
    else:
        from parbuckle.cli.screen import show

        show(document, console())


def exit_code(document: dict[str, Any]) -> int:
    """Give the exit code that belongs to a plan.

    Parameters
    ----------
    document : dict
        The plan document.

    Returns
    -------
    int
        2 when a stop holds or a must-answer is open; 0 otherwise. A stop that was lifted with a reason is not open.

    Examples
    --------
    >>> exit_code({"findings": [{"level": "caution"}]})
    0
    >>> exit_code({"findings": [{"level": "stop"}]})
    2
    """
    open_ones = [f for f in document.get("findings", ()) if f["level"] in _OPEN and not f.get("lifted")]
    return 2 if open_ones else 0
