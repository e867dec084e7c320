"""The output that README and guide show is what the commands say today."""

from __future__ import annotations

import importlib.util
from pathlib import Path
from types import ModuleType

import pytest

from guard.tree import ROOT


@pytest.fixture(scope="module")
def tool() -> ModuleType:
    spec = importlib.util.spec_from_file_location("make_shown_output", ROOT / "tools" / "make_shown_output.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.mark.parametrize("page", [ROOT / "README.md", ROOT / "docs" / "guide.md"], ids=lambda page: page.name)
def test_shown_output_is_current(tool: ModuleType, page: Path) -> None:
    before = page.read_text(encoding="utf-8")
    assert "<!-- shown:" in before
    assert tool.filled(before) == before, "run python tools/make_shown_output.py"


def test_old_output_is_seen(tool: ModuleType) -> None:
    page = "<!-- shown: --version -->\n```text\nparbuckle 0.0.0\n```\n"
    assert tool.filled(page) != page
    assert tool.filled(tool.filled(page)) == tool.filled(page)
