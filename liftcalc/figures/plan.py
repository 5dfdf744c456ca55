"""The plan view, to scale: from above, front to the right, the machine's left up.

Supports and the weight are looked at along effective gravity, so that the weight lies inside the
hatched region exactly when no tipping line turns; see ``balance``. Forces of the ground stand as
bars beside the feet, away from the machine, and what each foot bears on is to scale.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, field

from liftcalc.answers.answer import Answer
from liftcalc.answers.footing import Foot
from liftcalc.figures import bars, chassis
from liftcalc.figures.balance import Balance, balance, feet
from liftcalc.figures.furniture import (
    foot_mark,
    hold_words,
    key,
    load_words,
    reach_words,
    scale_bar,
    slew_words,
    slope_words,
    tips_words,
)
from liftcalc.figures.hung import Hung, hung
from liftcalc.figures.laid import laid
from liftcalc.figures.limbs import spot
from liftcalc.figures.near import Box, Near, near
from liftcalc.figures.scene import (
    WIDE,
    Disc,
    Label,
    Mark,
    Path,
    Role,
    Scene,
    Spot,
    Voice,
    box,
    extent,
    hatching,
    line,
    polygon,
    text_width,
)
from liftcalc.machines.arm import Arm
from liftcalc.machines.standing import back_point
from liftcalc.physics.plane import Point, place
from liftcalc.rules import CAUTION
from liftcalc.units import System, show

BARS = 2.6
"""Length of the longest bar of force [em]."""
ROOM = 1.5
"""Free width at either side [em]."""
BEAM = 0.055
"""Half the width of boom and dipper over the boom's length [-]; schematic."""
ARM_SPREAD = 0.62
"""Spread of the loader arms over the front track [-]; schematic."""

Put = Callable[[float, float], Spot]
"""From outward and sideways in an end's plane to the plan [m]."""


def plan(answer: Answer, *, system: System = "metric") -> Scene:
    """The plan view of an answer."""
    shape = log_plan(answer, hung(answer))
    plates = bars.plate_marks(answer)
    machine = [*_machine(answer), *bars.bearing_marks(answer)]
    drawn = extent([*machine, *plates, *shape, *_ring(answer)])
    site = near(answer, drawn, system)
    left, right, bottom, top = site.room
    em = (right - left) / (WIDE - 2 * ROOM)
    # A long log across a short machine would make a tall strip: widen it.
    em = max(em, (top - bottom) / (0.95 * WIDE))
    middle = (left + right) / 2
    half = WIDE * em / 2
    page = _Page(
        answer=answer, system=system, em=em, left=middle - half, right=middle + half,
        weight=balance(answer), site=site, machine=extent(_machine(answer)),
    )  # fmt: skip
    return page.scene([*machine, *plates], shape, bottom, top)


def putter(answer: Answer, arm: Arm) -> Put:
    """How points of an end's plane, and places beside it, come to lie in plan."""
    if arm.end == "front":
        return lambda u, side: (u, side)
    lift = answer.lift
    slew = lift.slew if lift.end == "back" else 0.0

    def put(u: float, side: float) -> Spot:
        x, y, _ = back_point(lift.machine, Point(u, 0.0), slew=slew, sideshift=lift.sideshift)
        # Square to the plane, to its left looking outward.
        return float(x) - side * math.sin(slew), float(y) - side * math.cos(slew)

    return put


def _strip(role: Role, put: Put, out: Spot, half: float, *, name: str, side: float = 0.0) -> Path:
    """A strip along an end's plane, from and to so far out, so far to its left."""
    start, end = out
    corners = ((start, -half), (end, -half), (end, half), (start, half))
    return polygon(role, (put(u, side + across) for u, across in corners), name=name)


def _tool(arm: Arm, put: Put) -> list[Mark]:
    """The attachment as wide as it is, over the length of its outline."""
    tool = arm.tool
    half = float(tool.width) / 2
    if tool.mount == "hangs" or not tool.outline:
        return []
    reaches = [
        float(place(origin=arm.tool_origin, angle=arm.tool_angle, at=Point(*each)).u)
        for each in tool.outline
    ]
    low, high = min(reaches), max(reaches)
    if "fork" not in tool.name:
        return [_strip("attachment", put, (low, high), half, name=tool.name)]
    inner = float(arm.tool_origin.u)
    tine = 0.12 * half
    made: list[Mark] = [
        _strip("attachment", put, (inner - 0.05, inner + 0.08), half, name="carriage")
    ]
    for side in (-0.7 * half, 0.7 * half):
        made.append(_strip("attachment", put, (inner, high), tine, name="tine", side=side))
    return made


def _machine(answer: Answer) -> list[Mark]:
    machine, reached = answer.lift.machine, answer.reached
    back, front = (
        (reached.arm, reached.other) if answer.lift.end == "back" else (reached.other, reached.arm)
    )
    return [
        *chassis.stabilisers_plan(answer),
        *chassis.tyres_plan(machine),
        *chassis.body_plan(machine),
        *_loader(answer, front),
        *_backhoe(answer, back),
    ]


def _loader(answer: Answer, front: Arm) -> list[Mark]:
    machine = answer.lift.machine
    put = putter(answer, front)
    pivot, pin = (float(each.u) for each in front.drawn[0].points)
    half = min(ARM_SPREAD * float(machine.wheels.front_track), float(front.tool.width)) / 2
    wide = 0.03 * float(machine.front.arm.length)
    made = _tool(front, put)
    for side in (half, -half):
        made.append(_strip("link", put, (pivot, pin), wide, name="loader arm", side=side))
    made.append(line("axis", put(pin, -half), put(pin, half), name="loader pin"))
    return made


def _backhoe(answer: Answer, back: Arm) -> list[Mark]:
    machine = answer.lift.machine
    put = putter(answer, back)
    axis = (float(machine.back.slew_axis_x), float(answer.lift.sideshift))
    if answer.lift.end == "front":
        axis = (axis[0], 0.0)
    half = BEAM * float(machine.back.boom.length) / 2
    inner = float(machine.stabilisers.x)
    rail = float(machine.stabilisers.pad_spread) / 2
    if machine.back.sideshift_limit > 0:
        rail_box: Mark = box("frame", (axis[0] + 0.02, -rail), (inner - 0.06, rail), "rails")
    else:
        rail_box = box("frame", (axis[0], axis[1] - 0.3), (inner, axis[1] + 0.3), "carriage")
    made: list[Mark] = [rail_box, *_tool(back, put)]
    widths = {"boom": 1.25 * half, "dipper": half}
    for each in reversed([d for d in back.drawn if d.name in widths]):
        start, end = (float(point.u) for point in each.points)
        made.append(_strip("link", put, (start, end), widths[each.name], name=each.name))
        made.append(line("axis", put(start, 0.0), put(end, 0.0), name=each.name))
    foot = spot(back.drawn[0].points[0])
    made.append(_strip("kingpost", put, (-0.08, foot[0] + 0.06), 0.14, name="kingpost"))
    made.append(Disc(role="pin", centre=axis, radius=0.07, name="slew axis"))
    return made


def log_plan(answer: Answer, at: Hung) -> list[Mark]:
    """The log across the end that lifts: at its whole length, or as much as one raised end shows.

    A log that hangs is drawn level: as far out as it can come.
    """
    lift, log = answer.lift, answer.lift.log
    put = putter(answer, answer.reached.arm)
    out, side = _log_at(answer, at)
    balance_at, length = float(log.cog_from_butt), float(lift.measure.length)
    start, end = side - balance_at, side + length - balance_at
    if lift.taken.way != "whole":
        lie = laid(answer)
        start, end = lie.butt[0], lie.top[0]
    widths = [
        (start, float(log.butt_diameter) / 2),
        ((start + end) / 2, float(log.middle_diameter) / 2),
        (end, float(log.top_diameter) / 2),
    ]
    near = [put(out - half, along) for along, half in widths]
    far = [put(out + half, along) for along, half in widths]
    made: list[Mark] = [polygon("log", (*near, *reversed(far)), name="log")]
    for share in (-0.55, 0.0, 0.55):
        grain = [put(out + share * half, along) for along, half in widths]
        made.append(line("grain", *grain, name="grain"))
    return [*made, *_slings(answer, put, out, side)]


def _log_at(answer: Answer, at: Hung) -> Spot:
    """Outward and sideways place of the log's balance point in the plane of its end."""
    lift, reached = answer.lift, answer.reached
    if lift.end == "front":
        return at.centre[0], float(reached.load[1])
    # A carried log may lie off to a side; that is kept in the machine's y.
    return at.centre[0], 0.0


def _slings(answer: Answer, put: Put, out: float, side: float) -> list[Mark]:
    lift = answer.lift
    if lift.point.hold != "hangs":
        return []
    half = float(lift.log.largest_diameter) / 2
    if lift.taken.way != "whole":
        foot = laid(answer).feet[0][0]
        pulled: list[Mark] = [line("sling", put(out - half, foot), put(out + half, foot))]
        return [*pulled, line("pull", put(out, 0.0), put(out, foot), name="pull")]
    middle = 0.0
    if lift.sling.at is not None:
        middle = float(lift.sling.at) - float(lift.log.cog_from_butt)
    spread = lift.sling.spread / 2 if lift.sling.way == "two legs" else 0.0
    places = (middle - spread, middle + spread) if spread else (middle,)
    return [
        line("sling", put(out - half, side + each), put(out + half, side + each), name="sling")
        for each in places
    ]


def _ring(answer: Answer) -> list[Mark]:
    gravity = answer.reached.gravity
    return [line("tipping line", *feet(each, gravity)) for each in answer.reached.lines]


@dataclass(slots=True, kw_only=True)
class _Page:
    """Lays tipping lines, weight and words over the machine."""

    answer: Answer
    system: System
    em: float
    left: float
    right: float
    weight: Balance
    site: Near
    machine: Box
    labels: list[Label] = field(default_factory=list)
    marks: list[Mark] = field(default_factory=list)

    def scene(self, machine: list[Mark], shape: list[Mark], bottom: float, top: float) -> Scene:
        em, title = self.em, "Plan, from above; front to the right"
        region = self.weight.region
        ground: list[Mark] = []
        if len(region) > 2:
            ground = [polygon("region", region, name="region")]
            self.marks += hatching(region, gap=0.6 * em)
        self._lines()
        self._lift_point()
        high, low = self._feet()
        self.labels += self.site.labels(
            em=em, taken=self.labels, left=self.left + 0.5 * em, right=self.right - 0.5 * em
        )
        high, low = max(high, top), min(low, bottom)
        ceiling = high + 3.4 * em
        self.labels.append(
            Label(text=title, at=(self.left + 0.75 * em, ceiling - 1.6 * em), voice="title",
                  anchor="start")
        )  # fmt: skip
        low = self._words(low - 1.0 * em)
        return Scene(
            title=title, about=self._about(title),
            marks=(*ground, *self.site.marks, *machine, *shape, *self.marks),
            labels=tuple(self.labels), left=self.left, right=self.right, bottom=low, top=ceiling,
            em=em, notes=self._notes(), caution=CAUTION,
        )  # fmt: skip

    def _feet(self) -> tuple[float, float]:
        """Bars beside the feet with their figures; gives how high and how low they come."""
        em, footing = self.em, self.answer.footing
        _, _, bottom, top = self.machine
        if not footing.stands:
            return top, bottom
        per_newton = BARS * em / bars.greatest(footing)
        for left in (True, False):
            feet = [each for each in footing.feet if (each.at[1] > 0) == left]
            up = 1.0 if left else -1.0
            tops = []
            for foot in feet:
                size = bars.bearing_size(self.answer, foot) or (0.0, 0.0)
                inside = "bucket" in foot.name
                base = (foot.at[0], foot.at[1] + up * (0.25 * em + (0.0 if inside else size[1] / 2)))
                self.marks += bars.bar(
                    foot, base=base, per_newton=per_newton, half=bars.HALF * em, up=up
                )
                tops.append(base[1] + up * per_newton * max(foot.worst, foot.force))
            end = self._figures(feet, max(tops) if left else min(tops), up)
            top, bottom = (max(top, end), bottom) if left else (top, min(bottom, end))
        return top, bottom

    def _figures(self, feet: list[Foot], edge: float, up: float) -> float:
        """Beyond the bars of one side what each foot carries and presses with; gives their end."""
        em = self.em
        ordered = sorted(feet, key=lambda each: each.at[0])
        unit = bars.unit_of_force(self.system)
        said = []
        for foot in ordered:
            first, *more = bars.force_words(foot, self.system)
            lines = [first if first == "light" else f"{first} {unit}", *more]
            said.append([*lines, *filter(None, [bars.pressure_words(foot, self.system)])])
        pairs = [
            (foot.at[0], 0.6 * em + max(text_width(text, "small", em) for text in each))
            for foot, each in zip(ordered, said, strict=True)
        ]
        middles = bars.spread(pairs, left=self.left + 0.5 * em, right=self.right - 0.5 * em)
        rows = max(len(each) for each in said)
        for x, lines in zip(middles, said, strict=True):
            for row, text in enumerate(lines):
                down = 1.15 * (len(lines) - 1 - row) + 0.35 if up > 0 else -1.0 - 1.15 * row
                at = (x, edge + down * em)
                self.labels.append(Label(text=text, at=at, voice="small"))
        return edge + up * (1.15 * rows + 0.5) * em

    def _lines(self) -> None:
        gravity, em = self.answer.reached.gravity, self.em
        first = self.weight.first
        ordered = sorted(self.answer.reached.lines, key=lambda each: each is first)
        corners: dict[Spot, bool] = {}
        for each in ordered:
            start, end = feet(each, gravity)
            role: Role = "governing line" if each is first else "tipping line"
            self.marks.append(line(role, start, end, name=each.line.name))
            for corner in (start, end):
                corners[corner] = corners.get(corner, False) or each is first
        for corner, governs in corners.items():
            x, y = corner
            size = 0.4 * em
            mark: Role = "governing support" if governs else "support"
            self.marks.append(
                polygon(
                    mark,
                    ((x - size, y - 0.7 * size), (x + size, y - 0.7 * size), (x, y + size)),
                    name="support",
                )
            )
        self.marks += foot_mark(self.weight.foot, 0.5 * em, inside=self.weight.inside)

    def _lift_point(self) -> None:
        """The lift point, and a line to it from where the reach is measured."""
        answer = self.answer
        put = putter(answer, answer.reached.arm)
        back = answer.lift.end == "back"
        origin = 0.0 if back else float(answer.lift.machine.wheels.wheelbase)
        lifted = put(float(answer.reached.arm.lift_at.u), 0.0)
        self.marks += [
            line("leader", put(origin, 0.0), lifted, name="reach"),
            Disc(role="pin", centre=lifted, radius=0.3 * self.em, name="lift point"),
        ]

    def _words(self, z: float) -> float:
        """What lies where, under the plan; gives the bottom edge."""
        em, first = self.em, self.left + 0.75 * self.em
        fall = "inside" if self.weight.inside else "OUTSIDE"
        allowed, mass = load_words(self.answer, self.system)
        said: list[tuple[str, Voice]] = [
            (f"{allowed}; {mass}", "strong"),
            (
                ", ".join(
                    filter(None, (reach_words(self.answer, self.system), slew_words(self.answer)))
                ),
                "plain",
            ),
            (tips_words(self.weight.first.line.name), "plain"),
            (f"weight of machine and log {fall} the hatched region", "plain"),
            *((text, "plain") for text in (*self._ground_words(), *self.site.said)),
        ]
        for text, voice in said:
            z -= 1.4 * em
            self.labels.append(Label(text=text, at=(first, z), voice=voice, anchor="start"))
        marks, labels = key(first, self.right - 0.75 * em, z - 2.0 * em, em, plan=True)
        low = min(label.at[1] for label in labels) - 1.4 * em
        bar, words = scale_bar(self.right - 0.75 * em, low, em, self.system)
        self.marks += [*marks, *bar]
        self.labels += [*labels, *words]
        return low - 0.9 * em

    def _ground_words(self) -> list[str]:
        """What the bars and the dashed plates say."""
        footing = self.answer.footing
        if not footing.stands:
            return [bars.TIPS]
        said = ["bars: ground forces with this log; filled settled, outlined worst"]
        if footing.ground is not None:
            allowed = footing.ground.allowed
            if allowed is None:
                said.append(f"{footing.ground.name}: no pressure may be presumed")
            else:
                most = show(allowed, "bearing", system=self.system, rounding="down")
                said.append(f"dashed: plates that {footing.ground.name} needs, at {most}")
        return said

    def _notes(self) -> tuple[str, ...]:
        lift = self.answer.lift
        across = "boom" if lift.end == "back" else "machine"
        said = [
            f"The log is drawn across the {across}, "
            + ("balanced on the lift point" if lift.taken.way == "whole" else "as it lies")
            + ("; slung, it can turn any way." if lift.point.hold == "hangs" else "."),
            "Supports, tracks, attachments and log are to scale; body, tyre widths and beams are "
            "schematic.",
            *hold_words(self.answer),
        ]
        slope = slope_words(self.answer)
        if slope and lift.site.levelled:
            said.append(f"The {slope}; the machine was levelled on it.")
        elif slope:
            said.append(
                f"The {slope}: supports and weight are drawn where their plumb lines meet the "
                "ground."
            )
        return tuple(said)

    def _about(self, title: str) -> str:
        allowed, mass = load_words(self.answer, self.system)
        where = "inside" if self.weight.inside else "outside"
        return (
            f"{title}: {self.answer.lift.machine.title}; "
            f"{slew_words(self.answer) or 'not slewed'}; {allowed}; {mass}. "
            f"The weight of machine and log falls {where} the tipping lines; "
            f"{tips_words(self.weight.first.line.name)}."
        )
