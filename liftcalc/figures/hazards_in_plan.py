"""What is near a lift, from above: the circle people stay out of, overhead wires, an edge.

Nobody is asked on which side wires or an edge are. Wires are drawn where the boom points, which is
where they would be nearest; an edge behind the end that lifts. Both are said to be drawn so.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from liftcalc.evaluation.answer import Answer
from liftcalc.figures.scene import Label, Mark, Spot, around, has_room, line, text_width
from liftcalc.units import System, show

Box = tuple[float, float, float, float]
"""Left, right, bottom and top [m]."""

GROWS = 0.35
"""How much a drawing may grow on each side for hazards, over its size [-]; the rest is cut."""
SIDES = 96
DRAWN = (
    "Wires are drawn straight out and an edge beyond the last feet: on which side they are was not "
    "said."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class HazardsInPlan:
    """Marks and words of hazards; ``room`` is what the drawing must hold [m].

    ``names`` are words with places [m] where they may stand, the best first; ``said`` are sentences
    for below the drawing.
    """

    marks: tuple[Mark, ...]
    names: tuple[tuple[str, tuple[Spot, ...]], ...]
    said: tuple[str, ...]
    room: Box

    @property
    def notes(self) -> tuple[str, ...]:
        """What is not drawn where it truly is."""
        return (DRAWN,) if any(mark.role == "hazard" for mark in self.marks) else ()

    def labels(
        self, *, em: float, taken: Sequence[Label], left: float, right: float
    ) -> list[Label]:
        """The names, each where it fits beside what is written; left out where it does not."""
        made: list[Label] = []
        for text, places in self.names:
            half = text_width(text, "small", em) / 2
            for x, z in places:
                middle = max(left + half, min(right - half, x))
                label = Label(text=text, at=(middle, z - 0.3 * em), voice="small")
                if has_room(label, (*taken, *made), em=em):
                    made.append(label)
                    break
        return made


def hazards_in_plan(answer: Answer, drawn: Box, system: System) -> HazardsInPlan:
    """Hazards near the lift of an answer, cut to a room somewhat larger than the drawing."""
    left, right, bottom, top = drawn
    spare = GROWS * max(right - left, top - bottom)
    most = (left - spare, right + spare, bottom - spare, top + spare)
    hook = (float(answer.reached.asked[0]), float(answer.reached.asked[1]))
    radius = answer.stay_away
    turns = [math.tau * step / SIDES for step in range(SIDES + 1)]
    ring = around(hook, radius, turns)
    marks: list[Mark] = [
        line("keep out", *run, name="keep out") for run in clipped(ring, most) if len(run) > 1
    ]
    far = show(radius, "length", system, "up")
    # Away from the machine, where less is written.
    away = -1.0 if answer.lift.end == "back" else 1.0
    free = [at for at in ring if _inside(at, most) and away * (at[0] - hook[0]) >= 0]
    # Of a circle larger than the drawing only the notes tell.
    whole = all(_inside(at, most) for at in ring)
    names = [(f"people out: {far}", _lowest_first(free))] if whole else []
    said = [f"everybody stays {far} away from below the hook"]
    for made, name, words in (_wires(answer, system), _edge(answer, system)):
        runs = [run for run in clipped(made, most) if len(run) > 1]
        marks += [line("hazard", *run, name=name) for run in runs]
        if runs:
            names.append((words, _lowest_first(runs[0])))
        elif words:
            said.append(f"{words}: beyond this drawing")
    return HazardsInPlan(
        marks=tuple(marks), names=tuple(names), said=tuple(said), room=_room(drawn, marks)
    )


def _lowest_first(spots: Sequence[Spot]) -> tuple[Spot, ...]:
    return tuple(sorted(spots, key=lambda at: at[1])[::3])


def _room(drawn: Box, marks: Sequence[Mark]) -> Box:
    spots = [at for mark in marks for at in getattr(mark, "points", ())]
    across, up = [x for x, _ in spots], [z for _, z in spots]
    left, right, bottom, top = drawn
    return min((left, *across)), max((right, *across)), min((bottom, *up)), max((top, *up))


def _wires(answer: Answer, system: System) -> tuple[list[Spot], str, str]:
    """A line square to the end that lifts, as far off as the wires."""
    lift = answer.lift
    distance = lift.hazards.wires_distance
    if distance is None or math.isinf(distance):
        return [], "wires", ""
    back = lift.end == "back"
    machine = lift.machine
    turn = lift.slew if back else math.pi
    out = (-math.cos(turn), math.sin(turn))
    x = float(machine.back.slew_axis_x if back else machine.wheels.wheelbase)
    y = lift.sideshift if back else 0.0
    foot = (x + distance * out[0], y + distance * out[1])
    words = f"wires {show(distance, 'length', system, 'down')}"
    return _square(foot, out, half=2.0), "wires", words


def _edge(answer: Answer, system: System) -> tuple[list[Spot], str, str]:
    """A line across the machine, as far behind its last foot as the edge."""
    hazards = answer.lift.hazards
    distance = hazards.edge_distance
    if distance is None or hazards.edge_depth is None or math.isinf(distance):
        return [], "edge", ""
    sign = -1.0 if answer.lift.end == "back" else 1.0
    last = max(answer.ground_forces.feet, key=lambda each: sign * each.at[0])
    deep = show(hazards.edge_depth, "length", system, "up")
    far = show(distance, "length", system, "down")
    words = f"edge {far} off, {deep} deep"
    return _square((last.at[0] + sign * distance, 0.0), (sign, 0.0), half=2.5), "edge", words


def _square(foot: Spot, out: Spot, *, half: float) -> list[Spot]:
    """A line through a foot, square to a direction, in short pieces so that it can be cut."""
    pieces = 40
    return [
        (foot[0] - out[1] * t, foot[1] + out[0] * t)
        for t in (half * (2 * step / pieces - 1) for step in range(pieces + 1))
    ]


def _inside(at: Spot, box: Box) -> bool:
    return box[0] <= at[0] <= box[1] and box[2] <= at[1] <= box[3]


def clipped(spots: Sequence[Spot], box: Box) -> Iterator[list[Spot]]:
    """The runs of a line that lie within a box, to its nearest corner inside."""
    run: list[Spot] = []
    for one, two in pairwise(spots):
        if _inside(one, box) and _inside(two, box):
            run = [*run, two] if run else [one, two]
        elif run:
            yield run
            run = []
    if run:
        yield run
