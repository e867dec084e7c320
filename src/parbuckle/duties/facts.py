"""What the rules look at: plain values of one case, already computed; a field that is left out means "not known"."""

from __future__ import annotations

from dataclasses import dataclass, field

from parbuckle.duties.control_facts import ControlFacts
from parbuckle.duties.dive_facts import DivingFacts
from parbuckle.duties.lift_facts import BagFacts, GasFacts, LiftFacts, LoadFacts, RigItem, SurfaceFacts
from parbuckle.duties.log_facts import LogFacts
from parbuckle.duties.people_facts import Dive, KitItem
from parbuckle.duties.regimes import OwnRules
from parbuckle.duties.search_facts import SearchFacts


@dataclass(frozen=True, slots=True)
class Answers:
    """What was answered to the questions that must be asked, word for word; empty text means not answered.

    Parameters
    ----------
    ordnance, remains_or_evidence, protected, fuel, electrics, snags, traffic : str
        Hazards: ``no``, ``yes``, ``unknown`` or words.
    owner, site, insurer : str
        Who said yes, and how: words.
    call, position, help, recall : str
        The emergency block: words.
    comms : str
        ``none``, ``line`` or ``voice``.
    gas_loss, entangled, runaway, carried_up : str
        What the team does, in its words; for a runaway lift the plan's own card stands in.
    position_apart : float or None
        From the position to tell to the origin of the map, m.
    position_in_words : bool
        True when the position was told and no place can be read from it.
    limit_visibility : float or None
        Least visibility that was set before the day, m.
    limit_stream : float or None
        Most stream that was set before the day, m/s.
    limit_wind : float or None
        Most wind that was set before the day, m/s.
    lift_points : str
        What is known of the load's own lift points: words.
    """

    ordnance: str = ""
    remains_or_evidence: str = ""
    protected: str = ""
    fuel: str = ""
    electrics: str = ""
    snags: str = ""
    traffic: str = ""
    owner: str = ""
    site: str = ""
    insurer: str = ""
    call: str = ""
    position: str = ""
    help: str = ""
    recall: str = ""
    comms: str = ""
    gas_loss: str = ""
    entangled: str = ""
    runaway: str = ""
    carried_up: str = ""
    position_apart: float | None = None
    position_in_words: bool = False
    limit_visibility: float | None = None
    limit_stream: float | None = None
    limit_wind: float | None = None
    lift_points: str = ""


@dataclass(frozen=True, slots=True)
class SiteFacts:
    """The place.

    Parameters
    ----------
    depth : float or None
        Depth to the bottom at the load, safe (deep) end, m.
    temperature : float or None
        Water temperature, safe (cold) end, K.
    visibility : float or None
        Visibility, safe (short) end, m.
    bottom : str
        The bottom, in words.
    bottom_soft : bool or None
        True for mud, clay or silt that holds by suction.
    tidal : bool or None
        True for tidal sea or brackish water; decides which rules for wreck apply.
    stream_told : bool or None
        True when a stream, or a table of it, was given.
    on_air : bool or None
        True when somebody breathes air at that depth.
    """

    depth: float | None = None
    temperature: float | None = None
    visibility: float | None = None
    bottom: str = ""
    bottom_soft: bool | None = None
    tidal: bool | None = None
    stream_told: bool | None = None
    on_air: bool | None = None


@dataclass(frozen=True, slots=True)
class Clock:
    """Times that run.

    Parameters
    ----------
    since_lost : float or None
        From the loss to the lift, s.
    daylight_left : float or None
        From the divers' planned surfacing (late end) to the end of daylight, s; below zero when it is dark.
    start_hour : float or None
        Local hour of the day at which the last dive starts, s after midnight.
    """

    since_lost: float | None = None
    daylight_left: float | None = None
    start_hour: float | None = None


@dataclass(frozen=True, slots=True)
class Lesson:
    """What a training evolution may use.

    Parameters
    ----------
    wet_low, wet_high : float or None
        Weight in water that this lesson may use, kg.
    deepest : float or None
        Depth that this lesson may use, m.
    sums_ashore : bool or None
        True when trainees must hand in their numbers before the lift.
    ratio : int or None
        Most trainees to one instructor in the water.
    """

    wet_low: float | None = None
    wet_high: float | None = None
    deepest: float | None = None
    sums_ashore: bool | None = None
    ratio: int | None = None


@dataclass(frozen=True, slots=True)
class Facts:
    """All that the rules see of one case.

    Parameters
    ----------
    purpose : str
        ``recovery`` or ``training``.
    rules : str
        Whose duties apply: ``private``, ``teaching``, ``commercial``, ``scientific``, ``public-safety``.
    country : str
        Two letters, such as ``GB``.
    units : str
        ``metric`` or ``imperial``: how findings are worded.
    answers : Answers
        What was answered.
    site : SiteFacts
        The place.
    load : LoadFacts
        The load.
    lift : LiftFacts
        How it comes up.
    control : ControlFacts
        The ascent with people on it.
    bags : tuple of BagFacts
        The bags in use.
    gas : GasFacts
        Lift gas.
    rigging : tuple of RigItem
        What the load hangs on.
    surface : SurfaceFacts
        At the surface.
    dives : tuple of Dive
        Who goes, in the order of the dives.
    diving : tuple of DivingFacts
        The dives that were worked out.
    logs : tuple of LogFacts
        Dives that are over; in a plan those that count as made before it.
    search : SearchFacts
        Where it is looked for.
    kit : tuple of KitItem
        Items that can go out of date.
    intervals_age : float or None
        Age of the country's table of inspection intervals on the day of the lift, s.
    clock : Clock
        Times that run.
    lesson : Lesson or None
        What the lesson may use; None for a recovery.
    own_rules : tuple of OwnRules
        Limits that the team, the site or an authority sets, in order.
    own_roles : tuple of (str, str)
        Roles that every dive must have by these rules, each with where that is written.
    cut : tuple of str
        Keys whose spread was cut at a physical limit.
    lacking : tuple of (str, str)
        Keys that a stage lacks, and what they are needed for; none that another question covers.
    assumed : tuple of str
        Inputs for which a named default stands in, each in a few words.
    """

    purpose: str = ""
    rules: str = ""
    country: str = ""
    units: str = "metric"
    answers: Answers = field(default_factory=Answers)
    site: SiteFacts = field(default_factory=SiteFacts)
    load: LoadFacts = field(default_factory=LoadFacts)
    lift: LiftFacts = field(default_factory=LiftFacts)
    control: ControlFacts = field(default_factory=ControlFacts)
    bags: tuple[BagFacts, ...] = ()
    gas: GasFacts = field(default_factory=GasFacts)
    rigging: tuple[RigItem, ...] = ()
    surface: SurfaceFacts = field(default_factory=SurfaceFacts)
    dives: tuple[Dive, ...] = ()
    diving: tuple[DivingFacts, ...] = ()
    logs: tuple[LogFacts, ...] = ()
    search: SearchFacts = field(default_factory=SearchFacts)
    kit: tuple[KitItem, ...] = ()
    intervals_age: float | None = None
    clock: Clock = field(default_factory=Clock)
    lesson: Lesson | None = None
    own_rules: tuple[OwnRules, ...] = ()
    own_roles: tuple[tuple[str, str], ...] = ()
    cut: tuple[str, ...] = ()
    lacking: tuple[tuple[str, str], ...] = ()
    assumed: tuple[str, ...] = ()
