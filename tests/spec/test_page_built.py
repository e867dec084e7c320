"""The page's description and types are of this very server; the tool that builds it knows its sources and its node."""

from __future__ import annotations

import json
import re
import sys
from pathlib import Path

import pytest

from guard.tree import ROOT

sys.path.insert(0, str(ROOT / "tools"))
import build_page
import make_openapi

LOCK = json.loads((ROOT / "ui" / "package-lock.json").read_text("utf-8"))


def test_the_description_in_the_tree_is_of_this_server() -> None:
    assert make_openapi.TARGET.read_text("utf-8") == make_openapi.description(), "run python tools/make_openapi.py"


def test_the_types_name_every_answer_of_the_description() -> None:
    types = (ROOT / "ui" / "src" / "api.d.ts").read_text("utf-8")
    shapes = json.loads(make_openapi.description())["components"]["schemas"]
    assert not [name for name in shapes if not re.search(rf"^ +{name}: ", types, re.MULTILINE)]


def test_no_lock_holds_an_address() -> None:
    for name in ("ui/package-lock.json", "requirements-node.txt"):
        text = (ROOT / name).read_text("utf-8")
        assert '"resolved"' not in text
        assert not re.findall(r"https?://[^\s\"]+", text), "take the funding entries out: npm writes them by itself"


def test_the_lock_holds_the_native_parts_of_all_platforms() -> None:
    parts = " ".join(LOCK["packages"])
    for platform in ("linux-x64-gnu", "linux-arm64-gnu", "darwin-arm64", "darwin-x64", "win32-x64"):
        assert re.search(rf"binding-{platform}|rolldown.*{platform}", parts), platform
    assert all("integrity" in package for name, package in LOCK["packages"].items() if name)


@pytest.fixture
def tree(tmp_path: Path) -> Path:
    """Give a small tree with a page that is built of its sources."""
    (tmp_path / "ui" / "src").mkdir(parents=True)
    (tmp_path / "ui" / "src" / "a.ts").write_bytes(b"let a = 1\n")
    (tmp_path / "ui" / "node_modules").mkdir()
    page = tmp_path / "src" / "parbuckle" / "webui"
    page.mkdir(parents=True)
    (page / "built-from.txt").write_text(build_page.digest(tmp_path) + "\n", "utf-8")
    return tmp_path


def test_a_page_is_old_when_a_source_changed_came_or_went(tree: Path) -> None:
    source = tree / "ui" / "src" / "a.ts"
    assert build_page.built(tree)
    source.write_bytes(b"let a = 1\r\n")  # another end of line is no change
    (tree / "ui" / "node_modules" / "b.js").write_text("b", "utf-8")
    assert build_page.built(tree)
    source.write_bytes(b"let a = 2\n")
    assert not build_page.built(tree)
    source.write_bytes(b"let a = 1\n")
    (tree / "ui" / "src" / "b.ts").write_bytes(b"")
    assert not build_page.built(tree)
    (tree / "ui" / "src" / "b.ts").unlink()
    source.rename(tree / "ui" / "src" / "c.ts")
    assert not build_page.built(tree)


def test_a_finished_package_needs_no_sources(tree: Path) -> None:
    (tree / "ui").rename(tree / "elsewhere")
    assert build_page.built(tree)
    (tree / "src" / "parbuckle" / "webui" / "built-from.txt").unlink()
    assert not build_page.built(tree)


@pytest.mark.parametrize(
    ("said", "good"), [("v20.19.0", True), ("v24.1.0", True), ("v20.18.9", False), ("v18.20.1", False)]
)
def test_the_version_of_node_is_looked_at(
    said: str, good: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in ("node", "npm"):
        (tmp_path / name).write_text(f"#!/bin/sh\necho {said}\n", "utf-8")
        (tmp_path / name).chmod(0o755)
    monkeypatch.setenv("PATH", f"{tmp_path}:/bin:/usr/bin")
    assert (build_page.system_npm() is not None) is good
    monkeypatch.setenv("PATH", str(tmp_path / "none"))
    assert build_page.system_npm() is None
