"""Rules on what everybody must know when something goes wrong: the team's own words, and the position to tell."""

from __future__ import annotations

from parbuckle.duties.facts import Facts
from parbuckle.duties.hit import Hit, Hits, Rule, over
from parbuckle.duties.house import House
from parbuckle.duties.words import understood

CARDS = {
    "gas_loss": "a diver's gas fails",
    "entangled": "a diver is held",
    "runaway": "the lift runs away",
    "carried_up": "a diver is carried up",
}
"""Keys of [emergency] for the team's own words, and what they are about."""


def _cards(facts: Facts, house: House) -> Hits:
    """Before a dive the team has said what it does, in its own words."""
    missing = [key for key in CARDS if understood(getattr(facts.answers, key)) not in ("words", "yes")]
    if facts.diving and missing:
        keys = ", ".join(f"emergency.{key}" for key in missing)
        yield Hit("emergency_words", keys, None, ", ".join(CARDS[key] for key in missing))


def _position(facts: Facts, house: House) -> Hits:
    """The position to tell is near the place, and holds more than words."""
    if over(facts.answers.position_apart, house["position_near"]):
        yield Hit("position_apart", facts.answers.position_apart, house["position_near"])
    if facts.answers.position_in_words:
        yield Hit("position_in_words", facts.answers.position)


RULES: tuple[Rule, ...] = (_cards, _position)
"""Every rule on the emergency block."""
