"""What a thing that nobody said may usually be: its careful and its favourable end.

Silence is a range, never nothing. A request is filled with the careful end of all that it does not
say; whoever judges fills it with the favourable ends too, or with one careful end at a time. So a
lift of which less is told is never better than one told anything within the usual range.

The ranges are common practice and have no source, but where one is named.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass, replace
from typing import Any, get_args

from liftcalc import units
from liftcalc.evaluation.lift import OFF_CENTRE, Lift, Untyped
from liftcalc.factors import LEVEL_LIMIT
from liftcalc.machines.lookup import bare
from liftcalc.machines.schema import Attachment
from liftcalc.remarks import Figure, Remark, near
from liftcalc.requests.assumed import Assumption
from liftcalc.requests.fields import LiftRequest, names_of
from liftcalc.requests.lift import ParsedLift, as_lift, parse_lift
from liftcalc.requests.reader import said
from liftcalc.requests.sections import Situation
from liftcalc.requests.table import Field, field_of
from liftcalc.rigging.lift_mode import CHOKE_IN
from liftcalc.rigging.sling import BALANCE_MISS

End = str | Callable[[Lift], str]
"""A text as it would be typed, or what makes one of the lift as far as it is told."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Usual:
    """The usual range of what nobody said: careful and favourable end, and why it is no wider.

    ``asked`` says of which lifts it is asked at all.
    """

    careful: End
    favourable: End
    why: str
    asked: Callable[[Lift], bool] = lambda _: True

    def texts(self, lift: Lift) -> tuple[str, str]:
        """Both ends of a lift as far as it is told, the careful one first."""
        careful, favourable = (
            end if isinstance(end, str) else end(lift) for end in (self.careful, self.favourable)
        )
        return careful, favourable


def _metres(value: float) -> str:
    return f"{value:.2f} m"


def _longer_sling(lift: Lift) -> str:
    """The shortest that goes round the log, and half a metre."""
    return _metres(lift.sling.length + 0.5)


def _told_sling(lift: Lift) -> str:
    """The shortest that goes round the log."""
    return _metres(lift.sling.length)


def _hook_far_in(lift: Lift) -> str:
    """Three fifths of the log from the end on the ground."""
    return _metres(0.6 * lift.measure.length)


def _hook_at_end(lift: Lift) -> str:
    """0.3 m short of the other end."""
    return _metres(max(lift.measure.length - CHOKE_IN, 0.6 * lift.measure.length))


def _off_balance(lift: Lift) -> str:
    """A twentieth of the log's length."""
    return _metres(OFF_CENTRE * lift.measure.length)


def _worn(lift: Lift) -> str:
    """Nine tenths of the file's."""
    return f"{0.9 * float(lift.machine.hydraulics.working_pressure) / 1e5:.1f} bar"


def _of_book(lift: Lift) -> str:
    """The file's."""
    return f"{float(lift.machine.hydraulics.working_pressure) / 1e5:.6f} bar"


USUAL: dict[str, Usual] = {
    "mud": Usual(
        careful="2 %",
        favourable="0 kg",
        why="what sticks to a log that lay on the ground",
        asked=lambda lift: lift.measure.weighed is None,
    ),
    "sling_length": Usual(
        careful=_longer_sling,
        favourable=_told_sling,
        why="the shortest that goes round it, and half a metre",
    ),
    "rigging_mass": Usual(
        careful="25 kg", favourable="5 kg", why="a sling to a long chain with hooks"
    ),
    "hook_at": Usual(
        careful=_hook_far_in, favourable=_hook_at_end, why="from near its end to well along it"
    ),
    "breakout": Usual(
        careful="2", favourable="1", why="one that has lain is bedded, mired or frozen in"
    ),
    "drag_friction": Usual(
        careful="1", favourable="0.5", why="over stumps and ruts, or a smooth track"
    ),
    "surface": Usual(careful="bark on, wet", favourable="bark on", why="wet or dry"),
    "pressure": Usual(careful=_worn, favourable=_of_book, why="a relief valve that has aged"),
    "wind": Usual(
        careful="8 m/s", favourable="0 m/s", why="up to a fresh breeze; more stops the work"
    ),
    "swing": Usual(careful="2 deg", favourable="0 deg", why="no log hangs dead still"),
    "off_centre": Usual(
        careful=_off_balance, favourable="0 m", why="a twentieth of the log's length"
    ),
    "slew_speed": Usual(
        careful="9 deg/s", favourable="0 deg/s", why="slow: a quarter turn in ten seconds"
    ),
    "slew_stop": Usual(careful="2 s", favourable="4 s", why="the lever eased, not let go"),
    "lower_speed": Usual(
        careful="0.2 m/s", favourable="0.05 m/s", why="lowered slowly, the lever eased"
    ),
    "devices": Usual(
        careful="none", favourable="fitted", why="many an old machine has neither; look for them"
    ),
    "speed": Usual(careful="5 km/h", favourable="2 km/h", why="up to a walk"),
    "turn_radius": Usual(careful="6 m", favourable="20 m", why="an ordinary turn"),
    "braking": Usual(
        careful="1.4 m/s2", favourable="0.5 m/s2", why="from a walk to a stand in a second"
    ),
    "sinkage": Usual(careful="5 cm", favourable="0 cm", why="a shallow rut"),
    "wires_on": Usual(
        careful="steel towers",
        favourable="wood poles",
        why="as for the highest voltage",
        asked=lambda lift: math.isfinite(lift.hazards.wires_distance or math.inf),
    ),
    "wires_voltage": Usual(
        careful="1000 kV",
        favourable="50 kV",
        why="the whole of the table of distances",
        asked=lambda lift: math.isfinite(lift.hazards.wires_distance or math.inf),
    ),
}
"""By field; what is not here is asked for, or has its range in the lift itself."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ranged:
    """A lift of which not all was said.

    ``read`` is the lift at the careful end of every range, with the echoes of what was said;
    ``doubts`` name all that has a range, and ``at`` gives the lift with only some of them at the
    careful end.
    """

    request: LiftRequest
    told: ParsedLift
    read: ParsedLift
    doubts: tuple[str, ...]

    def at(self, careful: Collection[str]) -> Lift:
        """The lift with these doubts at their careful end, and all others at the favourable."""
        return _lift(self.request, self.told.lift, self.doubts, careful)

    @property
    def either(self) -> Iterator[tuple[dict[str, Any], ...]]:
        """Of doubts that have no one favourable end, what else the lift may be: by fields of it."""
        lift = self.told.lift
        if "empty_seat" in self.doubts:
            yield ({"operator": False},)
        if "other_attachment" in self.doubts:
            yield tuple({"other_tool": each} for each in _other_tools(lift))
        if "slope" in self.doubts:
            yield tuple(
                {"site": replace(lift.site, slope=LEVEL_LIMIT, heading=way)}
                for way in (0.0, math.pi / 2, math.pi, -math.pi / 2)
            )


IN_LIFT = {
    "slope": Remark("taken_slope", within=near(math.tan(LEVEL_LIMIT), "ratio")),
    "empty_seat": Remark("taken_seat"),
    "other_attachment": Remark("taken_other"),
    "species": Remark("taken_heavy"),
    "ground": Remark("taken_weak"),
    "hangs_level": Remark("taken_balance", miss=near(BALANCE_MISS, "ratio")),
    "machine": Remark("taken_worn"),
    "hanging quiet": Remark("taken_swinging"),
}
"""Doubts that no text fills, and what is taken for them."""


def ranged(request: LiftRequest) -> Ranged:
    """Read a lift, and give all that it does not say its usual range.

    Raises
    ------
    InputError
        With every fault of every field, as ``parse_lift``.
    """
    request = as_lift(request)
    told = _told(request)
    fields = _unsaid(request, told.lift)
    doubts = (*fields, *(each for each in IN_LIFT if _open(each, request, told.lift)))
    lift = _lift(request, told.lift, doubts, doubts)
    assumed = (
        *(each for each in told.assumed if each.field not in doubts),
        *(
            Assumption(field=name, said=_said(row, USUAL[name], told.lift))
            for name, row in fields.items()
        ),
        *(
            Assumption(field=each, said=IN_LIFT[each])
            for each in doubts
            # Ground that nobody named has no name that it could be weak for.
            if each in IN_LIFT and (each != "ground" or told.lift.ground is not None)
        ),
    )
    lift = replace(lift, assumed=tuple(each.said for each in assumed))
    read = ParsedLift(lift=lift, echoes=told.echoes, assumed=assumed)
    return Ranged(request=request, told=told, read=read, doubts=doubts)


def _told(request: LiftRequest) -> ParsedLift:
    """The lift as far as it is told; slewing cannot be read without the time in which it stops."""
    if not said(request.slew_speed) or said(request.slew_stop):
        return parse_lift(request)
    read = parse_lift(replace(request, slew_stop=str(USUAL["slew_stop"].careful)))
    return replace(read, echoes=tuple(each for each in read.echoes if each[0] != "slew-stop"))


def careful_lift(request: LiftRequest) -> ParsedLift:
    """Read a lift, with all that it does not say at its careful end."""
    return ranged(request).read


def _unsaid(request: LiftRequest, lift: Lift) -> dict[str, Field]:
    """Rows that have a usual range, mean something here, and were not said."""
    typed = {name: getattr(request, name) for name in names_of(LiftRequest)}
    here = Situation(said=typed | {"stance": lift.stance}, tool=lift.tool, point=lift.point)
    rows = {name: field_of(LiftRequest, name) for name in USUAL}
    return {
        name: row
        for name, row in rows.items()
        if not said(typed[name]) and row.applies(here) and USUAL[name].asked(lift)
    }


def _open(doubt: str, request: LiftRequest, lift: Lift) -> bool:
    """Whether a doubt that no text fills is one here."""
    if doubt == "slope":
        return not said(request.slope) and not lift.site.levelled
    if doubt == "empty_seat":
        return not request.empty_seat
    if doubt == "other_attachment":
        # A bucket that is pressed on the ground is known.
        return not said(request.other_attachment) and lift.stance != "stabilisers and bucket"
    if doubt == "hangs_level":
        return not request.hangs_level and lift.point.hold == "hangs"
    if doubt == "hanging quiet":
        slews = bool(lift.motion.slew_speed) or not said(request.slew_speed)
        return slews and lift.point.hold == "hangs" and lift.end == "back"
    return True  # the log weighs what it weighs, and the machine stands on something


def _lift(
    request: LiftRequest, told: Lift, doubts: Collection[str], careful: Collection[str]
) -> Lift:
    """The lift with some of its doubts at their careful end, and the others at their favourable."""
    texts: dict[str, Any] = {
        name: USUAL[name].texts(told)[name not in careful] for name in doubts if name in USUAL
    }
    untyped = set(get_args(Untyped)) & set(doubts)
    more: dict[str, Any] = {"hopeful": frozenset(untyped - set(careful))}
    if "slope" in careful:
        more["level_within"] = LEVEL_LIMIT
    if "empty_seat" in careful:
        more["operator"] = None
    if "hangs_level" not in careful:
        more["at_balance"] = True
    lift = parse_lift(replace(request, **texts)).lift
    if "other_attachment" in careful:
        more["others"] = _other_tools(lift)
    if "species" not in careful:
        more["log"] = replace(lift.log, mass_planning=lift.log.mass_low)
    return replace(lift, **more)


def _other_tools(lift: Lift) -> tuple[Attachment, ...]:
    """What else may be fitted at the other end."""
    tools = (each for each in lift.machine.attachment if each.end != lift.end)
    return bare(lift.other_tool.end), *(each for each in tools if each is not lift.other_tool)


def _said(row: Field, usual: Usual, lift: Lift) -> Remark:
    """What was taken for a field, in words: both ends of its range, and why."""
    careful, favourable = (_figure(row, text) for text in usual.texts(lift))
    return Remark(
        "taken_usual", label=row.label, careful=careful, favourable=favourable, why=usual.why
    )


def _figure(row: Field, text: str) -> Figure | str:
    kind: Any = "mass" if row.kind == "extra" else row.kind
    if row.kind in {"choice", "ratio"} or "%" in text:
        return text
    # A speed is told in the unit in which it is typed.
    shown: Any = "slow speed" if text.endswith("m/s") else kind
    return Figure(units.read(text, kind).value, shown)
