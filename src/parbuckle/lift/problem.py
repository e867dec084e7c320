"""What the lift stage is asked: the load to be lifted, the bags and gas that are there, and the rules of the house."""

from __future__ import annotations

from dataclasses import dataclass

from parbuckle.physics.constants import MOLAR_MASS_AIR, R
from parbuckle.physics.pressure import absolute_pressure
from parbuckle.quantity.frozen import Floats, Frozen


@dataclass(frozen=True)
class Bag(Frozen):
    """One lift bag that the team owns.

    Parameters
    ----------
    id : str
        Name on its label.
    style : str
        ``closed``, ``open`` or ``open with flap``.
    marked : float
        Capacity on the label, m3.
    really : Floats
        What it really holds, m3, shape (n,).
    weight : Floats
        Its weight in water when empty, kg, shape (n,).
    mass : Floats
        Its mass in air, kg, shape (n,).
    height : float
        Height when full, m.
    attachment : float or None
        Limit of its straps and ring, N.
    relief : float or None
        Relief pressure above ambient of a closed bag, Pa.
    pull : Floats or None
        Gas lost by one short pull of the dump at depth, m3, shape (n,); None when not measured.
    """

    id: str
    style: str
    marked: float
    really: Floats
    weight: Floats
    mass: Floats
    height: float
    attachment: float | None = None
    relief: float | None = None
    pull: Floats | None = None


@dataclass(frozen=True)
class Cylinder(Frozen):
    """The cylinder that fills the bags; nobody breathes from it.

    Parameters
    ----------
    id : str
        Name on the cylinder.
    capacity : float
        Water capacity, m3, all cylinders of a set together.
    pressure : Floats
        Gauge pressure at the start, Pa, shape (n,).
    flow : Floats
        Free flow into a bag at the surface, m3/s at surface pressure, shape (n,).
    flow_depth_pressure : Floats
        Absolute pressure at which that flow was measured, Pa, shape (n,).
    goes : str
        ``stays on the bottom``, ``with the bag tender`` or ``on the load``.
    weight : Floats
        Its weight in water, kg, shape (n,); counted only when it goes on the load.
    """

    id: str
    capacity: float
    pressure: Floats
    flow: Floats
    flow_depth_pressure: Floats
    goes: str
    weight: Floats


@dataclass(frozen=True)
class Rules(Frozen):
    """House rules that the lift stage uses; all come from the data file or the case.

    Parameters
    ----------
    divers_stop : float
        What two divers or a line can stop, kg.
    reaction : float
        Reaction time of the team, s.
    runaway_speed : float
        Highest bound of the speed of a runaway that is accepted, m/s.
    float_chance : float
        Asked-for chance that the load floats once free.
    reserve : float
        Reserve of lift at the surface, share of the required lift.
    spill_allowance : float
        Gas allowed for spill, share.
    cylinder_margin : float
        Gauge pressure above ambient below which a cylinder no longer fills, Pa.
    gauge_error : float
        Error of a cylinder gauge, Pa.
    intermediate : float
        Pressure above ambient behind the inflator, Pa.
    budget_depth : float
        Depth at which the delay budget is counted, m.
    carry_limit : float
        Most that divers carry by hand, kg.
    falling_angle : float
        Spread of a falling object, rad.
    clear_share : float
        Share of falls that stay inside the circles.
    """

    divers_stop: float
    reaction: float
    runaway_speed: float
    float_chance: float
    reserve: float
    spill_allowance: float
    cylinder_margin: float
    gauge_error: float
    intermediate: float
    budget_depth: float
    carry_limit: float
    falling_angle: float
    clear_share: float


@dataclass(frozen=True)
class LiftProblem(Frozen):
    """Everything that the lift stage needs, one column for each draw.

    Parameters
    ----------
    water_density, surface_pressure, temperature, depth : Floats
        kg/m3, Pa, K and m at the load, shape (n,).
    wet, dry, entrapped, envelope, displaced, breakout : Floats
        The load: weight in water kg, mass kg, trapped water kg, outer volume m3, displaced volume m3, break-out kg,
        (n,).
    rigging : Floats
        Weight in water of the rigging, kg, shape (n,).
    held : float
        What a line from above carries of the load, kg; 0 when no line helps.
    bags : tuple of Bag
        Bags that may be used, in date and not set aside.
    wanted : tuple of str or None
        Ids of the bags that have to be used; None lets the stage choose.
    method : str
        ``accompanied``, ``unaccompanied`` or another method of the contract.
    restrained : float
        What a restraint can stop, kg; 0 when there is none.
    cylinder : Cylinder or None
        The lifting cylinder.
    strop : Floats
        Height of the bags' mouth above the load, m, shape (n,); 0 for a point.
    as_point : bool
        True puts the gas at the load's own depth and ends with the load at the surface.
    target, ceiling : float
        Rates, m/s.
    drag_factor : Floats
        Drag area divided by volume to the power 2/3, shape (n,).
    drag_area : Floats or None
        Given drag area of everything that moves, m2, shape (n,).
    added_factor, bag_added_factor : Floats
        Added mass over the mass of water displaced by load and by gas, shape (n,).
    added_mass : Floats or None
        Given added mass of everything that moves, kg, shape (n,).
    surplus : Floats or None
        Given net lift at lift-off, kg, shape (n,).
    overfill : Floats
        Share of the required lift that is put in beyond neutral before anyone stops, shape (n,).
    stream : Floats
        Speed of the stream, m/s, shape (n,).
    tries : int
        Complete fills that the gas has to cover.
    gauge_u : Floats
        Uniform for the gauge's error, shape (n,).
    adiabatic : bool
        True asks for the adiabatic limit of the gas.
    rules : Rules
        House rules.
    """

    water_density: Floats
    surface_pressure: Floats
    temperature: Floats
    depth: Floats
    wet: Floats
    dry: Floats
    entrapped: Floats
    envelope: Floats
    displaced: Floats
    breakout: Floats
    rigging: Floats
    held: float
    bags: tuple[Bag, ...]
    wanted: tuple[str, ...] | None
    method: str
    restrained: float
    cylinder: Cylinder | None
    strop: Floats
    as_point: bool
    target: float
    ceiling: float
    drag_factor: Floats
    drag_area: Floats | None
    added_factor: Floats
    bag_added_factor: Floats
    added_mass: Floats | None
    surplus: Floats | None
    overfill: Floats
    stream: Floats
    tries: int
    gauge_u: Floats
    adiabatic: bool
    rules: Rules

    @property
    def gas_pressure(self) -> Floats:
        """Absolute pressure at the bags' gas-water interface when the load is on the bottom, Pa, shape (n,)."""
        return absolute_pressure(self.depth - self.strop, self.water_density, self.surface_pressure)

    @property
    def lift_density(self) -> Floats:
        """Lift of one m3 of gas at the bags' depth, kg/m3, shape (n,): water less gas."""
        return self.water_density - self.gas_pressure * (MOLAR_MASS_AIR / R) / self.temperature

    @property
    def on_load(self) -> Floats:
        """Weight in water of load, rigging and a cylinder on the load, less what a line carries, kg, shape (n,)."""
        extra = self.cylinder.weight if self.cylinder is not None and self.cylinder.goes == "on the load" else 0.0
        return self.wet + self.rigging + extra - self.held
