"""The exposure of one dive: depth over time to scale, with its limits and its stops, and the dive that takes longer."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise
from types import MappingProxyType
from typing import Any

from parbuckle.brief.depth_axis import Field, draw_across, draw_depths
from parbuckle.brief.drawing import FIRM, THIN, Board, Point
from parbuckle.brief.figures import Figures, figures_of
from parbuckle.brief.labels import Labels

_LEFT, _TOP, _RIGHT, _FOOT = 46.0, 30.0, 10.0, 24.0  # points
_MINUTE = 60.0  # s
_AIR = 1.06  # room behind the last moment
_FAR = 1.4  # a limit beyond so many times the longest dive is told, not drawn
_BELOW = 17.0  # room under the deepest line, points
_MARK = 2.4  # radius of a mark, points
_OFF = 6.0  # from a line to its words, points
_ROW = 10.5  # from one base line to the next, points
_NAMES = {"model": "model", "navy_table": "Navy table"}
_LATE = "5 3"
_CAPTION = "Depth over time to scale. Firm: the plan at its likely length."

Path = list[tuple[float, float]]  # minutes since leaving the surface, depth in m


def dive_picture(document: Mapping[str, Any], dive: Mapping[str, Any], width: float, height: float) -> dict[str, Any]:
    """Draw depth over time of one dive.

    Parameters
    ----------
    document : mapping
        The plan document, for its units.
    dive : mapping
        One of its ``dives``.
    width, height : float
        Size of the drawing, points.

    Returns
    -------
    dict
        ``svg``, ``width``, ``height``, ``caption`` and ``alt``.
    """
    figures = figures_of(document)
    way = planned(dive)
    late = _late(dive)
    limits = _limits(dive)
    deepest = max(depth for _, depth in (*way, *late))
    last = max(path[-1][0] for path in (way, late or way))
    ends = [last, *(at for at, _ in limits if at <= last * _FAR)]
    board = Board(width, height)
    field = Field(_LEFT, _TOP, width - _RIGHT, height - _FOOT, max(ends) * _AIR * _MINUTE, _reach(deepest, height))
    draw_depths(board, field, deepest, figures, ground=False)
    draw_across(board, field, "time", figures, field.bottom + 3)
    labels = Labels(board)
    labels.keep_free((0.0, 0.0, field.left - 1, height))
    labels.keep_free((0.0, field.bottom - 1, width, height))
    _no_stop(board, labels, field, limits)
    if late:
        board.line(_points(field, late), THIN * 1.4, _LATE)
    board.line(_points(field, way), FIRM * 1.5)
    _keep_lines_free(labels, field, way)
    _words(board, labels, field, way, late, dive, figures)
    beyond = "".join(
        f" No stop by the {name}: {int(at)} min, beyond the picture." for at, name in limits if _out(field, at)
    )
    dashed = f" Dashed: {_longer(dive)} longer." if late else ""
    return {**board.drawing(), "caption": f"{_CAPTION}{dashed}{beyond}", "alt": _alt(dive, way, limits, figures)}


def planned(dive: Mapping[str, Any]) -> Path:
    """Give the way of the plan at its likely length: minutes and depths at its corners.

    Parameters
    ----------
    dive : mapping
        One of ``dives`` of the document.

    Returns
    -------
    list of (float, float)
        From the surface to the surface.
    """
    depth, bottom = dive["depth_m"]["likely"], dive["bottom_time_min"]["likely"]
    down = max(bottom - sum(task["min"]["likely"] for task in dive["tasks"]), 0.0)
    return [(0.0, 0.0), (down, depth), *_up(dive, bottom, depth, dive["stops"], dive["way_up_min"]["likely"])]


def _late(dive: Mapping[str, Any]) -> Path:
    """Give what the longer dive adds: from the end of the plan's stay on, at the deep end."""
    told = dive["over_run"]
    if told is None:
        return []
    depth = dive["depth_m"]["likely"]
    start = (dive["bottom_time_min"]["likely"], depth)
    return [start, *_up(dive, told["bottom_time_min"], depth, told["stops"], told["way_up_min"])]


def _up(dive: Mapping[str, Any], leave: float, depth: float, stops: Sequence[Mapping[str, float]], last: float) -> Path:
    """Give the way up with its stops; the usual stop stands in it where the document's time holds it."""
    rate = dive["ascent"]["rate_m_min"]
    always = [dive["always_stop"]] if dive["always_stop"] else []
    changes = [{**row, "depth_m": min(row["depth_m"], depth)} for row in dive.get("gas_changes") or []]
    ways = [[*changes, *stops, *always], [*changes, *stops]]
    held = min(ways, key=lambda way: abs(depth / rate + sum(stop["min"] for stop in way) - last))
    made = [stop for stop in held if stop["depth_m"] < depth or "who" in stop]
    moving = last - sum(stop["min"] for stop in made)
    pace = depth / moving if moving > 0.0 else rate  # beside the load it is slower
    now, at = leave, depth
    path = [(now, at)]
    for stop in sorted(made, key=lambda stop: -stop["depth_m"]):
        now, at = now + (at - stop["depth_m"]) / pace, stop["depth_m"]
        path += [(now, at), (now + stop["min"], at)]
        now += stop["min"]
    return [*path, (now + at / pace, 0.0)]


def _limits(dive: Mapping[str, Any]) -> list[tuple[float, str]]:
    """Both limits in minutes, the shorter one first; what has no limit or no answer is left out."""
    told = dive["no_stop_min"]
    return sorted((told[key], name) for key, name in _NAMES.items() if told[key] is not None)


def _no_stop(board: Board, labels: Labels, field: Field, limits: Sequence[tuple[float, str]]) -> None:
    for place, (at, name) in enumerate(limits):
        if _out(field, at):
            continue
        x = field.at(at * _MINUTE, 0.0)[0]
        board.line([(x, field.top - 3), (x, field.bottom)], FIRM if place == 0 else THIN, "1.5 2.2")
        text = f"no stop until {int(at)} min, {name}"
        ways = ("middle", "end", "start")
        tries = [((x, field.top - 6 - row * _ROW), anchor) for row in (0, 1) for anchor in ways]
        labels.put(text, tries, bold=place == 0)


def _out(field: Field, minutes: float) -> bool:
    return minutes * _MINUTE > field.widest


def _words(
    board: Board,
    labels: Labels,
    field: Field,
    way: Path,
    late: Path,
    dive: Mapping[str, Any],
    figures: Figures,
) -> None:
    """Write where something happens: the work, leaving the bottom, the stops, the surface."""
    (down, depth), (leave, _) = way[1], way[2]
    middle = field.at((down + leave) / 2 * _MINUTE, depth)
    lowest = middle[1] - _OFF
    stay = f"work at {figures.both(depth, 'length')}"
    labels.put(stay, [((middle[0], lowest), "middle")], bold=True)
    _pieces(board, labels, field, dive, down, depth)
    x, y = field.at(leave * _MINUTE, depth)
    board.circle((x, y), _MARK, THIN, "#fff")
    text = f"leave the bottom, {leave:.0f} min"
    right, left = x + 2 * _OFF, x - _OFF
    labels.put(
        text, [((right, lowest), "start"), ((left, lowest - 2 * _ROW), "end"), ((right, y + _ROW), "start")], True
    )
    stops = _stays(way[2:])
    _stop_words(labels, field, stops, figures, True, _gases(dive, depth))
    _stop_words(labels, field, [stay for stay in _stays(late[1:]) if _new(stay, stops)], figures, False)
    x, y = field.at(way[-1][0] * _MINUTE, 0.0)
    board.circle((x, y), _MARK, THIN, "#fff")
    out = f"up, {way[-1][0]:.0f} min"
    labels.put(
        out, [((x, y - 6 - row * _ROW), anchor) for row in (0, 1) for anchor in ("middle", "end", "start")], True
    )
    if late:
        x, y = field.at(late[-1][0] * _MINUTE, 0.0)
        places = [((x, y - 6 - row * _ROW), anchor) for row in (0, 1) for anchor in ("middle", "end")]
        labels.put(f"late: up, {late[-1][0]:.0f} min", places)


def _pieces(board: Board, labels: Labels, field: Field, dive: Mapping[str, Any], down: float, depth: float) -> None:
    """Part the stay into its tasks, with the numbers that they have in the list."""
    start = down
    for place, task in enumerate(dive["tasks"], 1):
        end = start + task["min"]["likely"]
        x, y = field.at(end * _MINUTE, depth)
        board.line([(x, y - 4), (x, y + 4)], THIN)
        labels.put(str(place), [((field.at((start + end) / 2 * _MINUTE, depth)[0], y + _ROW), "middle")])
        start = end


def _stays(up: Path) -> list[tuple[float, float, float]]:
    """Give the stops of a way up: begin, end, depth."""
    return [(begin, end, depth) for (begin, depth), (end, same) in pairwise(up) if depth == same and end > begin]


def _new(stay: tuple[float, float, float], stops: Sequence[tuple[float, float, float]]) -> bool:
    """Say whether the plan has no such stop."""
    begin, end, depth = stay
    return not any(depth == at and round(end - begin) == round(last - first) for first, last, at in stops)


def _stop_words(
    labels: Labels,
    field: Field,
    stops: Sequence[tuple[float, float, float]],
    figures: Figures,
    plan: bool,
    gases: Mapping[float, str] = MappingProxyType({}),
) -> None:
    told = dict(gases)
    for begin, end, depth in stops:
        x, y = field.at(end * _MINUTE, depth)
        gas = told.pop(depth, "")  # the change comes before a stop at the same depth
        text = f"{end - begin:.0f} min at {figures.both(depth, 'length')}{gas}"
        left = field.at(begin * _MINUTE, depth)[0] - _OFF
        before: list[tuple[Point, str]] = [((left, y + 3 - row * _ROW), "end") for row in range(2)]
        after: list[tuple[Point, str]] = [((x + _OFF, y + 12 + row * _ROW), "start") for row in range(3)]
        labels.put(text, [*before, *after], bold=plan)


def _gases(dive: Mapping[str, Any], depth: float) -> dict[float, str]:
    """Give the gas that is changed to, by depth."""
    return {
        min(row["depth_m"], depth): f": to {', '.join(dict.fromkeys(str(who['gas']) for who in row['who']))}"
        for row in dive.get("gas_changes") or []
    }


def _reach(deepest: float, height: float) -> float:
    """Give the depth at the lower edge, so that the numbers of the tasks have room over it."""
    tall = height - _TOP - _FOOT
    return deepest * tall / (tall - _BELOW)


def _keep_lines_free(labels: Labels, field: Field, way: Path) -> None:
    for (t0, d0), (t1, d1) in pairwise(way):
        steps = 12
        for number in range(steps + 1):
            share = number / steps
            x, y = field.at((t0 + share * (t1 - t0)) * _MINUTE, d0 + share * (d1 - d0))
            labels.keep_free((x - 1, y - 1, x + 1, y + 1))


def _points(field: Field, path: Path) -> list[Point]:
    return [field.at(minutes * _MINUTE, depth) for minutes, depth in path]


def _longer(dive: Mapping[str, Any]) -> str:
    return f"the work takes {dive['over_run']['longer_by_min']:.0f} min"


def _alt(dive: Mapping[str, Any], way: Path, limits: Sequence[tuple[float, str]], figures: Figures) -> str:
    told = "; ".join(f"no stop until {int(at)} min by the {name}" for at, name in limits)
    depth = figures.both(dive["depth_m"]["likely"], "length")
    return f"Down to {depth}, off the bottom at {way[2][0]:.0f} min, up at {way[-1][0]:.0f} min. {told}.".strip()
