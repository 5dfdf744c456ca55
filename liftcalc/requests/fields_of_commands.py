"""What may be typed of maps, questions and comparisons, beside what a lift has: their records.

As in ``fields``, whose rows they share.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import get_args

from liftcalc.requests.fields import HALF_TURN, LiftRequest, SharedRequest
from liftcalc.requests.sections import (
    ALWAYS,
    BALLAST,
    CELLS,
    LONGEST,
    PICK_UP,
    QUESTION,
    SET_DOWN,
    TRAILER,
)  # fmt: skip
from liftcalc.requests.table import again, of_end, row
from liftcalc.timber.piece import Keep

KEEPS: tuple[Keep, ...] = get_args(Keep)
QUESTIONS: dict[str, str] = {
    "farthest": "How far out can this log be lifted, at this height?",
    "highest": "How high can it be lifted, at this reach?",
    "longest": "What is the longest piece of it that can be lifted there?",
    "ballast": "How much ballast would it take, and where?",
    "pads": "How large must the pads be on this ground?",
    "pressure": "What must the gauge read for every ram to carry it?",
    "steepest": "How steep may the ground be?",
    "carry": "At what height should it be carried on the move?",
    "chain": "Where does the chain go, and how does the log hang then?",
    "more": "What would buy more, and how much?",
}

# A table: a row's kind and label on its first line, how to say it on its second.
# fmt: off


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitsRequest(LiftRequest):
    """A map as typed: a lift of which place and log may be left out."""

    species: str = again(LiftRequest, "species",
        how="Of a log to look for; without one the map is of loads alone.", needed=None)
    length: str = again(LiftRequest, "length", needed=None)
    height: str = again(LiftRequest, "height",
        how="Of the plan map (back) and of the pose that is drawn.", needed=None)
    reach: str = again(LiftRequest, "reach",
        how="Where the machine is drawn; the map is of every reach.", needed=None)
    reach_step: str = row(CELLS, "length", "Cells in reach",
        "Not said: as the machine needs.", low=0.02, high=2.0, example="0.25 m")
    height_step: str = row(CELLS, "length", "Cells in height",
        "Not said: as the machine needs.", low=0.02, high=2.0, example="0.25 m")
    slew_step: str = row(CELLS, "angle", "Cells in slew",
        "Not said: 5 deg.", low=math.radians(0.5), high=math.radians(45), example="5 deg")
    lowest: str = row(CELLS, "length", "Lowest lift point",
        "Not said: 1 m below the ground.", low=-3.0, high=3.0, example="-1 m")


@dataclass(frozen=True, slots=True, kw_only=True)
class QuestionRequest(LiftRequest):
    """A question about a lift as typed."""

    question: str = row(QUESTION, "choice", "Question",
        "What is asked for need not be given.", options=tuple(QUESTIONS), shown=QUESTIONS,
        needed=ALWAYS, argument=True)
    keep: str = row(QUESTION, "choice", "Which end is kept",
        "Not said: each in turn.", options=(*KEEPS, "both"), usual="both", only=LONGEST)
    ballast_ahead: str = row(QUESTION, "length", "Ballast ahead of the rear axle",
        "Where it may go: all three, or none for the usual places.", low=-5.0, high=8.0,
        only=BALLAST, example="1 m")
    ballast_left: str = row(QUESTION, "length", "Ballast left of the middle",
        "To the right is negative.", low=-5.0, high=8.0, only=BALLAST, example="-0.9 m")
    ballast_up: str = row(QUESTION, "length", "Ballast above the ground",
        "Its middle.", low=-5.0, high=8.0, only=BALLAST, example="0.7 m")


@dataclass(frozen=True, slots=True, kw_only=True)
class CompareRequest(SharedRequest):
    """A comparison of both ends for one log and two places, as typed."""

    front_attachment: str = of_end("front", LiftRequest, "attachment")
    front_lift_point: str = of_end("front", LiftRequest, "lift_point")
    back_attachment: str = of_end("back", LiftRequest, "attachment")
    back_lift_point: str = of_end("back", LiftRequest, "lift_point")
    front_stance: str = of_end("front", LiftRequest, "stance")
    back_stance: str = of_end("back", LiftRequest, "stance")
    pick_height: str = row(PICK_UP, "length", "Underside of the log at pick-up",
        "Above the ground the machine stands on.", low=-3.0, high=12.0, needed=ALWAYS,
        example="0.1 m")
    pick_reach: str = row(PICK_UP, "length", "Reach of the back end at pick-up",
        "From the slew axis to the log’s balance point.", most=15.0, needed=ALWAYS, example="3.5 m")
    pick_slew: str = row(PICK_UP, "angle", "Slew of the back end at pick-up",
        "From straight back; left is positive.", low=-HALF_TURN, high=HALF_TURN, beside=True,
        example="40 deg")
    set_height: str = row(SET_DOWN, "length", "Underside of the log at set-down",
        "Bunk floor or stack, above the ground.", low=-3.0, high=12.0, needed=ALWAYS,
        example="1.4 m")
    set_reach: str = row(SET_DOWN, "length", "Reach of the back end at set-down",
        "Not said: as at pick-up.", most=15.0, example="3 m")
    set_slew: str = row(SET_DOWN, "angle", "Slew of the back end at set-down",
        "Not said: as at pick-up.", low=-HALF_TURN, high=HALF_TURN, beside=True, example="75 deg")
    bunk_width: str = row(TRAILER, "length", "Clear width of the bunk",
        "Inside the trailer’s stakes, if set down in one:", most=15.0, example="2.2 m")
    bunk_height: str = row(TRAILER, "length", "Clear height inside it",
        "In which a jaw has to open:", most=15.0, example="1.5 m")
    front_open_width: str = row(TRAILER, "length", "Front jaw open: its width",
        "What it takes up across the bunk:", most=15.0, example="1.2 m")
    front_open_height: str = row(TRAILER, "length", "Front jaw open: its height",
        "What it takes up upward when open:", most=15.0, example="0.7 m")
    back_open_width: str = row(TRAILER, "length", "Back jaw open: its width",
        "What it takes up across the bunk:", most=15.0, example="1.2 m")
    back_open_height: str = row(TRAILER, "length", "Back jaw open: its height",
        "What it takes up upward when open:", most=15.0, example="0.7 m")
    front_plate: str = of_end("front", LiftRequest, "plate")
    back_plate: str = of_end("back", LiftRequest, "plate")
    front_tilt: str = of_end("front", LiftRequest, "tilt")
    back_curl: str = of_end("back", LiftRequest, "curl")
