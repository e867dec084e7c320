"""Make the pictures of the README and the guide from brief and search card of the quarry example; needs pdftoppm.

Run: ``python tools/make_pictures.py``. It writes brief-page-1.png, way-up.png, slate.png, search-card.png and
search-map.png into docs. pdftoppm is part of poppler.
Look at them before you commit.
"""

from __future__ import annotations

import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from parbuckle.desk.briefing import write_brief
from parbuckle.desk.planning import plan
from parbuckle.desk.searching import write_card

ROOT = Path(__file__).resolve().parents[1]
CASE = ROOT / "src" / "parbuckle" / "data" / "cases" / "quarry-outboard.toml"
DOCS = ROOT / "docs"
PICTURES = "brief-page-1.png", "way-up.png", "slate.png", "search-card.png", "search-map.png"
LARGEST = 300_000  # bytes of a picture


def main() -> int:
    """Write the pictures.

    Returns
    -------
    int
        0 when all are written and small enough, 1 otherwise.
    """
    if shutil.which("pdftoppm") is None:
        print("pdftoppm is needed; it is part of poppler.", file=sys.stderr)
        return 1
    with tempfile.TemporaryDirectory() as name:
        brief, card, document = Path(name) / "brief.pdf", Path(name) / "card.pdf", plan(CASE)
        write_brief(document, brief)
        write_card(document, card)
        _picture(brief, 1, 88, DOCS / "brief-page-1.png")
        _picture(brief, 2, 88, DOCS / "way-up.png")
        _picture(brief, _last_page(brief), 90, DOCS / "slate.png")
        _picture(card, 1, 88, DOCS / "search-card.png")
        _picture(card, 2, 88, DOCS / "search-map.png")
    sizes = {name: (DOCS / name).stat().st_size for name in PICTURES}
    print(sizes)
    return 0 if all(size < LARGEST for size in sizes.values()) else 1


def _picture(pdf: Path, page: int, dots: int, out: Path) -> None:
    """Draw one page in grey: the brief is made for black and white."""
    stem = pdf.with_name("page")
    command = ["pdftoppm", "-png", "-gray", "-singlefile", "-r", str(dots), "-f", str(page), "-l", str(page)]
    subprocess.run([*command, str(pdf), str(stem)], check=True)
    shutil.copyfile(stem.with_suffix(".png"), out)


def _last_page(pdf: Path) -> int:
    said = subprocess.run(["pdfinfo", str(pdf)], capture_output=True, check=False, text=True).stdout
    return int(next(line for line in said.splitlines() if line.startswith("Pages:")).split()[1])


if __name__ == "__main__":
    sys.exit(main())
