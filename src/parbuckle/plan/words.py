"""Input paths in words that a supervisor says."""

from __future__ import annotations

_LAST = {
    "mass": "the mass of {}",
    "volume": "the volume of {}",
    "flooded": "how far {} is flooded",
    "solid": "how much of the outline of {}'s measurement is solid",
    "length": "the length that {} measured",
    "width": "the width that {} measured",
    "height": "the height that {} measured",
    "diameter": "the diameter that {} measured",
    "inner_diameter": "the inner diameter that {} measured",
    "ring_diameter": "the ring diameter that {} measured",
    "area": "the area that {} measured",
    "weight": "the weight that {} read",
    "gas": "the gas in the trial of {}",
    "density": "the density of {}",
    "material": "the material of {}",
}
_OF_A_BAG = {
    "pull": "what one short pull of {} loses",
    "pull_in": "how long the measured pull of {} was",
    "dump_bore": "the bore of the dump of {}",
    "dump_discharge": "what the dump of {} lets through",
    "really": "what {} really holds",
}
_WHOLE = {
    "together": "several inputs together",
    "load.which_estimate": "which of the estimates is right",
    "load.breakout": "the hold of the bottom",
    "site.water": "how salt the water is",
    "site.temperature": "the temperature of the water",
    "site.depth": "the depth",
    "lift.overfill": "gas put in beyond neutral",
    "lift.drag_factor": "the drag of load and bags",
    "lift.drag_area": "the drag of load and bags",
    "lift.tender.delay": "the reaction of the tender",
    "lift.tender.pull": "how long a short pull takes",
    "lift.tender.watch": "how long the tender watches",
    "lift.tender.drag": "the drag of the divers who hold on",
    "lift.tender.opening": "how far the dump is open",
    "object.known_as": "what it is known as",
}


def in_words(path: str) -> str:
    """Say what an input path stands for.

    Parameters
    ----------
    path : str
        Path by ids and names.

    Returns
    -------
    str
        A few words.

    Examples
    --------
    >>> in_words("object.part.block, leg and bracket.mass")
    'the mass of block, leg and bracket'
    >>> in_words("material.aluminium")
    'the density of aluminium'
    """
    if path in _WHOLE:
        return _WHOLE[path]
    parts = path.split(".")
    if path.startswith("kit.bag.") and parts[-1] in _OF_A_BAG:
        return _OF_A_BAG[parts[-1]].format(".".join(parts[2:-1]))
    if parts[0] == "material":
        return f"the density of {'.'.join(parts[1:])}"
    if parts[0] == "object" and len(parts) >= 4 and parts[-1] in _LAST:
        return _LAST[parts[-1]].format(".".join(parts[2:-1]))
    return ", ".join(p.replace("_", " ") for p in parts[1:]) or path
