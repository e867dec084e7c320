"""The press: a template of this package and a view, set by Typst in memory into a tagged PDF."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import font_source_sans_pro
import typst

from parbuckle.quantity.errors import CallError

PAPERS = {"a4": (595.28, 841.89), "us-letter": (612.0, 792.0)}
"""Papers that a page can be set on: width and height, points."""

_TEMPLATES = Path(__file__).resolve().parent / "templates"
_FONTS = Path(font_source_sans_pro.__file__).resolve().parent / "files"


def paper_size(paper: str) -> tuple[float, float]:
    """Give the size of a paper.

    Parameters
    ----------
    paper : str
        Name of the paper.

    Returns
    -------
    tuple of float
        Width and height, points.

    Raises
    ------
    CallError
        The paper is not known.

    Examples
    --------
    >>> paper_size("us-letter")
    (612.0, 792.0)
    """
    if paper not in PAPERS:
        raise CallError(f"paper {paper!r} is not known; take one of: {', '.join(PAPERS)}")
    return PAPERS[paper]


def compile_pdf(template: str, view: Mapping[str, Any], paper: str = "a4") -> bytes:
    """Set one template with one view.

    The view goes in as JSON, so that a user's text is printed as it is and never run. Only the fonts of the font
    package and those inside Typst are used; no date is written into the file.

    Parameters
    ----------
    template : str
        File name of a template of this package.
    view : mapping
        Texts, lists and drawings; an underscore in a key reads as a dash in the template.
    paper : str
        Name of the paper.

    Returns
    -------
    bytes
        A tagged PDF with its fonts inside; equal input gives equal bytes.

    Raises
    ------
    CallError
        The paper is not known.
    """
    paper_size(paper)
    pdf: bytes = typst.compile(
        str(_TEMPLATES / template),
        root=str(_TEMPLATES),
        font_paths=[str(_FONTS)],
        ignore_system_fonts=True,
        sys_inputs={"view": json.dumps(_dashed(view), ensure_ascii=False, allow_nan=False), "paper": paper},
        timestamp=0,
        format="pdf",
    )
    return pdf


def _dashed(view: Any) -> Any:
    if isinstance(view, Mapping):
        return {str(key).replace("_", "-"): _dashed(value) for key, value in view.items()}
    if isinstance(view, (list, tuple)):
        return [_dashed(value) for value in view]
    return view
