"""Tools that read a finished PDF: its pages as text, its fonts, its tags."""

from __future__ import annotations

import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).resolve().parent))


class Pdf:
    """One PDF on disk."""

    def __init__(self, path: Path, content: bytes) -> None:
        self.path = path
        path.write_bytes(content)

    def tool(self, name: str, *more: str) -> str:
        """Run one of the poppler tools on the file."""
        done = subprocess.run([name, *more, str(self.path)], capture_output=True, check=True, text=True)
        return done.stdout

    def info(self, key: str) -> str:
        """Give one line of the file's information."""
        lines = dict(line.split(":", 1) for line in self.tool("pdfinfo").splitlines() if ":" in line)
        return lines[key].strip()

    def pages(self) -> list[str]:
        """Give the text of each page in reading order, white space made one space."""
        done = subprocess.run(["pdftotext", "-raw", str(self.path), "-"], capture_output=True, check=True, text=True)
        pages = done.stdout.split("\f")
        return [" ".join(page.split()) for page in pages if page.strip()]

    def sizes(self, page: int) -> set[float]:
        """Give the sizes of the black words of one page, points."""
        made = self.tool("pdftohtml", "-xml", "-stdout", "-i", "-zoom", "3", "-f", str(page), "-l", str(page))
        return {
            int(size) / 3 for size, colour in re.findall(r'size="(\d+)"[^>]*color="#(\w+)"', made) if colour == "000000"
        }

    def fonts(self) -> list[list[str]]:
        """Give the rows of the font list."""
        return [line.split() for line in self.tool("pdffonts").splitlines()[2:]]


@pytest.fixture
def pdf(tmp_path: Path) -> Callable[[bytes], Pdf]:
    """Give a maker of PDFs on disk."""
    return lambda content: Pdf(tmp_path / "page.pdf", content)
