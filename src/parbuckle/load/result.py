"""What the load stage answers: dry, displaced, in water, held by the bottom, leaving the water."""

from __future__ import annotations

from dataclasses import dataclass

from parbuckle.quantity.frozen import Floats, Frozen


@dataclass(frozen=True)
class LoadResult(Frozen):
    """The load, one value for each draw.

    Parameters
    ----------
    dry_mass : Floats
        In air, drained, kg, shape (n,).
    displaced : Floats
        Water pushed aside, gas in spaces included, m3, shape (n,).
    wet_weight : Floats
        Dry mass less displaced water, kg, shape (n,); negative when it floats.
    breakout : Floats
        What the bottom may hold above the wet weight, kg, shape (n,); from zero up.
    leaving_water : Floats
        Dry mass, water inside and mud, kg, shape (n,).
    envelope : Floats
        Outer volume that moves water, m3, shape (n,).
    entrapped_water : Floats
        Water inside that moves with it, kg, shape (n,).
    estimates : tuple of (str, str, Floats)
        By whom, how, and weight in water (n,), in the stage's own order.
    agree : bool
        False when two estimates differ by more than their bands allow: measure again.
    disagreement_kg : float
        Largest difference between two estimates' mean weights in water, kg.
    breakout_why : str
        One sentence on the break-out.
    breakout_hold : tuple of (float, float, str)
        Minutes of steady pull, high end of what still holds after them in kg, source; soft mud only.
    liu : str or None
        What Liu's time law says, or why it says nothing; None where the bottom is not cohesive.
    sources : tuple of str
        Sources used.
    bearing_pressure : Floats
        How hard it presses on the bottom, weight in water over footprint, Pa, shape (n,); 0 where it touches nothing.
    weights : tuple of float
        Weight of each estimate in the combination, in the order of ``estimates``.
    warnings : tuple of str
        What had to be cut or left out.
    """

    dry_mass: Floats
    displaced: Floats
    wet_weight: Floats
    breakout: Floats
    leaving_water: Floats
    envelope: Floats
    entrapped_water: Floats
    estimates: tuple[tuple[str, str, Floats], ...]
    agree: bool
    disagreement_kg: float
    breakout_why: str
    breakout_hold: tuple[tuple[float, float, str], ...]
    liu: str | None
    sources: tuple[str, ...]
    bearing_pressure: Floats
    weights: tuple[float, ...] = ()
    warnings: tuple[str, ...] = ()
