"""What is fitted to an end: attachments and lift points by name."""

from __future__ import annotations

from functools import cache

from liftcalc.errors import InputError, did_you_mean
from liftcalc.machines.number import Number
from liftcalc.machines.schema import Attachment, EndName, LiftPoint, Machine

BARE = "none"
"""What is said where nothing is fitted to the end that does not lift."""


@cache
def bare(end: EndName) -> Attachment:
    """Nothing fitted to an end: an attachment of no mass and no size, that no load hangs on."""

    def nothing() -> Number:
        return Number(0.0, kind="derived", source="nothing is there", text="0")

    at = (nothing(), nothing())
    # Not read: in a machine file no attachment is without mass.
    point = LiftPoint.model_construct(name=BARE, at=at, wll=nothing(), hold="hangs")
    return Attachment.model_construct(
        name=BARE, end=end, mass=nothing(), cog=at, width=nothing(), lift_point=(point,)
    )


def at_other_end(machine: Machine, *, end: EndName, name: str = "") -> Attachment:
    """As ``attachment``, of an end that does not lift: nothing may be fitted to it."""
    if name.strip().lower() == BARE:
        return bare(end)
    return attachment(machine, end=end, name=name)


def attachment(machine: Machine, *, end: EndName, name: str = "") -> Attachment:
    """The attachment of an end by name; the fitted one when no name is given."""
    fitting = {a.name: a for a in machine.attachment if a.end == end}
    wanted = name or getattr(machine.fitted, end)
    for each in fitting.values():
        if each.name.lower() == wanted.strip().lower():
            return each
    other = [a for a in machine.attachment if a.name.lower() == wanted.strip().lower()]
    fix = did_you_mean(wanted, fitting) or "choose one of them"
    if other:
        fix = f"{other[0].name} fits the {other[0].end} end"
    raise InputError.of(
        field="attachment",
        given=f'"{name}"',
        wanted=f"one that {machine.name} has at the {end}: {', '.join(fitting)}",
        fix=fix,
    )


def lift_point(tool: Attachment, *, name: str = "") -> LiftPoint:
    """The lift point of an attachment by name; its first when no name is given."""
    for each in tool.lift_point:
        if not name or each.name.lower() == name.strip().lower():
            return each
    raise InputError.of(
        field="lift-point",
        given=f'"{name}"',
        wanted=f"one that the {tool.name} has: {', '.join(p.name for p in tool.lift_point)}",
    )


def named(machine: Machine) -> str:
    """What a machine is called over an answer: an invented one is for practice and no real lift."""
    return f"{machine.title} (for practice: invented)" if machine.invented else machine.title
