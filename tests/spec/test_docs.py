"""Guard: what the documentation names is there, and what is there is documented."""

from __future__ import annotations

import argparse
import importlib.util
import re
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from guard.tree import PACKAGE, ROOT, name
from parbuckle.cli.main import parser
from parbuckle.duties.catalogue import catalogue
from parbuckle.duties.house import house_rules

DOCS = ROOT / "docs"
PAGES = sorted([*ROOT.glob("*.md"), *DOCS.rglob("*.md")])
FIRST_READ = ROOT / "README.md", DOCS / "guide.md"
PICTURES = "brief-page-1.png", "slate.png", "way-up.png", "search-card.png", "search-map.png"
LARGEST_PICTURE = 300_000  # bytes


def text(page: Path) -> str:
    return page.read_text(encoding="utf-8")


def tool(stem: str) -> ModuleType:
    spec = importlib.util.spec_from_file_location(stem, ROOT / "tools" / f"{stem}.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def commands() -> dict[str, list[str]]:
    """Give every command with its long options."""
    found: dict[str, list[str]] = {}
    for action in parser()._actions:
        if isinstance(action, argparse._SubParsersAction):
            choices: dict[str, Any] = dict(action.choices)
            found |= {
                key: sorted(o for o in child._option_string_actions if o[:2] == "--") for key, child in choices.items()
            }
    return found


def plain(markdown: str) -> str:
    """Take blocks and spans of code out."""
    return re.sub(r"`[^`\n]*`", "", re.sub(r"```.*?```", "", markdown, flags=re.DOTALL))


def anchors(markdown: str) -> set[str]:
    titles = re.findall(r"^#+ (.+)$", re.sub(r"```.*?```", "", markdown, flags=re.DOTALL), re.MULTILINE)
    return {re.sub(r"[^\w -]", "", title.lower()).strip().replace(" ", "-") for title in titles}


def broken_links(page: Path, markdown: str) -> list[str]:
    links = re.findall(r"\]\(([^)\s]+)\)", plain(markdown)) + re.findall(r'src="([^"]+)"', plain(markdown))
    broken = []
    for link in links:
        path, _, anchor = link.partition("#")
        target = (page.parent / path) if path else page
        if "://" in link:
            continue
        if not target.exists() or (anchor and anchor not in anchors(text(target))):
            broken.append(link)
    return broken


@pytest.mark.parametrize("page", PAGES, ids=name)
def test_links_lead_somewhere(page: Path) -> None:
    assert broken_links(page, text(page)) == []


def test_a_broken_link_is_seen() -> None:
    page = DOCS / "guide.md"
    assert broken_links(page, "[a](nowhere.md) [b](findings.md#no-such-title) [c](#neither)") == [
        "nowhere.md", "findings.md#no-such-title", "#neither",
    ]  # fmt: skip
    assert broken_links(page, "[a](format.md) [b](findings.md#house-rules) `[c](nowhere.md)`") == []


@pytest.mark.parametrize(("stem", "page"), [("make_findings_reference", "findings"), ("make_check_list", "sources")])
def test_pages_made_from_data_are_current(stem: str, page: str) -> None:
    assert tool(stem).reference() == text(DOCS / f"{page}.md"), f"run python tools/{stem}.py"


def test_every_command_and_option_is_explained() -> None:
    told = "\n".join(text(page) for page in FIRST_READ)
    spans = re.findall(r"`([^`\n]+)`", told)
    for command, options in commands().items():
        assert any(re.match(rf"(parbuckle )?{command}\b", span) for span in spans), command
        missing = [o for o in options if o != "--help" and not re.search(rf"{o}(?![\w-])", " ".join(spans))]
        assert not missing, (command, missing)


def test_no_command_or_option_is_invented() -> None:
    known = commands()
    options = {option for row in known.values() for option in row} | {"--version"}
    told = "\n".join(text(page) for page in FIRST_READ)
    used = re.findall(r"(?:dev\.py run|`parbuckle) ([a-z]+)\b", told)
    assert used
    assert set(used) <= set(known)
    assert set(re.findall(r"(?<![\w-])--[a-z][\w-]*", plain_comments(told))) <= options


def plain_comments(markdown: str) -> str:
    return re.sub(r"<!--.*?-->", "", markdown, flags=re.DOTALL)


def test_the_two_commands_of_the_readme_exist() -> None:
    script = text(ROOT / "dev.py")
    used = set(re.findall(r"python3 dev\.py (\w+)", text(ROOT / "README.md")))
    assert used == {"run", "test"}
    assert all(f'"{command}":' in script for command in used)


def test_every_house_rule_and_finding_is_listed() -> None:
    page = text(DOCS / "findings.md")
    keys = [*(rule.key for rule in house_rules()), *catalogue()]
    assert not [key for key in keys if f"| `{key}` |" not in page]


def test_every_name_of_a_module_or_tool_is_real() -> None:
    for page in PAGES:
        told = set(re.findall(r"`([a-z_]+/[\w/]+\.(?:py|toml|json))`", text(page)))
        gone = [path for path in told if not (PACKAGE / path).exists() and not (ROOT / path).exists()]
        assert not gone, (name(page), gone)


def test_every_page_is_in_the_index() -> None:
    index = text(DOCS / "README.md")
    assert not [page.name for page in DOCS.glob("*.md") if page.name != "README.md" and f"({page.name})" not in index]


def test_decisions_are_short() -> None:
    assert not [page.name for page in (DOCS / "decisions").glob("*.md") if text(page).count("\n") > 30]


@pytest.mark.parametrize("picture", PICTURES)
def test_pictures_of_the_readme_are_small(picture: str) -> None:
    raw = (DOCS / picture).read_bytes()
    assert raw.startswith(b"\x89PNG")
    assert len(raw) < LARGEST_PICTURE
