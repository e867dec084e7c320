"""Write docs/sources.md: the published checks by topic with counts for each mark, and the marks of the data tables.

Run: ``python tools/make_check_list.py`` (``--check`` only compares).
"""

from __future__ import annotations

import re
import sys
import tomllib
from collections import Counter
from pathlib import Path
from typing import Any

from parbuckle.desk.checking import MARKS

ROOT = Path(__file__).resolve().parents[1]
OUT = ROOT / "docs" / "sources.md"
DATA = ROOT / "src" / "parbuckle" / "data"

HEAD = """# Sources and checks

<!-- Written by tools/make_check_list.py from the data files. Do not edit it by hand. -->

`parbuckle checks` computes every number below with your installation and compares it with the published one.
It ends with 1 if one of them is outside its tolerance. The tolerance belongs to the source, not to us.

Each number carries a mark that says how it came here:

- **read**: seen in the source itself.
- **computed**: worked out by means that are not ours: another program, a closed form, an independent integration.
- **recalled**: known from memory; the source was not opened. Trust it least.
- **common practice**: what everybody in the trade uses.

No lift has been measured against this model. The checks show that formulas and tables are right. They cannot show that
a lift bag behaves as the formulas say.
"""


def reference() -> str:
    """Write the whole text."""
    topics = {path.stem: _load(path)["group"] for path in sorted((DATA / "checks").glob("*.toml"))}
    return HEAD + _counts(topics) + "".join(_topic(name, groups) for name, groups in topics.items()) + _tables()


def _counts(topics: dict[str, list[dict[str, Any]]]) -> str:
    head = f"\n## How many\n\n| topic | {' | '.join(MARKS)} | all |\n|---|" + "---:|" * (len(MARKS) + 1) + "\n"
    tallies = {name: _tally(groups) for name, groups in topics.items()}
    total = sum(tallies.values(), Counter[str]())
    rows = [*tallies.items(), ("**all**", total)]
    return head + "".join(
        f"| {name} | {' | '.join(str(tally[mark]) for mark in MARKS)} | {tally.total()} |\n" for name, tally in rows
    )


def _tally(groups: list[dict[str, Any]]) -> Counter[str]:
    counted: Counter[str] = Counter()
    for group in groups:
        counted[group["mark"]] += len(group["rows"])
    return counted


def _topic(name: str, groups: list[dict[str, Any]]) -> str:
    head = (
        f"\n## {name.capitalize()}\n\n| id | what | values | tolerance | mark | source |\n|---|---|---:|---|---|---|\n"
    )
    return head + "".join(_group(group) for group in groups)


def _group(group: dict[str, Any]) -> str:
    what = re.sub(r"\{\w+\}", "…", group["quantity"])
    unit = "" if group["unit"] == "-" else f" {group['unit']}"
    allowed = f"{group['abs']:g}{unit}" if "abs" in group else f"{100 * group['rel']:g} %"
    return (
        f"| {group['id']} | {what} | {len(group['rows'])} | {allowed} | {group['mark']} | {_cell(group['source'])} |\n"
    )


def _tables() -> str:
    """List the entries of the data tables by mark, so that it is seen what stands on memory."""
    head = (
        "\n## Marks of the data tables\n\nNumbers that a plan takes from the shipped tables. `house default` and "
        "`assumption` are choices, not knowledge.\n\n| table | entries by mark |\n|---|---|\n"
    )
    rows = []
    for path in sorted(DATA.glob("*.toml")):
        tally = Counter(_marks(_load(path)))
        if tally:
            told = ", ".join(
                f"{mark} {count}" for mark, count in sorted(tally.items(), key=lambda row: (-row[1], row[0]))
            )
            rows.append(f"| `{path.name}` | {told} |\n")
    return head + "".join(rows)


def _marks(value: Any) -> list[str]:
    if isinstance(value, list):
        return [mark for entry in value for mark in _marks(entry)]
    if not isinstance(value, dict):
        return []
    own = [value["mark"]] if isinstance(value.get("mark"), str) else []
    return own + [mark for entry in value.values() for mark in _marks(entry)]


def _load(path: Path) -> dict[str, Any]:
    return tomllib.loads(path.read_text(encoding="utf-8"))


def _cell(text: str) -> str:
    return text.replace("|", "\\|")


def main() -> int:
    """Write the file, or with ``--check`` say whether it is current."""
    text = reference()
    if "--check" in sys.argv:
        return 0 if OUT.read_text(encoding="utf-8") == text else 1
    OUT.write_text(text, encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
