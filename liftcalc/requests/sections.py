"""Where a thing that may be typed stands, and when it means anything: in words, and as a test."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:  # a log is weighed without machines
    from liftcalc.machines.schema import Attachment, EndName, LiftPoint
    from liftcalc.machines.supports import Stance

USUAL_STANCE: dict[EndName, Stance] = {"front": "wheels", "back": "stabilisers"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Situation:
    """What decides whether a field applies: what is said, and what holds the log where known."""

    said: Mapping[str, Any]
    tool: Attachment | None = None
    point: LiftPoint | None = None

    @property
    def end(self) -> EndName:
        """The end that lifts; the back one while nobody said."""
        return "front" if self.said.get("end") == "front" else "back"


@dataclass(frozen=True, slots=True)
class When:
    """When a field applies: in words that follow "only", and as a test."""

    words: str
    holds: Callable[[Situation], bool]


@dataclass(frozen=True, slots=True)
class Section:
    """Fields that stand together: their group, and within it the fold of what is seldom said.

    ``to`` is the record of the lift that they go into.
    """

    group: str
    fold: str = ""
    when: When | None = None
    to: str = ""


ALWAYS = When("", lambda _: True)
BACK = When("at the back end", lambda at: at.end == "back")
FRONT = When("at the front end", lambda at: at.end == "front")
HANGS = When("for a log that hangs", lambda at: at.point is None or at.point.hold == "hangs")
HELD = When("for a log held fast", lambda at: at.point is not None and at.point.hold != "hangs")
SLUNG = When(
    "for a log that hangs in a sling",
    lambda at: HANGS.holds(at) and (at.tool is None or at.tool.mount != "hangs"),
)
JAW = When(
    "for a jaw, grab or choke",
    lambda at: at.point is not None and (at.point.jaw_force is not None or SLUNG.holds(at)),
)
CURLS = When(
    "at the back end, for what its bucket ram turns",
    lambda at: at.end == "back" and (at.tool is None or at.tool.mount == "pins"),
)
ON_PADS = When("on stabilisers", lambda at: (at.said["stance"] or USUAL_STANCE[at.end]) != "wheels")
ON_THE_MOVE = When("on the move", lambda at: FRONT.holds(at) and bool(at.said.get("travelling")))
STANDING = When("where it stands still", lambda at: not ON_THE_MOVE.holds(at))
TWO_LEGS = When("with two legs", lambda at: at.said["sling"] == "two legs")
IN_PART = When("where not all is lifted", lambda at: at.said["lifted"] not in ("", "whole"))
WIRES = When("with wires", lambda at: at.said["wires"] not in ("", "none"))
BY_UK = When("by UK rules", lambda at: WIRES.holds(at) and at.said["rules"] == "uk")
BY_US = When("by US rules", lambda at: WIRES.holds(at) and at.said["rules"] == "us")
EDGE = When("with an edge", lambda at: at.said["edge"] not in ("", "none"))
NO_UNDERSIDE = When(
    "where the height of the log's underside is not told", lambda at: not at.said["underside"]
)
LONGEST = When("of 'longest'", lambda at: at.said["question"] == "longest")
BALLAST = When("of 'ballast'", lambda at: at.said["question"] == "ballast")

QUESTION = Section("Question")
MACHINE = Section("Machine and end")
LOG = Section("Log")
LOG_MORE = Section("Log", "Bark, moisture, mud, root plate")
PLACE = Section("Place", to="lift")
PICK_UP = Section("Pick-up")
SET_DOWN = Section("Set-down")
TRAILER = Section("Set-down", "Trailer")
GROUND = Section("Ground", to="site")
PADS = Section("Ground", "Mats, levelling, grip of the ground", to="site")
SLING = Section("Chain, sling, grip", "How it is slung", SLUNG, to="sling")
RIGGING = Section("Chain, sling, grip", "How it is slung", HANGS, to="sling")
GEAR = Section("Chain, sling, grip", "What chain, hook and eye may carry", SLUNG, to="gear")
LIFTED = Section("Chain, sling, grip", "Whole, by one end, or drawn", HANGS, to="taken")
JAWS = Section("Chain, sling, grip", "Grip of the jaw", JAW, to="lift")
NEAR = Section("What is near", "Wires, edges, people", to="hazards")
CARRIED = Section("The journey", when=FRONT, to="lift")
JOURNEY = Section("The journey", "Speed, turns, braking, ruts", ON_THE_MOVE, to="motion")
AS_IT_IS = Section("More", "The machine as it is")
FINER = Section("More", "Finer points of the pose", to="lift")
CELLS = Section("More", "Size of the cells")
SECTIONS = (
    QUESTION, MACHINE, LOG, LOG_MORE, PLACE, PICK_UP, SET_DOWN, TRAILER, GROUND, PADS, SLING,
    RIGGING, GEAR, LIFTED, JAWS, NEAR, CARRIED, JOURNEY, AS_IT_IS, FINER, CELLS,
)  # fmt: skip
"""In the order in which a lift is thought of."""
