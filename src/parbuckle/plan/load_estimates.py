"""From a case to the estimates of its load: parts, known object, spring balance, trial lift."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TypeVar

import numpy as np

from parbuckle.case.thing import Part
from parbuckle.load.bottoms import Bottom
from parbuckle.load.breakout import muga_share
from parbuckle.load.known import chain_mass_per_length, displaced_by_share, known_object
from parbuckle.load.materials import unknown_material
from parbuckle.load.pieces import from_solid, from_wet, mass_and_volume, trial_weight
from parbuckle.load.problem import Estimate
from parbuckle.plan.load_asking import LoadAsking, named
from parbuckle.quantity.frozen import Floats
from parbuckle.quantity.spread import Spread

Row = TypeVar("Row")


def by_name(rows: Iterable[tuple[str, Row]]) -> Iterator[tuple[str, int, Row]]:
    """Go through the rows of a list by name, not by their place in the file.

    Parameters
    ----------
    rows : iterable of (str, row)
        Name and row, in the order of the file.

    Yields
    ------
    tuple of (str, int, row)
        Name, made different where two are the same, place in the file from 1, and row.
    """
    ordered = sorted(enumerate(rows, start=1), key=lambda item: (item[1][0], repr(item[1][1])))
    seen: dict[str, int] = {}
    for place, (name, row) in ordered:
        seen[name] = seen.get(name, 0) + 1
        yield (name if seen[name] == 1 else f"{name}#{seen[name]}"), place, row


def from_parts(ask: LoadAsking) -> Estimate | None:
    """Add up the parts of the case.

    Parameters
    ----------
    ask : LoadAsking
        The run through the inputs.

    Returns
    -------
    Estimate or None
        None when there is no part, or one of them cannot be weighed.
    """
    pieces = [_part(ask, *row) for row in by_name((part.name, part) for part in ask.case.object.part)]
    if not pieces or any(piece is None for piece in pieces):
        return None
    mass, volume = (np.sum([piece[i] for piece in pieces if piece], axis=0) for i in (0, 1))
    hows = dict.fromkeys(part.how for part in sorted(ask.case.object.part, key=lambda p: p.name) if part.how)
    how = "by parts" + (": " + ", ".join(hows) if hows else "")
    return from_solid("list of parts", how, "parts", mass, volume, volume, ask.water_density)


def _part(ask: LoadAsking, name: str, place: int, part: Part) -> tuple[Floats, Floats] | None:
    path, key = f"object.part.{name}", f"object.part[{place}]"
    if part.mass is None and part.volume is None:
        ask.lacks(f"{key}.mass", f'part "{name}" has neither mass nor volume, so the parts cannot be added up')
        return None
    for word, value in (("mass", part.mass), ("volume", part.volume)):
        ask.exact_or_not(f"{path}.{word}", value, part.how)
    mass = None if part.mass is None else ask.draw(f"{path}.mass", part.mass)
    volume = None if part.volume is None else ask.draw(f"{path}.volume", part.volume)
    if mass is not None and volume is not None:
        if part.material is not None:
            ask.density(path, f"{key}.material", part.material)
            ask.assume(f"{path}.material", "mass and volume are given; the material is not needed")
        return mass_and_volume(mass, volume, None)
    return mass_and_volume(mass, volume, ask.density(path, f"{key}.material", part.material))


def from_known(ask: LoadAsking) -> Estimate | None:
    """Look up the known object of the case.

    Parameters
    ----------
    ask : LoadAsking
        The run through the inputs.

    Returns
    -------
    Estimate or None
        None when the case names none.

    Raises
    ------
    CaseError
        If the table has no such object; it suggests the nearest.
    """
    text = ask.case.object.known_as
    if text is None or text.strip() in ("", "unknown"):
        return None
    path = "object.known_as"
    with named(path, text):
        thing = known_object(text)
        if thing.mass is not None:
            mass = ask.draw(f"{path}.mass", thing.mass)
        else:
            words = ("coefficient", "diameter", "length")
            given = zip(words, thing.chain, strict=True)
            coefficient, diameter, length = (ask.draw(f"{path}.{word}", spread) for word, spread in given)
            mass = chain_mass_per_length(diameter, coefficient) * length
    for sentence in thing.assumed:
        ask.assume(path, sentence)
    ask.cite(thing.source)
    if thing.wet_share is not None:
        share = ask.draw(f"{path}.wet_share", thing.wet_share)
        volume = displaced_by_share(mass, share, thing.wet_share_water)
    elif thing.shared:
        volume = mass / ask.density(path, path, thing.shared)
    else:
        assert thing.density is not None
        volume = mass / ask.draw(f"{path}.density", thing.density)
    outline = volume if thing.bulk == 0.0 else np.maximum(mass / thing.bulk, volume)
    how = f"known object: {text.strip()}"
    return from_solid("table of known objects", how, "known", mass, volume, outline, ask.water_density)


def in_water(ask: LoadAsking, bottom: Bottom, temperature: Floats) -> list[Estimate]:
    """Take the readings made in the water: spring balance and trial lift.

    Parameters
    ----------
    ask : LoadAsking
        The run through the inputs.
    bottom : Bottom
        What it lies on: a trial lift overcomes that too.
    temperature : Floats
        Of the gas, K, shape (n,).

    Returns
    -------
    list of Estimate
        One for each reading.
    """
    found = list(_readings(ask, bottom, temperature))
    if not found:
        return []
    unknown = unknown_material()
    density = ask.draw("object.density", unknown.spread)
    solid = ask.case.object.part or ask.case.object.measured or ask.case.object.known_as
    if not solid:
        ask.assume("object.density", f"mean density not told: {unknown.spread.text} ({unknown.source})")
    made: list[Estimate] = []
    for by, how, method, wet in found:
        with named(f"object.{method}", f"by {by}"):
            made.append(from_wet(by, how, method, wet, density, ask.water_density))
    return made


def _readings(ask: LoadAsking, bottom: Bottom, temperature: Floats) -> Iterator[tuple[str, str, str, Floats]]:
    for name, place, row in by_name((row.by, row) for row in ask.case.object.balance):
        if row.weight is None:
            ask.lacks(f"object.balance[{place}].weight", "what the balance showed")
            continue
        ask.exact_or_not(f"object.balance.{name}.weight", row.weight, "weighed")
        yield row.by, "spring balance, in the water", "balance", ask.draw(f"object.balance.{name}.weight", row.weight)
    for name, place, trial in by_name((row.by, row) for row in ask.case.object.trial):
        path = f"object.trial.{name}"
        if trial.gas is None:
            ask.lacks(f"object.trial[{place}].gas", "how much gas was in the bag when it moved")
            continue
        top = float(muga_share(0.0)) if bottom.method == "muga" else bottom.high
        held = ask.draw(f"{path}.held", Spread("share", "flat", 0.0, 0.5 * top, top, f"0..{top:.0%}"))
        gas = ask.draw(f"{path}.gas", trial.gas)
        wet = trial_weight(gas, ask.water_density, ask.ambient_pressure, temperature, held)
        how = "trial lift, what the bottom held taken off"
        yield trial.by, how, "trial", wet - _bag_in_water(ask, path, trial.bag)


def _bag_in_water(ask: LoadAsking, path: str, bag_id: str | None) -> Floats:
    """Weight in water of the bag of a trial lift, kg; nothing, and a note, when it is not known."""
    bags = [bag for bag in (ask.kit.bag if ask.kit else ()) if bag.id == bag_id]
    if bags and bags[0].in_water is not None:
        return ask.draw(f"bag.{bags[0].id}.in_water", bags[0].in_water)
    ask.assume(f"{path}.bag", "weight in water of the trial bag not known; taken as nothing (assumption)")
    return np.zeros(ask.asking.ensemble.n)
