"""A question about a lift from the words a person types."""

from __future__ import annotations

from dataclasses import dataclass, replace

from liftcalc.requests.fields import LiftRequest
from liftcalc.requests.fields_of_commands import KEEPS, QuestionRequest
from liftcalc.requests.lift import ParsedLift, as_lift
from liftcalc.requests.reader import FieldReader
from liftcalc.requests.usual import careful_lift
from liftcalc.timber.piece import Keep

SOUGHT = {"farthest": "reach", "highest": "height", "carry": "height"}
"""What is asked for need not be given."""
STAND_IN = "1 m"
"""What stands in for it while the rest is read."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """A question about a lift, as read.

    ``keeps`` are the ends of a log of which a piece may be kept; ``ballast_at`` a place in the
    machine frame, ahead of the rear axle, to the left, up [m], where one was said; ``heading`` the
    way uphill [rad], where it was said.
    """

    name: str
    read: ParsedLift
    keeps: tuple[Keep, ...]
    ballast_at: tuple[float, float, float] | None
    heading: float | None


def parse_question(request: QuestionRequest) -> Question:
    """Read a question as typed; every fault, by the option's name, is in one ``InputError``."""
    reader = FieldReader(request, added=True)
    name: str | None = reader.values["question"]
    read: ParsedLift | None = None
    with reader.gather:
        read = careful_lift(_with_stand_in(as_lift(request), name))
    if name == "pads" and not reader.text("ground"):
        reader.fault(
            "ground",
            given="nothing",
            wanted='what the pads stand on, such as "firm clay"',
            fix='if in doubt, "unknown"',
        )
    ballast_at = _ballast_at(reader)
    reader.gather.raise_any()
    # Nothing is None here: what could not be read has raised.
    assert read is not None
    assert name is not None
    echoes = tuple(pair for pair in read.echoes if pair[0] != SOUGHT.get(name))
    kept = reader.values["keep"] or "both"
    return Question(
        name=name,
        read=replace(read, echoes=echoes),
        keeps=tuple(each for each in KEEPS if kept in (each, "both")),
        ballast_at=ballast_at,
        heading=float(read.lift.site.heading) if reader.text("uphill") else None,
    )


def _with_stand_in(request: LiftRequest, name: str | None) -> LiftRequest:
    """The lift with something in the place of what is asked for."""
    if name == "carry" and request.end.strip().lower() == "front":
        # Only the front end carries a log on the move: there it is on the move that is asked of.
        request = replace(request, travelling=True)
    if name in SOUGHT:
        return replace(request, **{SOUGHT[name]: STAND_IN})  # type: ignore[arg-type]
    return request


def _ballast_at(reader: FieldReader) -> tuple[float, float, float] | None:
    """Where ballast may go: all three figures or none."""
    names = ("ballast_ahead", "ballast_left", "ballast_up")
    if not any(reader.text(name) for name in names):
        return None
    for name in names:
        if not reader.text(name):
            reader.fault(
                name,
                given="nothing",
                wanted="all three: ahead of the rear axle, left of the middle, above the ground",
            )
    ahead, left, up = (reader.number(name) or 0.0 for name in names)
    return ahead, left, up
