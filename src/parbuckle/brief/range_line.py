"""The thin range line: low, likely and high as shares of one kilogram scale, for paper and for the terminal."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from parbuckle.brief.figures import Figures

_ROOM = 1.08  # the scale goes this much beyond the highest value


def kilo_scale(
    wet: Mapping[str, float],
    required: Mapping[str, float] | None,
    ceiling: float | None,
    figures: Figures,
) -> dict[str, Any]:
    """Lay wet weight, required lift and ceiling on one scale that begins at zero.

    Parameters
    ----------
    wet : mapping
        Band of the wet weight, kg.
    required : mapping or None
        Band of the required lift, kg.
    ceiling : float or None
        Lift at which filling stops, kg.
    figures : Figures
        Formats the labels.

    Returns
    -------
    dict
        ``rows`` with ``label``, ``value``, ``low``, ``likely`` and ``high`` as shares of the scale's length;
        ``ceiling`` (share or None) and ``ceiling_label``.

    Examples
    --------
    >>> row = kilo_scale({"low": 0.0, "likely": 50.0, "high": 100.0}, None, None, Figures())["rows"][0]
    >>> round(row["likely"] / row["high"], 6)
    0.5
    """
    top = max([wet["high"], ceiling or 0.0, (required or wet)["high"]]) * _ROOM or 1.0
    rows = [("wet weight", wet)] + ([("lift needed", required)] if required else [])
    return {
        "rows": [
            {
                "label": label,
                "value": figures.band(band, "mass"),
                **{key: band[key] / top for key in ("low", "likely", "high")},
            }
            for label, band in rows
        ],
        "ceiling": None if ceiling is None else ceiling / top,
        "ceiling_label": "" if ceiling is None else f"stop at {figures.safe(ceiling, 'mass', up=False)}",
    }


def text_line(row: Mapping[str, Any], width: int, ceiling: float | None = None) -> str:
    """Draw a range line with signs: thin line, a heavy line over the band, a tick at the likely value.

    Parameters
    ----------
    row : mapping
        ``low``, ``likely`` and ``high`` as shares of the length.
    width : int
        Number of signs.
    ceiling : float, optional
        Share at which a bar stands for the ceiling.

    Returns
    -------
    str
        ``width`` signs.

    Examples
    --------
    >>> text_line({"low": 0.2, "likely": 0.5, "high": 0.8}, 11, ceiling=1.0)
    '··├──┼──┤·|'
    """
    signs = ["·"] * width
    low, likely, high = (_place(row[key], width) for key in ("low", "likely", "high"))
    signs[low : high + 1] = "─" * (high + 1 - low)
    signs[low], signs[high] = "├", "┤"
    if ceiling is not None:
        signs[_place(ceiling, width)] = "|"
    signs[likely] = "┼"
    return "".join(signs)


def _place(share: float, width: int) -> int:
    return min(max(round(share * (width - 1)), 0), width - 1)
