"""Measured by touch: lengths counted in a diver's own hand or arm spans become metres."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace

from parbuckle.case.faults import Fault
from parbuckle.case.model import Case
from parbuckle.case.people import Spans
from parbuckle.case.thing import Measured
from parbuckle.quantity.kinds import kind
from parbuckle.quantity.spread import Spread


def in_metres(count: Spread, span: Spread) -> Spread:
    """Multiply a number of spans by the length of one: length = count · span, half-widths added in quadrature.

    Parameters
    ----------
    count : Spread
        Number of hand or arm spans.
    span : Spread
        Length of one, m.

    Returns
    -------
    Spread
        Length in m; its shape is the count's, or normal where the span has a spread of its own.

    Notes
    -----
    Source: product of two independent values, first order.

    Examples
    --------
    >>> two = Spread("hand", "exact", 2.0, 2.0, 2.0, "2 hand")
    >>> in_metres(two, Spread("length", "exact", 0.2, 0.2, 0.2, "0.20 m")).mid
    0.4
    """
    text = f"{count.text} of {span.text}"
    base = replace(count, kind="length", text=text, floor=0.0, ceiling=kind("length").ceiling)
    if span.exact:
        return replace(base, low=count.low * span.mid, mid=count.mid * span.mid, high=count.high * span.mid)
    mid = count.mid * span.mid
    half = math.hypot(0.5 * (count.high - count.low) * span.mid, 0.5 * (span.high - span.low) * count.mid)
    return replace(base, shape="normal", low=mid - half, mid=mid, high=mid + half)


def resolve(case: Case, spans: Mapping[str, Spans]) -> tuple[Case, list[Fault]]:
    """Turn all lengths of a case that are counted in spans into metres.

    Parameters
    ----------
    case : Case
        The case as written.
    spans : mapping of str to Spans
        Spans of every person and trainee, by name.

    Returns
    -------
    tuple of Case and list of Fault
        The case in metres; one fault for each span that nobody has measured.
    """
    faults: list[Fault] = []
    rows = tuple(_row(index, row, spans.get(row.by), faults) for index, row in enumerate(case.object.measured))
    if faults or rows == case.object.measured:
        return case, faults
    return case.model_copy(update={"object": case.object.model_copy(update={"measured": rows})}), faults


def _row(index: int, row: Measured, own: Spans | None, faults: list[Fault]) -> Measured:
    changed: dict[str, Spread] = {}
    for key in ("length", "width", "height", "diameter", "inner_diameter", "ring_diameter"):
        count = getattr(row, key)
        if count is None or count.kind not in ("hand", "arms"):
            continue
        span = getattr(own, count.kind) if own else None
        if span is None:
            do = f"write it in metres, or add spans = {{ {count.kind} = '0.20 m' }} to {row.by}"
            what = f"the {count.kind} span of {row.by} is not known"
            faults.append(Fault(("object", "measured", index, key), what, count.text, "a length, or a known span", do))
        else:
            changed[key] = in_metres(count, span)
    return row.model_copy(update=changed) if changed else row
