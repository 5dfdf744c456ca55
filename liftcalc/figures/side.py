"""The side view, to scale: what the machine looks like from its own right, front to the right.

A back end that is slewed is swung into the plane of the drawing and shown at true size; the
balance point and its plumb line stay where they truly are.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from liftcalc.answers.answer import Answer
from liftcalc.figures import chassis
from liftcalc.figures.balance import Balance, balance
from liftcalc.figures.furniture import (
    cog_mark,
    dimension,
    foot_mark,
    hold_words,
    key,
    load_words,
    reach_words,
    scale_bar,
    slew_words,
    slope_words,
    support_mark,
    tips_words,
)
from liftcalc.figures.hung import end_on, hung
from liftcalc.figures.limbs import mapped, outlines
from liftcalc.figures.scene import (
    WIDE,
    Anchor,
    Label,
    Mark,
    Scene,
    Spot,
    extent,
    in_rows,
    line,
    text_width,
)
from liftcalc.machines.arm import Arm
from liftcalc.rules import CAUTION
from liftcalc.units import System, show

TITLE = "Side view, from the machine’s right"
SIDE_ROOM = 5.0
"""Free width at the lifting side, for two heights [em]."""
FREE_SIDE = 1.2
"""Free width at the other side [em]."""


def side(answer: Answer, *, system: System = "metric") -> Scene:
    """The side view of an answer."""
    place = _placer(answer, answer.reached.arm)
    log = hung(answer)
    drawn = [*_machine(answer), *(mapped(m, place) for m in end_on(answer, log))]
    low_left, low_right, _, high = extent(drawn)
    room = WIDE - SIDE_ROOM - FREE_SIDE
    em = (low_right - low_left) / room
    sign = -1.0 if answer.lift.end == "back" else 1.0
    left = low_left - em * (SIDE_ROOM if sign < 0 else FREE_SIDE)
    page = _Page(
        answer=answer, system=system, em=em, left=left, right=left + WIDE * em,
        top=high + 6.6 * em, sign=sign, edge=low_left if sign < 0 else low_right,
        point=place(log.point), centre=place(log.centre), radius=log.radius,
        weight=balance(answer),
    )  # fmt: skip
    return page.scene(drawn)


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
    made = [mapped(mark, _placer(answer, back)) for mark in outlines(back, machine)]
    return [
        *chassis.kingpost_side(machine),
        *made,
        *chassis.body_side(machine),
        *chassis.stabiliser_side(answer),
        *chassis.tyres_side(machine),
        *chassis.tower_side(machine),
        *outlines(front, machine),
    ]


@dataclass(slots=True, kw_only=True)
class _Page:
    """Lays words and dimensions round the machine.

    ``sign`` is −1 where the lifting end is at the left, ``edge`` the outermost place drawn there,
    ``point`` and ``centre`` the lift point and the middle of the log in the drawing.
    """

    answer: Answer
    system: System
    em: float
    left: float
    right: float
    top: float
    sign: float
    edge: float
    point: Spot
    centre: Spot
    radius: float
    weight: Balance
    marks: list[Mark] = field(default_factory=list)
    labels: list[Label] = field(default_factory=list)

    def scene(self, drawn: list[Mark]) -> Scene:
        self._title()
        self._callout()
        bottom = self._below_ground()
        self._height()
        self._balance()
        return Scene(
            title=TITLE, about=self._about(), marks=(*self._ground(), *drawn, *self.marks),
            labels=tuple(self.labels), left=self.left, right=self.right, bottom=bottom,
            top=self.top, em=self.em, notes=self._notes(), caution=CAUTION,
        )  # fmt: skip

    def _title(self) -> None:
        at = (self.left + 0.75 * self.em, self.top - 1.6 * self.em)
        self.labels.append(Label(text=TITLE, at=at, voice="title", anchor="start"))

    def _ground(self) -> list[Mark]:
        inset = 0.75 * self.em
        return [line("ground", (self.left + inset, 0.0), (self.right - inset, 0.0))]

    def _callout(self) -> None:
        """Allowed load and log over the lift point, with a leader down to it."""
        em, sign = self.em, self.sign
        allowed, mass = load_words(self.answer, self.system)
        edge = self.left + 0.75 * em if sign < 0 else self.right - 0.75 * em
        anchor: Anchor = "start" if sign < 0 else "end"
        first = self.top - 3.5 * em
        self.labels += [
            Label(text=allowed, at=(edge, first), voice="strong", anchor=anchor),
            Label(text=mass, at=(edge, first - 1.4 * em), anchor=anchor),
        ]
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
            plain = name.removeprefix("left ").removeprefix("right ")
            names.setdefault(round(at.x, 2), plain)
        self.marks.append(
            line("governing line", (first.start.x, first.start.z), (first.end.x, first.end.z))
        )
        wanted = [(name, x) for x, name in names.items()]
        falls = "weight falls here" if self.weight.inside else "weight falls here: it tips"
        wanted.append((falls, self.weight.foot[0]))
        rows = in_rows(
            wanted, em=em, left=self.left + 0.5 * em, right=self.right - 0.5 * em, voice="small"
        )
        for text, x, row in rows:
            self.labels.append(Label(text=text, at=(x, -(2.0 + 1.3 * row) * em), voice="small"))
        z = -(1.9 + 1.3 * (max(row for *_, row in rows) + 1)) * em
        return self._reach(z)

    def _reach(self, z: float) -> float:
        answer, em = self.answer, self.em
        machine = answer.lift.machine
        back = answer.lift.end == "back"
        origin = float(machine.back.slew_axis_x if back else machine.wheels.wheelbase)
        self.marks += dimension((self.point[0], z), (origin, z), em)
        low = self.centre[1] - self.radius - 0.3 * em
        for x, top in ((self.point[0], low), (origin, 0.0)):
            self.marks.append(line("dimension", (x, top), (x, z - 0.3 * em)))
        text = reach_words(answer, self.system)
        rows = in_rows(
            [(text, (self.point[0] + origin) / 2)], em=em, left=self.left + 0.5 * em,
            right=self.right - 0.5 * em, voice="plain",
        )  # fmt: skip
        self.labels.append(Label(text=text, at=(rows[0][1], z - 1.3 * em)))
        return self._foot(z - 3.3 * em)

    def _foot(self, z: float) -> float:
        """Key and scale bar; gives the bottom edge."""
        em = self.em
        marks, labels = key(self.left + 0.75 * em, self.right - 0.75 * em, z, em)
        rows = min(label.at[1] for label in labels) - 1.4 * em
        bar, words = scale_bar(self.right - 0.75 * em, rows, em, self.system)
        self.marks += [*marks, *bar]
        self.labels += [*labels, *words]
        return rows - 0.9 * em

    def _height(self) -> None:
        """Beside the machine: height of the lift point, and what is clear under the log."""
        height = show(self.answer.lift.height, "length", system=self.system)
        self._upright(3.6, self.point, f"height {height}")
        lowest = self.answer.lowest
        words = show(abs(lowest), "length", system=self.system, rounding="down")
        self._upright(
            1.6, (self.centre[0] + self.sign * 0.5 * self.radius, lowest),
            f"{words} clear" if lowest >= 0 else f"{words} too low",
        )  # fmt: skip

    def _upright(self, out: float, top: Spot, text: str) -> None:
        """A height above the ground, so far outside the machine [em], its words along it."""
        em, sign = self.em, self.sign
        x = self.edge + sign * out * em
        self.marks += dimension((x, 0.0), (x, top[1]), em)
        self.marks.append(line("dimension", (top[0] + 0.3 * sign * em, top[1]), (x, top[1])))
        middle = max(top[1] / 2, text_width(text, "plain", em) / 2 + 0.6 * em)
        self.labels.append(Label(text=text, at=(x - 0.4 * em, middle), turn=90))

    def _balance(self) -> None:
        weight, em = self.weight, self.em
        x, _, z = weight.cog
        self.marks.append(line("plumb", (x, z), (weight.foot[0], 0.0), name="plumb"))
        self.marks += cog_mark((x, z), 0.62 * em)
        self.marks += foot_mark((weight.foot[0], 0.0), 0.4 * em, inside=weight.inside)

    def _notes(self) -> tuple[str, ...]:
        said = [
            "Pins, links, rams, tyres, supports and log are to scale; the body is schematic. "
            "The log is drawn level across the "
            + ("boom" if self.sign < 0 else "machine")
            + ", so it is seen end on."
        ]
        said += hold_words(self.answer)
        slewed, slope = slew_words(self.answer), slope_words(self.answer)
        if slewed:
            said.insert(0, f"Back end {slewed}: here swung into its own plane, at true size.")
        if slope:
            said.append(f"The {slope}: drawn level, so that plumb line and sling lean.")
        return tuple(said)

    def _about(self) -> str:
        answer = self.answer
        allowed, mass = load_words(answer, self.system)
        height = show(answer.lift.height, "length", system=self.system)
        reach = show(answer.reached.reach, "length", system=self.system)
        where = "inside" if self.weight.inside else "outside"
        return (
            f"{TITLE}: {answer.lift.machine.title}, {answer.lift.tool.name} of the "
            f"{answer.lift.end} end, lift point at height {height} and reach {reach}; {allowed}; "
            f"{mass}. The weight of machine and log falls {where} its supports; "
            f"{tips_words(self.weight.first.line.name)}."
        )
