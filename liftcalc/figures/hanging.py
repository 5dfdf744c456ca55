"""The log as it hangs, lies or is drawn, to scale: seen from beyond it, toward the machine."""

from __future__ import annotations

import math
from dataclasses import dataclass

from liftcalc.evaluation.answer import Answer
from liftcalc.figures.annotations import (
    clear_words,
    cog_mark,
    height_words,
    load_words,
    slope_words,
)
from liftcalc.figures.drawing_page import DrawingPage
from liftcalc.figures.log_across import LogAcross, log_across
from liftcalc.figures.scene import (
    WIDE,
    Disc,
    Mark,
    Role,
    Scene,
    Spot,
    Voice,
    between,
    box,
    extent,
    line,
    polygon,
)
from liftcalc.figures.swing_arc import swing_cone
from liftcalc.rigging.lift_mode import Pull
from liftcalc.units import System, show

TITLE = "The log, seen toward the machine"
ROOM, HEIGHTS = 1.5, 4.6
"""Free width at the left, and at the right for two heights [em]."""
WORDS = 7.6
"""Height that the words along a dimension need, however short it is [em]."""


def hanging(answer: Answer, *, system: System = "metric") -> Scene:
    """The log of an answer along its length, at its true angle, with what holds it."""
    lie = log_across(answer)
    drawn = _drawn(answer, lie)
    left, right, bottom, top = extent(drawn)
    bottom = min(bottom, 0.0)
    em = max((right - left) / (WIDE - ROOM - HEIGHTS), (top - bottom) / (0.8 * WIDE))
    middle = (left + right + (HEIGHTS - ROOM) * em) / 2
    page = _Page(
        answer=answer,
        system=system,
        em=em,
        lie=lie,
        left=middle - WIDE * em / 2,
        right=middle + WIDE * em / 2,
        edge=right,
        top=max(top, WORDS * em) + 3.6 * em,
    )
    return page.laid_out(drawn, bottom)


def lean_across(answer: Answer) -> float:
    """How far effective gravity leans in the plane of this drawing, to the right [rad]."""
    lift = answer.lift
    x, y, z = (float(each) for each in answer.reached.gravity)
    slew = lift.slew
    aside = -x * math.sin(slew) - y * math.cos(slew) if lift.end == "back" else y
    return math.atan2(aside, -z)


def placed(answer: Answer, lie: LogAcross, at: Spot) -> Spot:
    """A place given from the lift point, as it stands in the drawing: leaning with gravity [m]."""
    height = float(answer.reached.asked[2])
    turn = 0.0 if lie.grounded or not lie.feet else lean_across(answer)
    s, up = at
    return (
        s * math.cos(turn) - up * math.sin(turn),
        height + s * math.sin(turn) + up * math.cos(turn),
    )


def _drawn(answer: Answer, lie: LogAcross) -> list[Mark]:
    """Sling, log and swing."""
    point = placed(answer, lie, (0.0, 0.0))
    made: list[Mark] = []
    lean = float(answer.reached.lean)
    if lean > 0 and answer.lift.taken.way == "whole":
        made += swing_cone(point, placed(answer, lie, lie.balance), lean)
    if not lie.feet:
        half, (side, up) = float(answer.lift.tool.width) / 2, lie.balance
        low = up - float(answer.lift.log.largest_diameter) / 2
        held = [placed(answer, lie, (side + each, low)) for each in (-half, half)]
        name = answer.lift.tool.name
        made.append(box("attachment", (held[0][0], held[0][1] - 0.09), held[1], name))
    else:
        made += _slings(answer, lie, point)
    return [*made, *_log(answer, lie), Disc(role="pin", centre=point, radius=0.05, name="point")]


def _slings(answer: Answer, lie: LogAcross, point: Spot) -> list[Mark]:
    hook = placed(answer, lie, lie.hook)
    grab = answer.lift.tool.mount == "hangs"
    role: Role = "pull" if answer.lift.taken.skidded else "sling"
    if grab:
        made: list[Mark] = [line("rod", point, hook, name="rotator")]
        return [*made, *(line("sling", hook, placed(answer, lie, each)) for each in lie.feet)]
    made = [line("sling", point, hook, name="hook")]
    return [*made, *(line(role, hook, placed(answer, lie, each), name="leg") for each in lie.feet)]


def _log(answer: Answer, lie: LogAcross) -> list[Mark]:
    log = answer.lift.log
    (bx, bz), (tx, tz) = (placed(answer, lie, each) for each in (lie.butt, lie.top))
    length = math.hypot(tx - bx, tz - bz)
    across = (-(tz - bz) / length, (tx - bx) / length)
    radii = (log.butt_diameter / 2, log.middle_diameter / 2, log.top_diameter / 2)
    spots = ((bx, bz), between((bx, bz), (tx, tz), 0.5), (tx, tz))

    def side(share: float) -> list[Spot]:
        return [
            (x + share * r * across[0], z + share * r * across[1])
            for (x, z), r in zip(spots, radii, strict=True)
        ]

    bands: list[Mark] = []
    for foot in lie.feet:
        x, z = placed(answer, lie, foot)
        share = ((x - bx) * (tx - bx) + (z - bz) * (tz - bz)) / length**2
        r = radii[0] + share * (radii[2] - radii[0])
        at = between((bx, bz), (tx, tz), share)
        ends = [(at[0] + k * r * across[0], at[1] + k * r * across[1]) for k in (-1, 1)]
        bands.append(line("sling", *ends, name="round"))
    return [
        polygon("log", (*side(1.0), *reversed(side(-1.0))), name="log"),
        *(line("grain", *side(share), name="grain") for share in (-0.5, 0.05, 0.55)),
        *bands,
    ]


@dataclass(slots=True, kw_only=True)
class _Page(DrawingPage):
    """Lays ground, heights and words round the log."""

    lie: LogAcross
    edge: float
    top: float

    def laid_out(self, drawn: list[Mark], bottom: float) -> Scene:
        em = self.em
        ground = line("ground", (self.start, 0.0), (self.end, 0.0))
        self._plumb()
        self._angle()
        self._heights()
        low = self._ends(bottom)
        for text, voice in self._said():
            low -= 1.45 * em
            self.write(text, (self.start, low), voice, "start")
        return self.scene(
            TITLE,
            f"{TITLE}: {'; '.join(text for text, _ in self._said())}.",
            [ground, *drawn],
            bottom=self.scale(low - 1.8 * em),
            top=self.top,
            notes=self._notes(),
        )

    def _plumb(self) -> None:
        """Balance point, and the plumb line it comes to hang in."""
        point, at = (placed(self.answer, self.lie, each) for each in ((0.0, 0.0), self.lie.balance))
        if not self.lie.grounded:
            self.marks.append(line("plumb", point, at, name="plumb"))
        self.marks += cog_mark(at, 0.55 * self.em)

    def _angle(self) -> None:
        """A level line beside the log and the angle between them; nothing within a degree."""
        lie, em = self.lie, self.em
        if lie.angle < math.radians(1):
            return
        lower, upper = sorted((lie.butt, lie.top), key=lambda at: at[1])
        way = math.copysign(1.0, upper[0] - lower[0])
        if lie.grounded:
            # The ground is the level.
            x, z = lower[0] + way * 0.62 * abs(upper[0] - lower[0]), self._ground
        else:
            (start, z), half = lie.balance, abs(lie.balance[0] - lower[0])
            ends = (placed(self.answer, lie, (start - way * far, z)) for far in (0.0, half))
            self.marks.append(line("dimension", *ends, name="level"))
            x = start - way * max(0.62 * half, 4.2 * em)
        words_x, words_z = placed(self.answer, lie, (x, z))
        self.write(show(lie.angle, "angle"), (words_x, words_z + 0.5 * em), "strong")

    @property
    def _ground(self) -> float:
        """The ground as seen from the lift point [m]."""
        return -float(self.answer.reached.asked[2])

    def _heights(self) -> None:
        """Height of the lift point, and what is clear under the lower end."""
        answer = self.answer
        height = float(answer.reached.asked[2])
        point = placed(answer, self.lie, (0.0, 0.0))
        self.upright(
            self.edge + 3.4 * self.em, (point[0], height), height_words(answer, self.system)
        )
        if answer.lift.taken.way == "whole":
            lowest = answer.lowest_tipped
            ends = (placed(answer, self.lie, each) for each in (self.lie.butt, self.lie.top))
            lower = min(ends, key=lambda at: at[1])
            words = clear_words(lowest, self.system)
            self.upright(self.edge + 1.5 * self.em, (lower[0], lowest), words)

    def _ends(self, bottom: float) -> float:
        """Butt and top by name under the ground; gives the height below them."""
        em, low = self.em, min(bottom, 0.0) - 1.4 * self.em
        for text, at in (("butt", self.lie.butt), ("top", self.lie.top)):
            x = placed(self.answer, self.lie, at)[0]
            x = max(self.left + 2.0 * em, min(self.right - 2.0 * em, x))
            self.write(text, (x, low), "small")
        return low - 0.8 * em

    def _said(self) -> list[tuple[str, Voice]]:
        answer, lift = self.answer, self.answer.lift
        _, mass = load_words(answer, self.system)
        said: list[tuple[str, Voice]] = [(mass, "strong")]
        said += [(text, "plain") for text in (_angle_words(answer, self.lie), _pull_words(answer))]
        lean = float(answer.reached.lean)
        if lean > 0 and lift.taken.way == "whole":
            said.append((f"may swing {show(lean, 'angle')} each way", "plain"))
        return [each for each in said if each[0]]

    def _notes(self) -> tuple[str, ...]:
        answer, lift = self.answer, self.answer.lift
        said = ["To scale; the quartered circle is the log’s balance point."]
        if lift.taken.way == "whole" and lift.sling.at is None and lift.point.hold == "hangs":
            said.append(
                "Nobody said where the log is held: that is taken to miss its balance point by a "
                "little, here toward the longer end."
            )
        if self.lie.short:
            said.append("The sling as said is too short to lie so: it is drawn longer.")
        slope = slope_words(answer)
        if slope and lift.site.leans:
            said.append(f"The {slope}: drawn level, so that what hangs leans.")
        return tuple(said)


def _angle_words(answer: Answer, lie: LogAcross) -> str:
    lift = answer.lift
    way = lift.taken.way
    if lift.point.hold != "hangs":
        return f"{lift.point.hold}: it lies in the {lift.tool.name}"
    if way == "drawn":
        return "drawn along the ground"
    if way != "whole":
        return f"raised to {show(lie.angle, 'angle')}, its {lift.taken.ground_end} on the ground"
    if lift.sling.way == "basket" and answer.hang is not None:
        return f"basket: level only by luck, counted up to {show(answer.hang.angle, 'angle')} off"
    held = "in a grab" if answer.hang is None else f"sling: {lift.sling.way}"
    return f"{held}; hangs {show(lie.angle, 'angle')} off the level"


def _pull_words(answer: Answer) -> str:
    """What the hook feels of a log that is not lifted whole."""
    pull: Pull = answer.lift.pull
    if answer.lift.taken.way == "whole" and pull.share <= 1:
        return ""
    return f"pulls the hook with up to {math.ceil(100 * pull.share - 1e-9)} % of its weight"
