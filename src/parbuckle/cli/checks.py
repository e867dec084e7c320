"""``parbuckle checks``: every published check value against this installation."""

from __future__ import annotations

import argparse
from itertools import groupby
from typing import Any


def add(subparsers: Any) -> None:
    """Add the command to the parser.

    Parameters
    ----------
    subparsers : argparse._SubParsersAction
        Where commands are added.
    """
    command = subparsers.add_parser(
        "checks", help="hold this installation against published numbers", description=__doc__, allow_abbrev=False
    )
    command.add_argument("--json", action="store_true", help="print the checks as one JSON document")
    command.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Compute every check and show the list.

    Parameters
    ----------
    args : argparse.Namespace
        The parsed call.

    Returns
    -------
    int
        0 when all are inside their tolerance, 1 otherwise.
    """
    from parbuckle.desk.checking import run_checks

    rows = run_checks()
    _answer(rows, args.json)
    return 0 if rows and all(row["ok"] for row in rows) else 1


def _answer(rows: list[dict[str, Any]], as_json: bool) -> None:
    from parbuckle.cli.output import print_json

    if as_json:
        print_json({"schema": 1, "checks": rows})
        return
    for (source, mark), group in groupby(rows, key=lambda row: (row["source"], row["mark"])):
        print(f"\n{source} ({mark})")
        for row in group:
            print(_line(row))
    outside = [row["id"] for row in rows if not row["ok"]]
    print(f"\n{len(rows)} published values: {len(rows) - len(outside)} inside their tolerance, {len(outside)} outside.")
    print("".join(f"Outside: {name}\n" for name in outside), end="")


def _line(row: dict[str, Any]) -> str:
    word = "" if row["ok"] else "OUTSIDE"
    ours = row.get("why") if row["ours"] is None else f"ours {row['ours']:.6g}"
    published = f"{row['value']:.6g} ± {row['tolerance']:.2g} {row.get('unit', '').strip('-')}".strip()
    return f"  {word:8}{row['id']:<20} {published}, {ours}: {row['quantity']}"
