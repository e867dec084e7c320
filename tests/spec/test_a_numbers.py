"""Guards on code: limits live in data, g and R once, short and simple functions, frozen records."""

from __future__ import annotations

from guard import code
from guard.tree import modules, name, room

LIMITS_IN_DATA = {"search", "load", "lift", "dive", "duties", "brief", "cli", "api"}
SIMPLE = {"cli", "api"}
MOST_WAYS = 4
MOST_DESK_LINES = 40


def broken(rule, rooms=None, files=None) -> dict[str, list[str]]:  # type: ignore[no-untyped-def]
    chosen = [p for p in modules() if (rooms is None or room(p) in rooms) and (files is None or files(p))]
    assert chosen, "the rule was held against nothing"
    return {name(p): found for p in chosen if (found := rule(p.read_text("utf-8")))}


def test_limits_live_in_data() -> None:
    assert not broken(code.literal_limits, LIMITS_IN_DATA)


def test_a_literal_limit_is_seen() -> None:
    assert code.literal_limits("if depth > 30: pass")
    assert code.literal_limits("ok = 0 <= share < 0.95")
    assert code.literal_limits("ok = x == -1")
    assert not code.literal_limits("ok = 0 < n and x >= 1.0 and flag is True and name == 'x' and a > LIMIT")


def test_g_and_r_are_defined_once() -> None:
    assert not broken(code.second_g_or_r, files=lambda p: (room(p), p.name) != ("physics", "constants.py"))


def test_a_second_g_is_seen() -> None:
    for number in ("9.80665", "9.81", "9.8", "8.314462618", "8.314", "9.807"):
        assert code.second_g_or_r(f"w = m * {number}"), number
    assert not code.second_g_or_r("a, b, c = 9.85, 8.3, 19.81")


def test_faces_are_simple() -> None:
    assert not broken(lambda s: code.complexity(s, MOST_WAYS), SIMPLE)


def test_a_knot_is_seen() -> None:
    knot = "def f(a):\n    for x in a:\n        if x:\n            while x:\n                return 1 if a else 2\n"
    assert code.complexity(knot, 4)
    assert not code.complexity(knot, 5)
    assert not code.complexity("def f():\n    def g():\n        if 1: pass\n    if 2: pass\n", 2)


def test_desk_functions_are_short() -> None:
    assert not broken(lambda s: code.long_functions(s, MOST_DESK_LINES), {"desk"})


def test_a_long_function_is_seen() -> None:
    assert code.long_functions("def f():\n" + "    x = 1\n" * 40, 40)
    assert not code.long_functions('def f():\n    """Told.\n\n    More.\n    """\n' + "    x = 1\n" * 39, 40)


def test_problems_and_results_are_frozen() -> None:
    assert not broken(code.thawed_records, files=lambda p: p.stem.endswith(("problem", "result")))


def test_a_thawed_record_is_seen() -> None:
    assert code.thawed_records("@dataclass\nclass P: ...")
    assert not code.thawed_records("@dataclass(frozen=True)\nclass P(frozen.Frozen): ...\n@dataclass\nclass Q(P): ...")
