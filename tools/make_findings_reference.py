"""Write docs/findings.md: every finding, every house rule, every limit set by law, every inspection interval.

Run: ``python tools/make_findings_reference.py`` (``--check`` only compares).
"""

from __future__ import annotations

import sys
import tomllib
from pathlib import Path
from typing import Any

from parbuckle.duties.catalogue import LEVELS, Entry, catalogue
from parbuckle.duties.house import house_rules

ROOT = Path(__file__).resolve().parents[1]
OUT = ROOT / "docs" / "findings.md"
DATA = ROOT / "src" / "parbuckle" / "data"

HEAD = """# Findings, house rules and limits

<!-- Written by tools/make_findings_reference.py from the data files. Do not edit it by hand. -->

The tool compares a plan with rules and says what it found. It never says that a plan is ready.

- A **stop** holds until the cause is gone. Some stops can be lifted by the supervisor, in writing, with a reason
  (see [the guide](guide.md#lift-a-stop-in-writing)). Others can never be lifted.
- **Unanswered** is a question that must be asked and was not.
- A **caution** is shown and recorded. The work may go on.
- A **note** is for the file.

In the texts, `{value}` is what was measured or told, `{limit}` is what it is held against, `{what}` is the thing.
"""

TITLES = {
    "stop, never lifted": "Stops that are never lifted",
    "stop": "Stops that the supervisor may lift in writing",
    "unanswered": "Unanswered",
    "caution": "Cautions",
    "note": "Notes",
}


def reference() -> str:
    """Write the whole text."""
    return HEAD + "".join(_findings()) + _house() + _law() + _records() + _intervals()


def _group(entry: Entry) -> str:
    return "stop, never lifted" if entry.level == "stop" and entry.override == "never" else entry.level


def _findings() -> list[str]:
    entries = list(catalogue().values())
    assert {entry.level for entry in entries} <= set(LEVELS)
    parts = []
    for group, title in TITLES.items():
        rows = [_finding(entry) for entry in entries if _group(entry) == group]
        parts.append(f"\n## {title}\n\n| code | says | do | source |\n|---|---|---|---|\n" + "".join(rows))
    return parts


def _finding(entry: Entry) -> str:
    where = [f"rules: {', '.join(entry.rules)}"] if entry.rules else []
    where += [f"country: {', '.join(entry.countries)}"] if entry.countries else []
    only = f" *Only {'; '.join(where)}.*" if where else ""
    return f"| `{entry.code}` | {entry.text}{only} | {entry.do} | {entry.source} |\n"


def _house() -> str:
    head = (
        "\n## House rules\n\nLimits that a team may choose for itself. Change one in the case by its key:\n\n"
        '```toml\n[house]\nreaction = "2 s"\n```\n\n'
        "| key | default | meaning | mark | source |\n|---|---|---|---|---|\n"
    )
    rows = [f"| `{r.key}` | {r.default} | {r.meaning} | {r.mark} | {r.source} |\n" for r in house_rules()]
    return head + "".join(rows)


def _law() -> str:
    head = (
        "\n## Limits set by law or by an authority\n\nThe table is short and it ages: local law comes first. "
        "A team or a site sets its own beside them, or instead of them, in "
        "[`[[regime]]`](guide.md#rules-of-your-own): with who set it, where it is written and the date.\n\n"
        "| key | value | where | meaning | read on | source |\n|---|---|---|---|---|---|\n"
    )
    return head + "".join(
        f"| `{key}` | {row.get('value', 'none')} | {_where(row)} | {row['meaning']} | {row.get('read', '')} | "
        f"{row.get('source', 'yours')} |\n"
        for key, row in _table("regimes").items()
    )


def _records() -> str:
    rows = _table("records")
    limits = _table("regimes")
    head = (
        "\n## Records and notices\n\nWhat the text that was read asks to be written down and to be told. "
        "Local law comes first.\n\n| record | where | contains | keep | mark | source |\n|---|---|---|---|---|---|\n"
    )
    records = "".join(
        f"| {r['what']} | {_where(r)} | {', '.join(r['contains'])} | {r['keep'] or 'not read'} | "
        f"{r['mark']} | {r['source']} |\n"
        for r in rows["record"].values()
    )
    between = "\n| notice | where | to | within | mark | source |\n|---|---|---|---|---|---|\n"
    notices = "".join(_notice(r, limits.get(r["within"], {})) for r in rows["notice"].values())
    return head + records + between + notices


def _notice(row: dict[str, Any], limit: dict[str, Any]) -> str:
    told = {**row, **({k: limit[k] for k in ("mark", "source")} if limit else {})}
    within = f"{limit.get('value', row['within'])}, {row['counts']}"
    return f"| {row['what']} | {_where(row)} | {row['to']} | {within} | {told['mark']} | {told['source']} |\n"


def _where(row: dict[str, Any]) -> str:
    return ", ".join(row["countries"] + row["rules"]) or "everywhere"


def _intervals() -> str:
    head = (
        "\n## Inspection intervals\n\nThe date on the item's own tag comes first. These give a date only where the "
        "last check is known and the next is not.\n\n"
        "| country | item | check | every | mark | source |\n|---|---|---|---|---|---|\n"
    )
    return head + "".join(
        f"| {r['country']} | {r['item']} | {r['check']} | {r['every']} | {r['mark']} | {r['source']} |\n"
        for r in _table("intervals")["interval"]
    )


def _table(name: str) -> dict[str, Any]:
    return tomllib.loads((DATA / f"{name}.toml").read_text(encoding="utf-8"))


def main() -> int:
    """Write the file, or with ``--check`` say whether it is current."""
    text = reference()
    if "--check" in sys.argv:
        return 0 if OUT.read_text(encoding="utf-8") == text else 1
    OUT.write_text(text, encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
