"""What the dive stage is asked: dives in the order of their start, with their tasks, divers and water."""

from __future__ import annotations

from dataclasses import dataclass

from parbuckle.dive.carried import Breathing, Carried, breathing
from parbuckle.dive.cylinders import Breathed
from parbuckle.dive.profile import Water
from parbuckle.dive.track import Track
from parbuckle.quantity.breathing import Gas
from parbuckle.quantity.frozen import Floats, Frozen


@dataclass(frozen=True)
class Task(Frozen):
    """One task of a dive.

    Parameters
    ----------
    name : str
        What is done.
    by : tuple of str
        Who is needed, the checker included; empty: everybody.
    time : Floats
        How long it takes, s, shape (n,).
    longest : float
        Its long end, slow hands in cold water counted, s.
    effort : str
        ``rest``, ``easy`` or ``work``.
    depth : Floats
        Where, m, shape (n,).
    meanwhile : bool
        True when it is done while the task before it is done, by other people.
    """

    name: str
    by: tuple[str, ...]
    time: Floats
    longest: float
    effort: str
    depth: Floats
    meanwhile: bool = False


@dataclass(frozen=True)
class Earlier(Frozen):
    """A dive that somebody made before this case.

    Parameters
    ----------
    depth : Floats
        Deepest depth, m, shape (n,).
    time : Floats
        Bottom time, s, shape (n,).
    gas : Gas
        What was breathed.
    surfaced : float
        When it ended, s since 1970.
    track : Track or None
        The dive as it was logged; None: only depth and time are known.
    """

    depth: Floats
    time: Floats
    gas: Gas
    surfaced: float
    track: Track | None = None


@dataclass(frozen=True)
class Diver(Frozen):
    """One person in the water.

    Parameters
    ----------
    name, role : str
        Who, as what.
    gas : Gas
        What is breathed.
    kit : Breathed or None
        The set; None when nobody said which.
    resting, working : Floats
        Rates, m3/s of free gas at the surface, shape (n,).
    easy : Floats
        Share of the way from the resting to the working rate while effort is easy, shape (n,).
    earlier : tuple of Earlier
        Dives before this case.
    carried : tuple of Carried
        Cylinders beside the set.
    """

    name: str
    role: str
    gas: Gas
    kit: Breathed | None
    resting: Floats
    working: Floats
    easy: Floats
    earlier: tuple[Earlier, ...] = ()
    carried: tuple[Carried, ...] = ()


@dataclass(frozen=True)
class DiveProblem(Frozen):
    """One dive.

    Parameters
    ----------
    label, does : str
        How it is called; what it is for.
    place : int
        Its place in the case, from 0.
    start : float or None
        Leaving the surface, s since 1970.
    tasks : tuple of Task
        In order.
    divers : tuple of Diver
        In the water from the start.
    beside : tuple of float or None
        Rate at which they go up beside the load, m/s, and depth at which they leave it, m; None: apart from it.
    standby : tuple of Diver
        Who waits at the surface, ready to go down.
    """

    label: str
    does: str
    place: int
    start: float | None
    tasks: tuple[Task, ...]
    divers: tuple[Diver, ...]
    beside: tuple[float, float] | None = None
    standby: tuple[Diver, ...] = ()

    def breathed_by(self, diver: Diver) -> Breathing:
        """Give what one diver breathes on this dive.

        Parameters
        ----------
        diver : Diver
            One of its divers.

        Returns
        -------
        Breathing
            With the waits of the whole team.
        """
        return breathing(diver.gas, diver.carried, [other.carried for other in self.divers])


@dataclass(frozen=True)
class Stream(Frozen):
    """The table of the stream, and what is asked of it.

    Parameters
    ----------
    times : tuple of float
        s since 1970, rising, at least two.
    east, north : tuple of Floats
        The stream at these times, m/s, each of shape (n,).
    limit : float
        Strongest stream that is worked in, m/s.
    error : Floats
        How much later than the table it all comes, s, shape (n,).
    """

    times: tuple[float, ...]
    east: tuple[Floats, ...]
    north: tuple[Floats, ...]
    limit: float
    error: Floats


@dataclass(frozen=True)
class DiveRules(Frozen):
    """Rates, factors and house figures.

    Parameters
    ----------
    factors : tuple of float
        Gradient factors, low and high.
    stop_depth, stop_time : float
        The stop that is always made, m and s.
    down, up : float
        Rates of descent and ascent, m/s.
    stress : Floats
        Rate of one person in trouble, m3/s of free gas, shape (n,).
    sort_out : float
        Time to sort it out before two people go up, s.
    least : float
        House figure of what is left at the surface, Pa gauge.
    overrun : float
        How much later than likely the over-run is at least, s.
    sawtooth : float
        Way up and down again that counts as a tooth, m.
    oxygen : float
        House limit of oxygen pressure, Pa.
    turn_share : float
        Share of the gas over the pressure to leave at that may be used on the way out.
    change : float
        Time that the team waits for a change of gas, s.
    carried_share : float
        Share of the gas of a carried cylinder that a plan may use on the way up.
    oxygen_up : float
        House limit of oxygen pressure of what is carried, Pa: breathed at rest.
    """

    factors: tuple[float, float]
    stop_depth: float
    stop_time: float
    down: float
    up: float
    stress: Floats
    sort_out: float
    least: float
    overrun: float
    sawtooth: float
    oxygen: float
    turn_share: float = 0.5
    change: float = 0.0
    carried_share: float = 1.0
    oxygen_up: float = float("inf")


@dataclass(frozen=True)
class DivingProblem(Frozen):
    """All dives of a case.

    Parameters
    ----------
    dives : tuple of DiveProblem
        In the order of their start.
    water : Water
        Air pressure and density.
    temperature : float
        Of the water, K.
    climbed : float
        Height above the sea, m.
    arrived : float or None
        When the team came up from the sea, s since 1970; None: just before the first dive.
    lives_there : bool
        True when the team has been at that height for days.
    stream : Stream or None
        The table of the stream with a limit; None when one of both is missing.
    daylight : float or None
        End of daylight, s since 1970.
    rules : DiveRules
        Rates, factors and house figures.
    """

    dives: tuple[DiveProblem, ...]
    water: Water
    temperature: float
    climbed: float
    arrived: float | None
    lives_there: bool
    stream: Stream | None
    daylight: float | None
    rules: DiveRules
