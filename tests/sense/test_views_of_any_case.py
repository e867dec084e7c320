"""Whatever is taken out of a shipped case or changed in it: it has faults, or a plan that every view can show."""

from __future__ import annotations

import random
from typing import Any

import pytest

from guard.leaves import changes, leaves
from parbuckle.brief.html_page import write_brief_html
from parbuckle.case.moments import plain
from parbuckle.case.toml_text import from_toml, to_toml
from parbuckle.desk.comparing import compare
from parbuckle.desk.documents import plan_documents, shown_values, trace_documents
from parbuckle.desk.finding_places import placed_findings
from parbuckle.desk.questions import missing
from parbuckle.desk.tonight import tonight
from sample_documents import ALL, case_of, kit_of

ODD = ("unknown", "", -1, "5", "1e9 kg")


def disturbed(chance: random.Random, document: dict[str, Any]) -> None:
    """Take a part of a document out, or put another value in one leaf."""
    leaf = chance.choice([leaf for leaf, _ in leaves(document)])
    path = leaf[: chance.randint(1, len(leaf))]
    at: Any = document
    for step in path[:-1]:
        at = at[step]
    value = at[path[-1]]
    if isinstance(value, (dict, list)) or chance.random() < 0.5:
        del at[path[-1]]
    else:
        key = next(step for step in reversed(path) if isinstance(step, str))
        at[path[-1]] = chance.choice([*changes(value, key), *ODD])


@pytest.mark.parametrize("seed", range(24))
def test_every_view_shows_it_or_every_fault_is_told(seed: int) -> None:
    chance = random.Random(seed)
    case = case_of(ALL[seed % len(ALL)])
    kit = kit_of(case)
    for _ in range(chance.randint(1, 5)):
        disturbed(chance, case if kit is None or chance.random() < 0.75 else kit)
    case, kit = plain(case), plain(kit) if kit else None
    shown_values(case, kit)
    if case.get("schema") == 1:
        assert from_toml(to_toml(case)) == case
    document, faults = plan_documents(case, kit, "x", 16)
    assert (document is None) == bool(faults)
    if document is None:
        return
    assert len(tonight(document)["questions"]) == 20
    assert len(placed_findings(document, case, kit)) == len(document["findings"])
    missing(document, case, kit)
    compare([{"id": "a", "title": "", "variant": None, "revision": 1, "plan": document}])
    assert write_brief_html(document).endswith("</html>\n")
    trace_documents(case, kit, "x", document)
