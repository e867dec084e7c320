"""Several lifts in one run, and several ways at once: the same bits as one after the other."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest

from headline import headline
from parbuckle.physics import tended_lockstep
from parbuckle.physics.simulate import simulate, simulate_all, way_of, ways_of
from parbuckle.physics.tended import Tended, TendedRise
from parbuckle.quantity.errors import RangeError
from sample_tended import draw_lifts, grouped, tended_of

FIELDS = [field.name for field in dataclasses.fields(TendedRise)]


def same(one: TendedRise, other: TendedRise) -> bool:
    return all(np.array_equal(getattr(one, name), getattr(other, name)) for name in FIELDS)


def lifts_with(hands: int) -> list[Tended]:
    """Lifts with as many people on them, whose policies and sizes differ."""
    drawn = draw_lifts(200, 41)
    groups = [[drawn[i] for i in group] for group in grouped(drawn)]
    return [tended_of(group, limit=120.0) for group in groups if len(group[0].divers) == hands]


@pytest.mark.parametrize("form", ["kernel", "lockstep"])
def test_lifts_that_run_together_give_what_each_gives(form: str) -> None:
    lifts = lifts_with(1)
    assert len({lift.tenders[0].policy for lift in lifts}) > 2
    together = simulate_all(lifts, form=form)
    assert all(same(rise, simulate(lift, form="kernel")) for rise, lift in zip(together, lifts, strict=True))


def test_lifts_with_other_hands_or_another_limit_do_not_run_together() -> None:
    one, two = lifts_with(1)[0], lifts_with(2)[0]
    for other in (two, dataclasses.replace(one, limit=60.0), dataclasses.replace(one, step=0.1)):
        with pytest.raises(RangeError, match="run together"):
            simulate_all([one, other])
    with pytest.raises(RangeError, match="run together"):
        simulate_all([])


def test_members_that_wait_for_room_change_no_bit(monkeypatch: pytest.MonkeyPatch) -> None:
    for lift in (headline(40), max(lifts_with(2), key=lambda lift: lift.size)):
        whole = simulate(lift, form="kernel")
        monkeypatch.setattr(tended_lockstep, "_WIDTH", 5)
        assert lift.size > tended_lockstep._WIDTH
        assert same(whole, simulate(lift, form="lockstep"))


def test_ways_together_are_the_ways_of_each() -> None:
    lift = headline(9)
    ways = ways_of(lift, (0, 7, 3))
    for way, member in zip(ways, (0, 7, 3), strict=True):
        alone = way_of(lift, member)
        assert all(np.array_equal(getattr(way, f.name), getattr(alone, f.name)) for f in dataclasses.fields(way))
