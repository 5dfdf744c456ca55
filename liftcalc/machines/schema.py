"""The machine file, as validated: one TOML table a model, every figure a ``Number`` in SI.

Points of the chassis are in the machine frame (x forward, z up, from the ground midway between
the rear tyre contacts; y left). Points of a link are in its own frame: origin at its inner pin,
X along the link to its outer pin, Y square to it, up when the link lies outward. The back end's
plane is measured outward from the slew axis. ``docs/machine-file.md`` explains each for the tape.
"""

from __future__ import annotations

from typing import Any, Literal, Self

from pydantic import BaseModel, ConfigDict, Field, model_validator
from pydantic_core import PydanticCustomError

from liftcalc.machines.number import (
    Angle,
    Bore,
    Efficiency,
    Force,
    Length,
    Mass,
    NoMass,
    Offset,
    Pressure,
    Ratio,
    Size,
    Spot2,
    Spot3,
    Torque,
    plain,
)
from liftcalc.physics.joints import FourBar
from liftcalc.physics.plane import Point
from liftcalc.shown import Shown

EndName = Literal["front", "back"]
Hold = Literal["hangs", "cradled", "gripped"]
Wheeled = Literal["rear", "all"]


def _refuse(given: str, wanted: str, fix: str) -> PydanticCustomError:
    return PydanticCustomError(
        "liftcalc",
        "given {given}; wanted {wanted}; {fix}",
        {"given": given, "wanted": wanted, "fix": fix, "understood": ""},
    )


class Table(BaseModel):
    """A table of the file: frozen, and no key is let pass unread."""

    model_config = ConfigDict(frozen=True, extra="forbid")


class Weights(Table):
    """Weighbridge figures in the travel pose with the default attachments, nobody on board."""

    total: Mass
    front_axle: Mass
    rear_axle: Mass

    @model_validator(mode="after")
    def _axles_agree(self) -> Self:
        gap = abs(self.front_axle + self.rear_axle - self.total)
        room = max(
            self.total.tolerance + self.front_axle.tolerance + self.rear_axle.tolerance,
            0.02 * self.total,
        )
        if gap > room:
            raise _refuse(
                f"axles of {self.front_axle.text} and {self.rear_axle.text}, "
                f"total {self.total.text}",
                f"axle masses that add up to the total within {room:.0f} kg",
                f"they are {gap:.0f} kg apart: weigh again, each axle on the level",
            )
        return self


class Wheels(Table):
    """Tyre contacts and the front axle's pin.

    A footprint is the length and width of the mark that one tyre leaves on hard ground, the
    machine standing as it was weighed; a rating is of the whole axle or of its two tyres, the
    smaller. ``braked`` and ``driven`` say which wheels the brakes hold and the engine turns.
    """

    wheelbase: Length
    rear_track: Length
    front_track: Length
    axle_pin_height: Length
    front_radius: Length
    rear_radius: Length
    front_axle_oscillates: bool = True
    front_footprint: Size | None = None
    rear_footprint: Size | None = None
    front_axle_rating: Mass | None = None
    rear_axle_rating: Mass | None = None
    braked: Wheeled = "rear"
    driven: Wheeled = "rear"


class Chassis(Table):
    """The part whose mass and place fore and aft follow from the weights."""

    cog_height: Length


class Carried(Table):
    """A thing of known mass on the chassis: operator, fuel, ballast.

    ``weighed`` says whether it was aboard on the weighbridge; ``used_up`` that it may be gone by
    the time of the lift (fuel): the answer is then the worse of with and without.
    """

    name: str
    mass: NoMass
    at: Spot3
    weighed: bool
    used_up: bool = False


class Stabilisers(Table):
    """The two legs; pads centre to centre. ``travel``: how far below its wheels a leg reaches."""

    x: Offset
    pad_spread: Length
    pad_length: Length
    pad_width: Length
    legs_mass: NoMass
    legs_height: Length
    travel: Length | None = None


class Hydraulics(Table):
    """Pressure for lifting, and the share of it that reaches the pins."""

    working_pressure: Pressure
    efficiency: Efficiency


class Ram(Table):
    """A ram, or several equal ones side by side; pin-to-pin lengths."""

    base: Spot2
    bore: Bore
    rod: Bore
    count: int = Field(default=1, ge=1, le=4)
    closed: Length
    open: Length
    holding_pressure: Pressure | None = None

    @model_validator(mode="after")
    def _can_be_built(self) -> Self:
        if self.rod >= self.bore:
            raise _refuse(
                f"rod {self.rod.text}, bore {self.bore.text}",
                "a rod thinner than the bore",
                "were they swapped?",
            )
        if not self.closed < self.open < 2 * self.closed:
            raise _refuse(
                f"closed {self.closed.text}, open {self.open.text}",
                "an open length above the closed one and below twice it",
                "measure pin to pin, fully in and fully out",
            )
        return self


class LinkRam(Ram):
    """A ram that turns a link about its inner pin."""

    rod_pin: Spot2
    lengthens: Literal["up", "down"]

    @property
    def side(self) -> float:
        """+1 when the link turns up as the ram lengthens, else −1 [-]."""
        return 1.0 if self.lengthens == "up" else -1.0


class TiltRam(Ram):
    """The ram that turns the attachment, through rocker and link.

    All points are in the frame of the arm or dipper, but ``link_pin``, which is in the
    attachment's. ``lengthens`` says which way the rocker turns; ``link_side`` on which side of
    the line from rocker pin to attachment pin the attachment's link pin lies.
    """

    rocker_pivot: Spot2
    rocker_ram_radius: Length
    rocker_pin_radius: Length
    rocker_turn: Angle
    link_length: Length
    link_pin: Spot2
    lengthens: Literal["up", "down"]
    link_side: Literal["left", "right"]

    def four_bar(self, *, pivot: Point) -> FourBar:
        """The linkage, for an attachment pin at ``pivot`` of the link that carries it [m]."""
        return FourBar(
            ram_base=_point(self.base),
            rocker_pivot=_point(self.rocker_pivot),
            ram_radius=plain(self.rocker_ram_radius),
            pin_radius=plain(self.rocker_pin_radius),
            pin_turn=plain(self.rocker_turn),
            link_length=plain(self.link_length),
            pivot=pivot,
            link_pin=_point(self.link_pin),
            ram_side=1.0 if self.lengthens == "up" else -1.0,
            link_side=1.0 if self.link_side == "left" else -1.0,
        )


def _point(pair: tuple[Any, Any]) -> Point:
    return Point(plain(pair[0]), plain(pair[1]))


class Link(Table):
    """A rigid link: pin-to-pin length, mass and centre of mass in its own frame."""

    length: Length
    mass: Mass
    cog: Spot2


class FrontTravel(Table):
    """How the front end is carried when the machine travels and was weighed."""

    pin_height: Length
    tilt: Angle


class Front(Table):
    """The loader: arms on the chassis, attachment on a tilt linkage."""

    arm_pivot: Spot2
    arm: Link
    lift_ram: LinkRam
    tilt_ram: TiltRam
    travel: FrontTravel


class BackTravel(Table):
    """How the back end is folded when the machine travels and was weighed."""

    boom_angle: Angle
    dipper_angle: Angle
    curl: Ratio


class Carriage(Table):
    """Kingpost and carriage; it moves with the sideshift."""

    mass: Mass
    x: Offset
    z: Length


class Back(Table):
    """The backhoe: boom, dipper and bucket linkage on a slewing kingpost."""

    slew_axis_x: Offset
    sideshift_limit: Offset
    slew_limit: Angle
    slew_torque: Torque | None = None
    foot_pin: Spot2
    carriage: Carriage
    boom: Link
    boom_ram: LinkRam
    dipper: Link
    dipper_ram: LinkRam
    bucket_ram: TiltRam
    travel: BackTravel


class LiftPoint(Table):
    """Where a load is taken: place in the attachment's frame, rating and way of holding.

    ``drop`` is the height from the point down to where a sling or log hangs (hook, rotator,
    grab). ``heel`` is how far the log's near side can go back, for a cradled one. ``jaw_force``
    is what a jaw or grab presses on the log with, on each side.
    """

    name: str
    at: Spot2
    wll: Mass
    hold: Hold
    drop: Offset | None = None
    heel: Offset | None = None
    jaw_force: Force | None = None


class Attachment(Table):
    """Something fitted to an end.

    ``mount``: ``pins`` turns with the tilt ram; ``nose`` is fixed to the dipper or arm;
    ``hangs`` is a pendulum from the nose pin. ``usual_tilt`` is to the horizontal (front),
    ``usual_curl`` a share of the bucket ram's stroke (back). ``contact_length`` is how long the
    part is that lies on the ground when it is pressed down. ``tines`` is how it is drawn from
    above: two of them, and not one piece.
    """

    name: str
    end: EndName
    mount: Literal["pins", "nose", "hangs"] = "pins"
    mass: Mass
    cog: Spot2
    width: Length
    usual_tilt: Angle | None = None
    usual_curl: Ratio | None = None
    ground_contact: Spot2 | None = None
    contact_length: Length | None = None
    outline: tuple[Spot2, ...] = ()
    tines: bool = False
    lift_point: tuple[LiftPoint, ...] = Field(min_length=1)

    @model_validator(mode="after")
    def _goes_with_its_end(self) -> Self:
        held = [point.name for point in self.lift_point if point.hold != "hangs"]
        if held and self.end == "back":
            raise _refuse(
                f"{', '.join(held)}: a load held fast at the back end",
                'hold = "hangs"',
                "a log held fast across a slewed boom is not modelled yet",
            )
        if self.mount == "nose" and self.end == "front":
            raise _refuse(
                'mount = "nose" at the front',
                "pins or hangs",
                "the loader arms have no nose: what is fixed there turns with the tilt rams",
            )
        return self


class Plate(Table):
    """A rated load of the machine's own plate or chart, which always caps the answer.

    ``reach`` says how far out it is valid (from the slew axis, or ahead of the front axle);
    without it the figure caps every reach. ``rated_with`` names the attachment that was fitted
    when it was rated, so that the rating is what may be lifted below that one. Without it the
    rating is that of the bare end, and the mass of whatever is fitted comes off it.
    """

    end: EndName
    load: Mass
    reach: Length | None = None
    rated_with: str | None = None

    @model_validator(mode="before")
    @classmethod
    def _no_longer_read(cls, given: object) -> object:
        if isinstance(given, dict) and "includes_attachment" in given:
            raise _refuse(
                "includes_attachment, which could be read both ways",
                'rated_with = "NAME" where the rating holds below that attachment, or nothing',
                "leave it out where the chart is for the bare end: what is fitted then comes off",
            )
        return given


class Fitted(Table):
    """Names of the attachments fitted when nothing else is said."""

    front: str
    back: str


class Machine(Shown, Table):
    """A whole machine, as its file says."""

    name: str
    title: str
    note: str = ""
    invented: bool = False
    fitted: Fitted
    weights: Weights
    wheels: Wheels
    chassis: Chassis
    carried: tuple[Carried, ...] = ()
    stabilisers: Stabilisers
    hydraulics: Hydraulics
    front: Front
    back: Back
    attachment: tuple[Attachment, ...] = Field(min_length=2)
    plate: tuple[Plate, ...] = ()

    @model_validator(mode="after")
    def _named_exist(self) -> Self:
        known = {(each.end, each.name) for each in self.attachment}
        named = [(f"fitted.{end}", end, getattr(self.fitted, end)) for end in ("front", "back")]
        named += [("rated_with", row.end, row.rated_with) for row in self.plate if row.rated_with]
        for key, end, name in named:
            if (end, name) not in known:
                raise _refuse(
                    f'{key} = "{name}"',
                    f"the name of an attachment of the {end} end in this file",
                    "add the attachment or correct the name",
                )
        return self
