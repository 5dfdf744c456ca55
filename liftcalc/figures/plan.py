"""The plan view, to scale: from above, front to the right, the machine's left up.

Supports and the weight are looked at along effective gravity, so that the weight lies inside the
hatched region exactly when no tipping line turns; see ``balance``. Forces of the ground stand as
bars beside the feet, away from the machine, and what each foot bears on is to scale.
"""

from __future__ import annotations

from dataclasses import dataclass

from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.ground_forces import SupportForce
from liftcalc.evaluation.warnings import ground_remark
from liftcalc.figures import bars
from liftcalc.figures.annotations import foot_mark, hold_words, load_words, slope_words, tips_words
from liftcalc.figures.balance import Balance, balance, ends_on_ground
from liftcalc.figures.drawing_page import DrawingPage
from liftcalc.figures.hazards_in_plan import Box, HazardsInPlan, hazards_in_plan
from liftcalc.figures.linkage_from_above import log_plan, machine_plan, ring_plan, to_plan
from liftcalc.figures.log_along import log_along
from liftcalc.figures.scene import (
    WIDE,
    Disc,
    Mark,
    Role,
    Scene,
    Spot,
    Voice,
    extent,
    hatching,
    line,
    polygon,
    wrapped_lines,
)
from liftcalc.machines.lookup import named
from liftcalc.reports.text import reach_words, slew_words
from liftcalc.units import System

__all__ = ["log_plan", "plan"]

BARS = 2.6
"""Length of the longest bar of force [em]."""
ROOM = 1.5
"""Free width at either side [em]."""


def plan(answer: Answer, *, system: System = "metric") -> Scene:
    """The plan view of an answer."""
    shape = log_plan(answer, log_along(answer))
    plates = bars.plate_marks(answer)
    machine = [*machine_plan(answer), *bars.bearing_marks(answer)]
    drawn = extent([*machine, *plates, *shape, *ring_plan(answer)])
    site = hazards_in_plan(answer, drawn, system)
    left, right, bottom, top = site.room
    em = (right - left) / (WIDE - 2 * ROOM)
    # A long log across a short machine would make a tall strip: widen it.
    em = max(em, (top - bottom) / (0.95 * WIDE))
    middle = (left + right) / 2
    half = WIDE * em / 2
    page = _Page(
        answer=answer,
        system=system,
        em=em,
        left=middle - half,
        right=middle + half,
        weight=balance(answer),
        site=site,
        machine=extent(machine_plan(answer)),
    )
    return page.laid_out([*machine, *plates], shape, bottom, top)


@dataclass(slots=True, kw_only=True)
class _Page(DrawingPage):
    """Lays tipping lines, weight and words over the machine."""

    weight: Balance
    site: HazardsInPlan
    machine: Box

    def laid_out(self, machine: list[Mark], shape: list[Mark], bottom: float, top: float) -> Scene:
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
        return self.scene(
            title,
            self._about(title),
            [*ground, *self.site.marks, *machine, *shape],
            bottom=self._words(low - 1.0 * em),
            top=high + 3.4 * em,
            notes=self._notes(),
        )

    def _feet(self) -> tuple[float, float]:
        """Bars beside the feet with their figures; returns how high and how low they come."""
        em, ground_forces = self.em, self.answer.ground_forces
        _, _, bottom, top = self.machine
        if not ground_forces.stands:
            return top, bottom
        per_newton = BARS * em / bars.greatest_force(ground_forces)
        for left in (True, False):
            feet = [each for each in ground_forces.feet if (each.at[1] > 0) == left]
            up = 1.0 if left else -1.0
            tops = []
            for foot in feet:
                size = bars.bearing_size(self.answer, foot) or (0.0, 0.0)
                inside = foot.kind == "corner"
                base = (
                    foot.at[0],
                    foot.at[1] + up * (0.25 * em + (0.0 if inside else size[1] / 2)),
                )
                self.marks += bars.bar(
                    foot, base=base, per_newton=per_newton, half=bars.HALF * em, up=up
                )
                tops.append(base[1] + up * per_newton * max(foot.worst, foot.force))
            end = self._figures(feet, max(tops) if left else min(tops), up)
            top, bottom = (max(top, end), bottom) if left else (top, min(bottom, end))
        return top, bottom

    def _figures(self, feet: list[SupportForce], edge: float, up: float) -> float:
        """Beyond its bars, what each foot of one side carries and presses with; returns the end."""
        em = self.em
        ordered = sorted(feet, key=lambda each: each.at[0])
        said = [bars.all_words(foot, self.system) for foot in ordered]
        pairs = [(foot.at[0], bars.column_width(foot, em, bars.all_words)) for foot in ordered]
        middles = bars.spread(pairs, left=self.left + 0.5 * em, right=self.right - 0.5 * em)
        rows = max(len(each) for each in said)
        for x, lines in zip(middles, said, strict=True):
            for row, text in enumerate(lines):
                down = 1.15 * (len(lines) - 1 - row) + 0.35 if up > 0 else -1.0 - 1.15 * row
                self.write(text, (x, edge + down * em), "small")
        return edge + up * (1.15 * rows + 0.5) * em

    def _lines(self) -> None:
        gravity, em = self.answer.reached.gravity, self.em
        first = self.weight.first
        ordered = sorted(self.answer.reached.lines, key=lambda each: each is first)
        corners: dict[Spot, bool] = {}
        for each in ordered:
            start, end = ends_on_ground(each, gravity)
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
        put = to_plan(answer, answer.reached.arm)
        back = answer.lift.end == "back"
        origin = 0.0 if back else float(answer.lift.machine.wheels.wheelbase)
        lifted = put(float(answer.reached.arm.lift_at.u), 0.0)
        self.marks += [
            line("leader", put(origin, 0.0), lifted, name="reach"),
            Disc(role="pin", centre=lifted, radius=0.3 * self.em, name="lift point"),
        ]

    def _words(self, z: float) -> float:
        """What lies where, under the plan; gives the bottom edge."""
        fall = "inside" if self.weight.inside else "OUTSIDE"
        allowed, mass = load_words(self.answer, self.system)
        said: list[tuple[str, Voice]] = [
            (allowed, "strong"),
            (mass, "plain"),
            (f"reach {reach_words(self.answer, self.system)}", "plain"),
            (slew_words(self.answer.lift), "plain"),
            (tips_words(self.weight.first.line), "plain"),
            (f"weight of machine and log {fall} the hatched region", "plain"),
            *((text, "plain") for text in (*self._ground_words(), *self.site.said)),
        ]
        for text, voice in wrapped_lines(said):
            z -= 1.4 * self.em
            self.write(text, (self.start, z), voice, "start")
        return self.foot(z - 2.0 * self.em, plan=True)

    def _ground_words(self) -> list[str]:
        """What the bars and the dashed plates say."""
        ground_forces = self.answer.ground_forces
        if not ground_forces.stands:
            return [bars.TIPS]
        said = ["bars: ground forces; filled settled, outlined worst"]
        if ground_forces.ground is not None:
            if all(each.needed is None for each in ground_forces.feet):
                said.append(ground_remark(ground_forces).words(self.system))
            else:
                said.append(f"dashed: plates that {ground_forces.ground.name} needs")
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
            *self.site.notes,
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
            f"{title}: {named(self.answer.lift.machine)}; "
            f"{slew_words(self.answer.lift) or 'not slewed'}; {allowed}; {mass}. "
            f"The weight of machine and log falls {where} the tipping lines; "
            f"{tips_words(self.weight.first.line)}."
        )
