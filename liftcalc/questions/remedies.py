"""What would buy more: changes to a lift, each with the kilograms it is worth, by forward check."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np

from liftcalc.evaluation.answer import CriterionKind
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.linear_criteria import pad_area
from liftcalc.evaluation.log_position import room_to_machine
from liftcalc.evaluation.sweep import sweep
from liftcalc.factors import LEVEL_LIMIT
from liftcalc.machines.lookup import bare
from liftcalc.machines.schema import Attachment, EndName, LiftPoint
from liftcalc.physics.worked import Worked
from liftcalc.questions.ballast import usual_spots, with_ballast
from liftcalc.questions.longest import lift_of_piece, longest_piece
from liftcalc.questions.search import Outcome, tried
from liftcalc.remarks import Remark, down, near, up
from liftcalc.requests.lift import USUAL_CURL
from liftcalc.rigging.lift_mode import LiftMode, LogEnd
from liftcalc.timber.piece import Keep

STRIDE = 0.5
"""How far "closer" and "lower" go [m]."""
BALLAST = 200.0
"""Ballast that is tried [kg]."""
RIGGING: tuple[CriterionKind, ...] = ("sling", "hook", "shackle", "hitch")
"""Criteria that a heavier part of the rigging moves."""
MATS = (0.6, 0.8, 1.0, 1.2, 1.5)
"""Sides of square mats that are tried [m]; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Remedy:
    """A change and what it is worth.

    ``worth`` is by how much the margin (heaviest log allowed less the mass to be lifted) grows
    [kg], rounded down; None for advice that has no figure yet. ``after`` is the forward check with
    the change, ``must`` what has to be true for it to count, ``worked`` the formula behind a change
    of the load, where there is one.
    """

    name: Remark
    worth: int | None
    after: Outcome
    must: Remark
    worked: Worked | None = None


class _Change(NamedTuple):
    """What to do, the lift with it, and what has to be true for it to count."""

    name: Remark
    lift: Lift
    must: Remark
    worked: Worked | None = None


def remedies(lift: Lift, *, without: tuple[str, ...] = ()) -> tuple[Remedy, ...]:
    """Changes that would leave more margin, largest first.

    Parameters
    ----------
    lift : Lift
        As asked; the pose must be one that the machine can take, or only what can be taken after
        the change counts from nothing.
    without : tuple of str
        Kinds of change to leave out, by the names in ``KINDS``.

    Returns
    -------
    tuple of Remedy
        Only real gains, each of at least one kilogram; then advice without figures. A gain where
        the lift was impossible before counts from a margin of minus the log.
    """
    before = tried(lift)
    # What cannot be lifted at all has a heaviest log of nothing.
    base = max(before.margin, -lift.log.mass_planning)
    found: list[Remedy] = []
    for kind, changes in KINDS.items():
        if kind in without:
            continue
        best = max(
            (made for change in changes(lift) if (made := _made(change, before, base))),
            key=lambda made: made.worth or 0,
            default=None,
        )
        if best is not None:
            found.append(best)
    found.sort(key=lambda made: -(made.worth or 0))
    return (*found, *_advice(before))


def _made(change: _Change, before: Outcome, base: float) -> Remedy | None:
    after = tried(change.lift)
    if after.answer is None or _newly_buried(before, after):
        return None
    turned, across = _room(before, after)
    worth = math.floor(after.margin - base + 1e-9)
    if worth < 1 or across < 0:
        return None
    must = change.must if turned >= 0 else Remark("kept_across", must=change.must)
    return Remedy(name=change.name, worth=worth, after=after, must=must, worked=change.worked)


def _newly_buried(before: Outcome, after: Outcome) -> bool:
    """Whether the change would put the log into the ground."""
    assert after.answer is not None
    return after.answer.lowest < min(0.0, before.answer.lowest if before.answer else 0.0)


def _room(before: Outcome, after: Outcome) -> tuple[float, float]:
    """Room between log and machine, turned and across [m], where the change brings it nearer."""
    assert after.answer is not None
    out = float(after.answer.reached.reach)
    was = before.answer if before.lift.end == after.lift.end else None
    if was is not None and out > float(was.reached.reach) - 1e-9:
        return math.inf, math.inf
    turned, across = room_to_machine(after.lift, reach=out)
    return float(turned), float(across)


def _closer(lift: Lift) -> Iterator[_Change]:
    if lift.end == "back" and lift.reach is not None and lift.reach > STRIDE:
        yield _Change(
            Remark("closer", by=near(STRIDE, "length")),
            replace(lift, reach=lift.reach - STRIDE),
            Remark("can_come_nearer"),
        )


def _lower(lift: Lift) -> Iterator[_Change]:
    yield _Change(
        Remark("lower", by=near(STRIDE, "length")),
        replace(
            lift, height=lift.height - STRIDE, reach=lift.reach if lift.end == "back" else None
        ),
        Remark("clear_below"),
    )


def _other_end(lift: Lift) -> Iterator[_Change]:
    end: EndName = "front" if lift.end == "back" else "back"
    points = () if lift.other_tool is bare(end) else lift.other_tool.lift_point
    for point in points:
        turned = replace(
            with_other_end(lift, point),
            travelling=False,
            stance="wheels" if end == "front" else "stabilisers",
            # On its wheels nothing levels it, and standing it neither turns nor brakes.
            site=replace(lift.site, levelled=False),
            motion=replace(lift.motion, speed=0.0, turn_radius=None, braking=0.0),
        )
        where = Remark("can_face")
        if end == "back":
            reach = _best_reach(turned)
            if reach is None:
                continue
            turned = replace(turned, reach=reach)
            where = Remark("can_turn_about", reach=near(reach, "length"))
        yield _Change(
            Remark("other_end", end=end, tool=lift.other_tool.name, point=point.name),
            turned,
            Remark("allowed_over_there", where=where),
        )


def _best_reach(lift: Lift) -> float | None:
    """Where the back end is allowed most at the height, to a decimetre [m].

    Where the log may turn without meeting the machine; failing that where it may lie across; None
    where there is no such place.
    """
    every = np.arange(1, 100) / 10
    for room in room_to_machine(lift, reach=every):
        places = every[room >= 0]
        allowed = sweep(lift, reach=places, height=np.full(places.size, lift.height)).allowed[:, 0]
        if not np.isnan(allowed).all():
            return float(places[int(np.nanargmax(allowed))])
    return None


def _one_end(lift: Lift) -> Iterator[_Change]:
    """Only one end of the log is raised; the other stays on the ground."""
    # Hung higher than it is long it would hang upright, all of it on the hook.
    high = lift.measure.length <= lift.height
    if lift.point.hold != "hangs" or lift.travelling or lift.taken.way != "whole" or high:
        return
    ends: tuple[tuple[LogEnd, LogEnd], ...] = (("top", "butt"), ("butt", "top"))
    for raised, resting in ends:
        taken = LiftMode(way="one end", ground_end=resting, breakout=lift.taken.breakout)
        changed = replace(lift, taken=taken)
        yield _Change(
            Remark("one_end_at_a_time", end=raised),
            changed,
            Remark("choked_near_end", resting=resting),
            worked=changed.pull.worked[0],
        )


def _mats(lift: Lift) -> Iterator[_Change]:
    if lift.stance == "wheels" or lift.ground is None or not lift.ground.presumed:
        return
    own = pad_area(lift)
    for side in MATS:
        if side**2 > own:
            yield _Change(
                Remark("mats_under_pads", side=up(side, "length")),
                replace(lift, mat=side),
                Remark("lie_stiff"),
            )


def _cut(lift: Lift) -> Iterator[_Change]:
    if tried(lift).passes or lift.measure.butt is None or lift.measure.top is None:
        return
    keeps: tuple[Keep, ...] = ("butt", "top")
    for keep in keeps:
        found = longest_piece(lift, keep=keep)
        if found.value is None:
            continue
        left = lift.measure.length - found.value
        at = down(found.value, "length") if keep == "butt" else up(left, "length")
        yield _Change(
            Remark("cut", at=at, keep=keep),
            lift_of_piece(lift, keep=keep, length=found.value),
            Remark("safe_to_cut"),
        )


def _ballast(lift: Lift) -> Iterator[_Change]:
    for spot in usual_spots(lift.machine):
        yield _Change(
            Remark("more_ballast", mass=near(BALLAST, "mass"), spot=spot.name),
            with_ballast(lift, mass=BALLAST, spot=spot),
            Remark("rated_for_it"),
        )


def _pressed(lift: Lift) -> Iterator[_Change]:
    if lift.end == "back" and lift.stance != "stabilisers and bucket":
        yield _Change(
            Remark("press_bucket"),
            replace(lift, stance="stabilisers and bucket"),
            Remark("bucket_carries"),
        )


def _stabilisers(lift: Lift) -> Iterator[_Change]:
    if lift.stance == "wheels" and not lift.travelling:
        yield _Change(
            Remark("stabilisers_down"),
            # Proved under tyres, the ground is not proved under pads.
            replace(lift, stance="stabilisers", proved=None),
            Remark("pads_hold"),
        )


def _level(lift: Lift) -> Iterator[_Change]:
    if not lift.site.leans:
        return
    level = near(math.tan(LEVEL_LIMIT), "ratio")
    if lift.travelling:
        yield _Change(
            Remark("go_level"),
            replace(lift, site=replace(lift.site, slope=0.0)),
            Remark("level_way", level=level),
        )
        return
    down = "stabilisers" if lift.stance == "wheels" else lift.stance
    yield _Change(
        Remark("level_on_legs" if lift.stance == "wheels" else "level"),
        replace(
            lift,
            stance=down,
            proved=lift.proved if down == lift.stance else None,
            site=replace(lift.site, levelled=True),
        ),
        Remark("stands_level", level=level),
    )


def _attachment(lift: Lift) -> Iterator[_Change]:
    for tool in lift.machine.attachment:
        if tool.end != lift.end:
            continue
        for point in tool.lift_point:
            if (tool.name, point.name) != (lift.tool.name, lift.point.name):
                yield _Change(
                    Remark("use", tool=tool.name, point=point.name),
                    fitted(lift, tool, point),
                    Remark("fitted_and_sound"),
                )


def fitted(lift: Lift, tool: Attachment, point: LiftPoint) -> Lift:
    """The same lift with another attachment at its usual tilt or curl.

    What does not hang from it is lifted whole.
    """
    return replace(
        lift,
        tool=tool,
        point=point,
        tilt=float(tool.usual_tilt or 0.0),
        taken=lift.taken if point.hold == "hangs" else LiftMode(),
        curl=float(USUAL_CURL if tool.usual_curl is None else tool.usual_curl),
        reach=lift.reach if lift.end == "back" else None,
    )


def with_other_end(lift: Lift, point: LiftPoint) -> Lift:
    """The same log with what is fitted at the other end, as that end stands by itself."""
    return replace(
        fitted(lift, lift.other_tool, point),
        end="front" if lift.end == "back" else "back",
        other_tool=lift.tool,
        slew=0.0,
        sideshift=0.0,
        plate=None,
        proved=None,
        reach=None,
    )


KINDS: dict[str, Callable[[Lift], Iterator[_Change]]] = {
    "closer": _closer,
    "lower": _lower,
    "other end": _other_end,
    "one end": _one_end,
    "cut": _cut,
    "ballast": _ballast,
    "pressed bucket": _pressed,
    "stabilisers": _stabilisers,
    "mats": _mats,
    "level": _level,
    "attachment": _attachment,
}
"""Kinds of change; of each the best counts."""


def _advice(before: Outcome) -> tuple[Remedy, ...]:
    """What matters and has no figure here."""
    lift, said = before.lift, []
    if before.answer is not None and before.answer.governing.kind in RIGGING:
        said.append((Remark("heavier", part=before.answer.governing.name), Remark("stamped")))
    if lift.stance != "wheels" and (lift.ground is None or not lift.ground.presumed):
        said.append((Remark("prove_the_ground"), Remark("proof_first")))
    return tuple(Remedy(name=name, worth=None, after=before, must=must) for name, must in said)
