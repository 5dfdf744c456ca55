"""What stands near the machine: overhead wires, edges of ditches and banks, people."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal, get_args

from liftcalc.errors import Fault, Gather, InputError
from liftcalc.physics import formulas
from liftcalc.physics.functions import Real, maximum, minimum
from liftcalc.physics.worked import Worked, work
from liftcalc.remarks import Remark, near
from liftcalc.site.clearance import Clearance
from liftcalc.units import FOOT

Rules = Literal["uk", "us"]
"""Whose distances to overhead wires are kept."""

WiresOn = Literal["steel towers", "wood poles"]

UK_ADVICE = 10.0
"""Along the ground, nearer than which work needs the network operator's advice [m]; hse_trees."""

UK_CARRIED: dict[WiresOn, float] = {"steel towers": 15.0, "wood poles": 9.0}
"""Beyond all that reaches out, from wires carried so [m]; source: hse_gs6."""

US_TABLE: tuple[tuple[float, float], ...] = (
    (50e3, 10 * FOOT),
    (200e3, 15 * FOOT),
    (350e3, 20 * FOOT),
    (500e3, 25 * FOOT),
    (750e3, 35 * FOOT),
    (1000e3, 45 * FOOT),
)
"""Voltage up to [V], distance [m]; source: osha_1408."""

LOW_WIRES = 5.2
"""As low as this wires may hang [m]; source: hse_ais8."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hazards:
    """What is near, as far as it was said; None is not said, never that there is nothing.

    Attributes
    ----------
    rules : "uk", "us" or None
        Whose distances to wires are kept; must be said when wires are.
    wires_distance : float or None
        Along the ground from the slew axis, at the front from the front axle, to below the
        nearest wire [m]; infinite says that there are none.
    wires_voltage : float or None
        Of the line [V]; only the US rules ask for it.
    wires_on : "steel towers", "wood poles" or None
        What carries the wires; only the UK rules ask for it.
    edge_distance, edge_depth : float or None
        From the nearest pad or tyre to the edge of a ditch or bank, and its depth [m]; infinite
        distance says that there is none.
    people_distance : float or None
        From the point on the ground below the hook to the nearest person who is not in the cab
        [m]; infinite says that nobody is about.

    Raises
    ------
    InputError
        With a fault for everything that is not a number, out of bounds, not known by that name,
        or of no use without another value that was not given.
    """

    rules: Rules | None = None
    wires_distance: float | None = None
    wires_voltage: float | None = None
    wires_on: WiresOn | None = None
    edge_distance: float | None = None
    edge_depth: float | None = None
    people_distance: float | None = None

    def __post_init__(self) -> None:
        gather = Gather()
        for option, distance in (
            ("wires", self.wires_distance),
            ("edge", self.edge_distance),
            ("edge-depth", self.edge_depth),
            ("people", self.people_distance),
        ):
            with gather:
                _distance(option, distance)
        with gather:
            _one_of("rules", self.rules, get_args(Rules))
        with gather:
            _one_of("wires-on", self.wires_on, get_args(WiresOn))
        with gather:
            self._voltage_is_sound()
        gather.faults.extend(self._lacking())
        gather.raise_any()

    def _voltage_is_sound(self) -> None:
        if self.wires_voltage is None:
            return
        if not (self.wires_voltage > 0 and math.isfinite(self.wires_voltage)):
            raise InputError.of(
                field="wires-voltage",
                given=f"{self.wires_voltage:g} V",
                wanted="a voltage above zero",
                fix="leave it out when it is not known: the largest distance is then kept",
            )
        if self.rules == "us":
            us_distance(voltage=self.wires_voltage)

    def _lacking(self) -> list[Fault]:
        """What was given that says nothing without another value."""
        lacking = []
        if self.wires_distance is not None and self.rules is None:
            lacking.append(
                Fault(
                    field="rules",
                    given="a distance to overhead wires and no rule set",
                    wanted="whose distances to keep: uk or us",
                    fix="name the country's rules; the network operator's own come before both",
                )
            )
        wires_said = self.wires_voltage is not None or self.wires_on is not None
        if wires_said and self.wires_distance is None:
            lacking.append(
                Fault(
                    field="wires",
                    given="what wires there are and not how far",
                    wanted="the distance along the ground to below the nearest wire",
                    fix="pace it on the ground; never measure up to a wire",
                )
            )
        if (self.edge_depth is None) != (self.edge_distance is None):
            absent = "edge-depth" if self.edge_depth is None else "edge"
            if self.edge_distance != math.inf:
                lacking.append(
                    Fault(
                        field=absent,
                        given="an edge without it",
                        wanted="distance to the edge and depth of the ditch or bank, both",
                        fix="if the depth cannot be seen, take the deepest it can be",
                    )
                )
        return lacking


def _distance(option: str, value: float | None) -> None:
    if value is not None and not value >= 0:
        raise InputError.of(
            field=option,
            given=f"{value:g} m",
            wanted="a length of zero or more",
            fix="measure along the ground",
        )


def _one_of(field: str, value: str | None, known: tuple[str, ...]) -> None:
    if value is not None and value not in known:
        raise InputError.of(field=field, given=f'"{value}"', wanted=f"one of {', '.join(known)}")


def us_distance(*, voltage: float | None) -> float:
    """Distance to keep from wires by the US table [m].

    Parameters
    ----------
    voltage : float or None
        Of the line [V]; None is not known: the largest of the table.

    Raises
    ------
    InputError
        Above the table, where only the owner of the line can say; and for what is not a number.
    """
    if voltage is None:
        return US_TABLE[-1][1]
    for most, distance in US_TABLE:
        if voltage <= most:
            return distance
    raise InputError.of(
        field="wires-voltage",
        given=f"{voltage / 1e3:g} kV",
        wanted="at most 1000 kV: beyond it 29 CFR 1926.1408 gives no distance",
        fix="ask the owner or operator of the line, and keep away until they have answered",
    )


def uk_distance(*, wires_on: WiresOn | None) -> float:
    """Distance to keep from wires by UK guidance, without the network operator's advice [m].

    Parameters
    ----------
    wires_on : "steel towers", "wood poles" or None
        What carries them; None is not known: the largest.
    """
    carried = max(UK_CARRIED.values()) if wires_on is None else UK_CARRIED[wires_on]
    return max(UK_ADVICE, carried)


def _swing(lean: Real) -> Real:
    """A lean that sideways displacement never falls with: past level it stays level."""
    return minimum(abs(lean), math.pi / 2)


def wires(
    hazards: Hazards, *, reach: Real, far_end: Real, drop: Real, lean: Real
) -> Clearance | None:
    """Distance left to overhead wires.

    Parameters
    ----------
    hazards : Hazards
    reach : float or array
        Of the hook from the slew axis, at the front ahead of the front axle [m].
    far_end : float or array
        Farthest that log, arm or attachment stands out beyond the hook, whichever is most [m].
    drop : float or array
        Middle of the log below the lift point [m]; zero for a load held fast.
    lean : float or array
        Of the hanging load when it swings [rad].

    Returns
    -------
    Clearance or None
        None when nothing was said of wires.

    Notes
    -----
    Measured along the ground; the wires' height is never counted, which understates the distance
    where they hang high. The log is taken to point straight at them, on whichever side they are.
    """
    if hazards.wires_distance is None:
        return None
    out = work(
        "how far the log comes",
        formulas.farthest_point,
        hook_reach=maximum(reach, 0.0),
        far_end=maximum(far_end, 0.0),
        hanging_drop=max(drop, 0.0),
        lean=_swing(lean),
    )
    uk = hazards.rules == "uk"
    needs = (
        uk_distance(wires_on=hazards.wires_on) if uk else us_distance(voltage=hazards.wires_voltage)
    )
    return Clearance(
        name="overhead wires",
        where="from the log swung out at full reach",
        needs=needs,
        has=hazards.wires_distance - out.steps.farthest_point,
        source="osha_1408" if not uk else "hse_gs6" if needs > UK_ADVICE else "hse_trees",
        said=_uk_said(hazards.wires_on) if uk else _us_said(hazards.wires_voltage),
        kind="wires",
        worked=(out,),
    )


def _uk_said(wires_on: WiresOn | None) -> Remark:
    carried = Remark("wires_on", on=wires_on) if wires_on else Remark("carried_unsaid")
    return Remark("uk_wires", carried=carried)


def _us_said(voltage: float | None) -> Remark:
    if voltage is None:
        return Remark("us_wires_unsaid")
    return Remark("us_wires", voltage=near(voltage, "voltage"))


def edge(hazards: Hazards, *, depths: float = 2.0) -> Clearance | None:
    """Stand-off of the nearest pad or tyre from the edge of a ditch or bank.

    Returns
    -------
    Clearance or None
        None when nothing was said of an edge. As many depths of it back as asked for; from memory.
        Wet, undercut or filled banks give way farther back: it understates for them.
    """
    if hazards.edge_distance is None or hazards.edge_depth is None:
        return None
    return Clearance(
        name="edge",
        where="from the nearest pad or tyre",
        needs=depths * hazards.edge_depth,
        has=hazards.edge_distance,
        source="edge_memory",
        said=Remark("edge", depths=depths),
        kind="edge",
    )


def keep_out(*, far_end: float, drop: float, lean: Real, lowest: Real) -> Worked:
    """Radius round the point below the hook that people stay out of [m], as worked.

    Parameters
    ----------
    far_end : float
        Of the log from where it is held [m].
    drop : float
        Middle of the log below the lift point [m]; zero for a load held fast.
    lean : float or array
        Of the hanging load when it swings [rad].
    lowest : float or array
        Lowest point of the log above the ground the machine stands on [m]: from there it can
        fall, also where the ground below it is higher.

    Notes
    -----
    Common practice, no source. Overstates on level ground; downhill a log can roll farther.
    """
    return work(
        "circle to keep out of",
        formulas.exclusion_radius,
        far_end=max(far_end, 0.0),
        lowest_height=maximum(lowest, 0.0),
        hanging_drop=max(drop, 0.0),
        lean=_swing(lean),
    )


def circle(hazards: Hazards, *, keep_out: Worked, swept: Real) -> Clearance | None:
    """Distance of the nearest person against the circle to keep out of.

    Parameters
    ----------
    hazards : Hazards
    keep_out : Worked
        The circle round the point below the hook.
    swept : float or array
        How far that point itself may come from where it is, as the end slews [m]. A person is told
        only as a distance, so all round counts, which overstates.

    Returns
    -------
    Clearance or None
        None when nothing was said of people.
    """
    if hazards.people_distance is None:
        return None
    return Clearance(
        name="people",
        where="from the point below the hook",
        needs=keep_out.steps.exclusion_radius + swept,
        has=hazards.people_distance,
        source="practice",
        said=Remark("circle"),
        kind="people",
        worked=(keep_out,),
    )


def missing(hazards: Hazards) -> tuple[Remark, ...]:
    """What was not said of the site."""
    lacking = []
    if hazards.wires_distance is None:
        lacking.append(Remark("unsaid_wires"))
    if hazards.edge_distance is None:
        lacking.append(Remark("unsaid_edge"))
    if hazards.people_distance is None:
        lacking.append(Remark("unsaid_people"))
    return tuple(lacking)
