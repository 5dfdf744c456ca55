"""The side view, to scale: what the machine looks like from its own right, front to the right.

A back end that is slewed is swung into the plane of the drawing and shown at true size; the
balance point and its plumb line stay where they truly are. Forces of the ground stand as bars below
it, under the feet that they press on.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.ground_forces import SupportForce
from liftcalc.figures import bars, chassis
from liftcalc.figures.annotations import (
    clear_words,
    cog_mark,
    dimension,
    foot_mark,
    height_words,
    hold_words,
    load_words,
    slope_words,
    support_mark,
    tips_words,
)
from liftcalc.figures.balance import Balance, balance
from liftcalc.figures.drawing_page import DrawingPage
from liftcalc.figures.linkage_shapes import outlines, transformed
from liftcalc.figures.log_along import end_on, log_along
from liftcalc.figures.scene import (
    WIDE,
    Anchor,
    Label,
    Mark,
    Path,
    Scene,
    Spot,
    extent,
    has_room,
    in_rows,
    line,
)
from liftcalc.figures.swing_arc import ground_gradient, sloping_ground, swing_arc
from liftcalc.machines.arm import Arm
from liftcalc.machines.lookup import named
from liftcalc.machines.supports import SUPPORTS
from liftcalc.reports.text import reach_words, slew_words
from liftcalc.units import System, show

TITLE = "Side view, from the machine’s right"
SIDE_ROOM = 5.0
"""Free width at the lifting side, for two heights [em]."""
FREE_SIDE = 1.2
"""Free width at the other side [em]."""
BARS = 3.0
"""Length of the longest bar of force [em]."""


def side(answer: Answer, *, system: System = "metric") -> Scene:
    """The side view of an answer."""
    place = _placer(answer, answer.reached.arm)
    log = log_along(answer)
    load = [*swing_arc(answer, log), *end_on(answer, log)]
    drawn = [*_machine(answer), *(transformed(m, place) for m in load)]
    low_left, low_right, _, high = extent(drawn)
    room = WIDE - SIDE_ROOM - FREE_SIDE
    em = (low_right - low_left) / room
    sign = -1.0 if answer.lift.end == "back" else 1.0
    left = low_left - em * (SIDE_ROOM if sign < 0 else FREE_SIDE)
    page = _Page(
        answer=answer,
        system=system,
        em=em,
        left=left,
        right=left + WIDE * em,
        top=high + 6.6 * em,
        sign=sign,
        edge=low_left if sign < 0 else low_right,
        point=place(log.point),
        centre=place(log.centre),
        radius=log.radius,
        weight=balance(answer),
        swung=[transformed(m, place) for m in swing_arc(answer, log)],
        deepest=extent(load)[2],
    )
    return page.laid_out(drawn)


def _placer(answer: Answer, arm: Arm) -> Callable[[Spot], Spot]:
    """From the plane of an end to the drawing."""
    if arm.end == "front":
        return lambda at: at
    axis = float(answer.lift.machine.back.slew_axis_x)
    return lambda at: (axis - at[0], at[1])


def _machine(answer: Answer) -> list[Mark]:
    """The machine with both ends, from far to near."""
    machine, reached = answer.lift.machine, answer.reached
    back, front = (
        (reached.arm, reached.other) if answer.lift.end == "back" else (reached.other, reached.arm)
    )
    made = [transformed(mark, _placer(answer, back)) for mark in outlines(back, machine)]
    return [
        *chassis.kingpost_side(machine),
        *made,
        *chassis.body_side(machine),
        *chassis.stabiliser_side(machine, down=answer.lift.stance != "wheels"),
        *chassis.tyres_side(machine),
        *chassis.tower_side(machine),
        *outlines(front, machine),
    ]


@dataclass(slots=True, kw_only=True)
class _Page(DrawingPage):
    """Lays words and dimensions round the machine.

    ``sign`` is −1 where the lifting end is at the left, ``edge`` the outermost place drawn there,
    ``point`` and ``centre`` the lift point and the middle of the log in the drawing.
    """

    top: float
    sign: float
    edge: float
    point: Spot
    centre: Spot
    radius: float
    weight: Balance
    swung: list[Mark]
    deepest: float

    def laid_out(self, drawn: list[Mark]) -> Scene:
        self._callout()
        bottom = self._below_ground()
        self._height()
        self._sway()
        self._balance()
        ground = sloping_ground(self.answer, self.start, self.end)
        return self.scene(
            TITLE,
            self._about(),
            [*ground, *drawn],
            bottom=bottom,
            top=self.top,
            notes=self._notes(),
        )

    @property
    def _floor(self) -> float:
        """Lowest place of ground or log in the drawing [m]; 0 if neither is below the feet."""
        run = ground_gradient(self.answer)
        lowest = min(foot.at[0] * run for foot in self.answer.ground_forces.feet)
        high = max(foot.at[0] * run for foot in self.answer.ground_forces.feet)
        ends = (at * run - high for at in (self.left, self.right))
        return min(0.0, self.deepest, lowest - high, *ends)

    def _callout(self) -> None:
        """Allowed load and log over the lift point, with a leader down to it."""
        em, sign = self.em, self.sign
        allowed, mass = load_words(self.answer, self.system)
        edge = self.start if sign < 0 else self.end
        anchor: Anchor = "start" if sign < 0 else "end"
        first = self.top - 3.5 * em
        self.write(allowed, (edge, first), "strong", anchor)
        self.write(mass, (edge, first - 1.4 * em), anchor=anchor)
        self.marks.append(
            line(
                "leader",
                (self.point[0], first - 1.8 * em),
                (self.point[0], self.point[1] + 0.2 * em),
            )
        )

    def _below_ground(self) -> float:
        """Supports, names under the ground, reach, key and scale; gives the bottom edge."""
        em, reached = self.em, self.answer.reached
        first = self.weight.first.line
        ends = [(p.name, p) for each in reached.standing.lines for p in (each.start, each.end)]
        names: dict[float, str] = {}
        governing = (first.start.name, first.end.name)
        for name, at in sorted(dict(ends).items(), key=lambda each: each[0] in governing):
            governs = name in governing
            self.marks.append(support_mark((at.x, at.z), 0.8 * em, governs=governs, name=name))
            names.setdefault(round(at.x, 2), SUPPORTS[at.kind])
        self.marks.append(
            line("governing line", (first.start.x, first.start.z), (first.end.x, first.end.z))
        )
        wanted = [(name, x) for x, name in names.items()]
        falls = "weight falls here" if self.weight.inside else "weight falls here: it tips"
        wanted.append((falls, self.weight.foot[0]))
        rows = in_rows(
            wanted, em=em, left=self.left + 0.5 * em, right=self.right - 0.5 * em, voice="small"
        )
        low = self._floor
        for text, x, row in rows:
            down = low - (2.0 + 1.3 * row) * em
            self.write(text, (x, down), "small")
        z = low - (1.6 + 1.3 * (max(row for *_, row in rows) + 1)) * em
        return self.foot(self._forces(self._reach(z)))

    def _forces(self, z: float) -> float:
        """Bars of force in columns under the feet; gives the height below them."""
        em, ground_forces = self.em, self.answer.ground_forces
        left, right = self.left + 0.5 * em, self.right - 0.5 * em
        if not ground_forces.stands:
            self.write(bars.TIPS, (self.start, z - 1.0 * em), anchor="start")
            return z - 3.2 * em
        most = bars.greatest_force(ground_forces)
        per_newton = BARS * em / most
        # Under each place the right foot first, as it is nearer.
        feet = sorted(ground_forces.feet, key=lambda each: (each.at[0], each.at[1]))
        said = [bars.side_words(each, self.system) for each in feet]
        wide = [bars.column_width(each, em, bars.side_words) for each in feet]
        pairs = [
            (foot.at[0] + (0.5 if foot.at[1] > 0 else -0.5) * width, width)
            for foot, width in zip(feet, wide, strict=True)
        ]
        force, words = bars.round_force(most, self.system)
        gauge = bars.GAUGE * em
        back = self.sign < 0
        ends = (left, right - gauge) if back else (left + gauge, right)
        middles = bars.spread(pairs, left=ends[0], right=ends[1])
        base = z - (BARS + 0.2) * em
        for foot, x, lines in zip(feet, middles, said, strict=True):
            self.marks += bars.bar(foot, base=(x, base), per_newton=per_newton, half=bars.HALF * em)
            for row, text in enumerate(lines):
                self.write(text, (x, base - (1.1 + 1.15 * row) * em), "small")
        x = right - gauge / 2 if back else left + gauge / 2
        self.marks.append(line("dimension", (min(*middles, x), base), (max(*middles, x), base)))
        self.marks += bars.ruler(force, base=(x, base), per_newton=per_newton, em=em)
        self.write(words, (x, base - 1.1 * em), "small")
        below = base - (1.2 + 1.15 * max(len(each) for each in said)) * em
        self._kinds(feet, middles, below)
        unit = bars.unit_of_force(self.system)
        caption = f"ground pushes up [{unit}]; filled: settled, outlined: worst"
        self.write(caption, (self.start, below - 1.4 * em), "small", "start")
        return below - 3.4 * em

    def _kinds(self, feet: list[SupportForce], middles: list[float], z: float) -> None:
        """Under each pair of columns what it is."""
        kinds: dict[str, list[float]] = {}
        for foot, x in zip(feet, middles, strict=True):
            kinds.setdefault(SUPPORTS[foot.kind] + "s", []).append(x)
        for text, places in kinds.items():
            self.write(text, (sum(places) / len(places), z), "small")

    def _reach(self, z: float) -> float:
        answer, em = self.answer, self.em
        machine = answer.lift.machine
        back = answer.lift.end == "back"
        origin = float(machine.back.slew_axis_x if back else machine.wheels.wheelbase)
        self.marks += dimension((self.point[0], z), (origin, z), em)
        whole = answer.lift.taken.way == "whole"
        low = min(answer.lowest_tipped, self.centre[1] - self.radius) if whole else 0.0
        low -= 0.3 * em
        for x, top in ((self.point[0], low), (origin, 0.0)):
            self.marks.append(line("dimension", (x, top), (x, z - 0.3 * em)))
        text = f"reach {reach_words(answer, self.system)}"
        rows = in_rows(
            [(text, (self.point[0] + origin) / 2)],
            em=em,
            left=self.left + 0.5 * em,
            right=self.right - 0.5 * em,
            voice="plain",
        )
        self.write(text, (rows[0][1], z - 1.3 * em))
        return z - 2.1 * em

    def _height(self) -> None:
        """Beside the machine: height of the lift point, and what is clear under the log."""
        self._upright(3.6, self.point, height_words(self.answer, self.system))
        if self.answer.lift.taken.way == "whole":
            lowest = self.answer.lowest_tipped
            at = (self.centre[0] + self.sign * 0.5 * self.radius, lowest)
            self._upright(1.6, at, clear_words(lowest, self.system))

    def _sway(self) -> None:
        """How far the load may swing, beside its arc where there is room."""
        em, away = self.em, -self.sign
        arcs = [mark for mark in self.swung if isinstance(mark, Path) and mark.name == "arc"]
        if not arcs:
            return
        text = f"swing {show(float(self.answer.reached.lean), 'angle')}"
        anchor: Anchor = "start" if away > 0 else "end"
        # From the end toward the machine along the arc, then upward from the lift point.
        spots = sorted(arcs[0].points, key=lambda at: -away * at[0])
        spots += [(self.point[0], self.point[1] + up * em) for up in (0.6, 2.0, 3.4)]
        for x, z in spots:
            at = (x + 0.4 * away * em, z - 0.3 * em)
            label = Label(text=text, at=at, voice="small", anchor=anchor)
            if has_room(label, self.labels, em=em) and z > self._floor:
                self.labels.append(label)
                return

    def _upright(self, out: float, top: Spot, text: str) -> None:
        """A height above the ground, so far outside the machine [em]."""
        self.upright(self.edge + self.sign * out * self.em, top, text)

    def _balance(self) -> None:
        weight, em = self.weight, self.em
        x, _, z = weight.cog
        self.marks.append(line("plumb", (x, z), (weight.foot[0], 0.0), name="plumb"))
        self.marks += cog_mark((x, z), 0.62 * em)
        self.marks += foot_mark((weight.foot[0], 0.0), 0.4 * em, inside=weight.inside)

    def _notes(self) -> tuple[str, ...]:
        said = [
            "Pins, links, rams, tyres, supports and log are to scale; the body is schematic. "
            "The log is drawn across the "
            + ("boom" if self.sign < 0 else "machine")
            + ", so it is seen end on; off the level, both its ends are seen."
        ]
        said += hold_words(self.answer)
        site = self.answer.lift.site
        slewed = slew_words(self.answer.lift)
        slope = slope_words(self.answer) if site.leans else ""
        if ground_gradient(self.answer):
            said.append(
                "The machine was levelled: the ground is drawn as it slopes along the machine; "
                "heights are above its feet, not above the ground below the log."
            )
        if slewed:
            said.insert(0, f"Back end {slewed}: here swung into its own plane, at true size.")
        if slope:
            said.append(f"The {slope}: drawn level, so that plumb line and sling lean.")
        return tuple(said)

    def _about(self) -> str:
        answer = self.answer
        allowed, mass = load_words(answer, self.system)
        height = show(answer.lift.height, "length", self.system)
        reach = show(answer.reached.reach, "length", self.system)
        where = "inside" if self.weight.inside else "outside"
        return (
            f"{TITLE}: {named(answer.lift.machine)}, {answer.lift.tool.name} of the "
            f"{answer.lift.end} end, lift point at height {height} and reach {reach}; {allowed}; "
            f"{mass}. The weight of machine and log falls {where} its supports; "
            f"{tips_words(self.weight.first.line)}."
        )
