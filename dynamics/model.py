"""A machine with its load as bodies, joints and contacts of MuJoCo, from its masses and places.

Nothing of the statics is used but the posed masses and pins: what holds, slips or lifts off is the
engine's own. Bodies: the chassis with all that does not move; the front axle on its pin with stops;
steered front tyres and driven rear ones that roll; the end that lifts as a chain of links on its
pins, each held by a spring as stiff as the oil in its ram; the load, hung as a pendulum or held.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

import mujoco
import numpy as np

from dynamics.figures import (
    AXLE_DAMPING,
    AXLE_STOP,
    BALL,
    ENVELOPING,
    FRONT_TYRE,
    OIL,
    PAD,
    PAD_DAMPING,
    REAR_TYRE,
    SLEW,
    TYRE_DAMPING,
    WHEEL_SHARES,
)
from dynamics.parts import HINGE, LOOKS, SPHERE, X_AXIS, Y_AXIS, Z_AXIS, Parts
from liftcalc.evaluation.check import reach
from liftcalc.evaluation.lift import Lift
from liftcalc.machines.arm import Joint
from liftcalc.machines.assembly import PointMass
from liftcalc.site.motion import Motion

GRAVITY = 9.80665
SIDES = {"left": 1.0, "right": -1.0}


@dataclass(frozen=True, slots=True, kw_only=True)
class Obstacle:
    """A round log across the way of the wheels of one side: its thickness, where, which wheels."""

    thickness: float
    ahead: float
    side: str
    wheels: tuple[str, ...] = ("front",)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ram:
    """A held joint: its pins' moment arm [m], greatest push and pull at the relief [N]."""

    name: str
    moment_arm: float
    push: float
    pull: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Rig:
    """A machine built: the model, its supports and rams, and what commands may need."""

    model: mujoco.MjModel
    supports: tuple[str, ...]
    rams: tuple[Ram, ...]
    gravity: np.ndarray
    mass: float
    load: float
    radii: dict[str, float]
    wheelbase: float
    front_track: float
    braked: tuple[str, ...]
    lever: float
    """Of the lift point from the first pin of its end [m]: what a turn of that joint lowers."""
    slews: bool
    pendulum: float
    """Length from lift point to the load's middle [m]; 0 for a load held fast."""


def gravity_on(lift: Lift) -> np.ndarray:
    """Gravity seen from the machine [m/s²]: a slope as typed, none where it was levelled."""
    slope = 0.0 if lift.site.levelled else float(lift.site.slope)
    uphill, across = float(lift.site.heading), math.sin(slope)
    return -GRAVITY * np.array(
        [across * math.cos(uphill), across * math.sin(uphill), math.cos(slope)]
    )


class _Builder(Parts):
    """Puts a machine together; see ``rig``."""

    def __init__(self, lift: Lift, *, log: float, friction: float) -> None:
        super().__init__(friction)
        self.lift, self.log = lift, log
        # Masses and places only: a motion would make the statics pick another state.
        self.posed = reach_still(lift)
        self.machine = lift.machine
        self.rams: list[Ram] = []

    # The machine

    def body(self) -> None:
        """The chassis with all that stands still, the parts of the undercarriage taken out of it.

        So that the whole keeps its mass and its centre, which the machine's file was weighed for.
        """
        still = self.posed.standing.lumps[: -len(self.posed.arm.lumps)]
        for each in still:
            if each.name != "chassis":
                self.lump(self.chassis, each.mass, each[2:])
        whole = next(each for each in still if each.name == "chassis")
        parts = [*self.undercarriage(whole)]
        mass = float(whole.mass) - sum(part.mass for part in parts)
        at = (
            float(whole.mass) * np.array(whole[2:], float)
            - sum(part.mass * np.array(part[2:], float) for part in parts)
        ) / mass
        wheels = self.machine.wheels
        self.chassis.add_geom(
            type=mujoco.mjtGeom.mjGEOM_BOX,
            size=[0.6 * float(wheels.wheelbase), 0.4 * float(wheels.rear_track), 0.5],
            mass=mass,
            pos=at,
            **LOOKS,
        )

    def undercarriage(self, whole: PointMass) -> list[PointMass]:
        """Axle and wheels, pads, as far as this stance stands on them; their masses."""
        wheels, stance = self.machine.wheels, self.lift.stance
        found: list[PointMass] = []
        share = {name: value * float(self.machine.weights.total) for name, value in WHEEL_SHARES}
        base, pin = float(wheels.wheelbase), float(wheels.axle_pin_height)
        if stance != "stabilisers and bucket":
            front = float(wheels.front_radius)
            axle = self.chassis.add_body(name="front axle", pos=[base, 0.0, pin])
            if wheels.front_axle_oscillates:
                axle.add_joint(
                    name="axle pin",
                    type=HINGE,
                    axis=X_AXIS,
                    range=[-math.degrees(AXLE_STOP), math.degrees(AXLE_STOP)],
                    limited=True,
                    damping=AXLE_DAMPING,
                )
            self.lump(axle, share["axle"], [0.0, 0.0, front - pin], 0.3)
            found.append(PointMass("axle", share["axle"], base, 0.0, front))
            for side, sign in SIDES.items():
                at = [0.0, sign * float(wheels.front_track) / 2, front - pin]
                self.wheel(f"{side} front tyre", axle, at, share["front"], "front", steers=True)
                found.append(PointMass("", share["front"], base, at[1], front))
        if stance == "wheels":
            for side, sign in SIDES.items():
                at = [0.0, sign * float(wheels.rear_track) / 2, float(wheels.rear_radius)]
                self.wheel(f"{side} rear tyre", self.chassis, at, share["rear"], "rear")
                found.append(PointMass("", share["rear"], *at))
            self.drives()
        else:
            self.pads()
        return found

    def wheel(
        self,
        name: str,
        parent: Any,
        at: Sequence[float],
        mass: float,
        axle: str,
        *,
        steers: bool = False,
    ) -> None:
        """A wheel that rolls, on a knuckle if it steers; as high as it is on its own weight."""
        wheels, weights = self.machine.wheels, self.machine.weights
        spring = (FRONT_TYRE if axle == "front" else REAR_TYRE) * float(weights.total)
        half = float(getattr(weights, f"{axle}_axle")) / 2
        radius = float(getattr(wheels, f"{axle}_radius")) + half * GRAVITY / spring
        if steers:
            parent = parent.add_body(name=f"{name} knuckle", pos=at)
            parent.add_joint(name=f"{name} steers", type=HINGE, axis=Z_AXIS, damping=50.0)
            self.lump(parent, 10.0, [0.0, 0.0, 0.0], 0.1)
            self.servo(f"{name} steers", stiffness=2e5, inertia=20.0)
            at, mass = [0.0, 0.0, 0.0], mass - 10.0
        body = parent.add_body(name=name, pos=at)
        body.add_joint(name=f"{name} rolls", type=HINGE, axis=Y_AXIS)
        # A tyre's mass lies well out, which a ball of the same size has nearer in: 0.4·R².
        self.lump(body, mass, [0.0, 0.0, 0.0], radius, name=name)
        body.add_site(name=name, type=SPHERE, size=[1.2 * radius, 0, 0])
        damping = 2 * TYRE_DAMPING * math.sqrt(spring * half)
        self.touches(name, body, spring=spring, damping=damping)
        self.speed_servo(f"{name} brake", f"{name} rolls")

    def drives(self) -> None:
        """Both rear tyres turned by one shaft through a differential: each has half the torque."""
        tendon = self.spec.add_tendon(name="shaft")
        for side in SIDES:
            tendon.wrap_joint(f"{side} rear tyre rolls", 1.0)
        self.speed_servo("drive", "shaft", gain=2e4, tendon=True)

    def pads(self) -> None:
        """Stabiliser pads, and a bucket pressed on the ground; the rear tyres hang free."""
        half = float(self.machine.weights.total) / 3
        for each in self.posed.fixed.supports:
            if each.kind in ("pad", "corner"):
                at = [float(each.x), float(each.y), BALL]
                self.lump(self.chassis, 0.0, at, BALL, name=each.name)
                self.chassis.add_site(name=each.name, pos=at, type=SPHERE, size=[0.1, 0, 0])
                damping = 2 * PAD_DAMPING * math.sqrt(PAD * half)
                self.touches(each.name, self.chassis, spring=PAD, damping=damping)

    # The end that lifts

    def end(self) -> None:
        """The links on their pins, and the load at their end."""
        lift, arm = self.lift, self.posed.arm
        parent, origin = self.chassis, np.zeros(3)
        if lift.end == "back":
            axis = [float(self.machine.back.slew_axis_x), lift.sideshift, 0.0]
            yaw = math.pi - float(lift.slew)
            parent = self.chassis.add_body(
                name="kingpost", pos=axis, quat=[math.cos(yaw / 2), 0.0, 0.0, math.sin(yaw / 2)]
            )
            parent.add_joint(name="slew", type=HINGE, axis=Z_AXIS)
            self.lump(parent, 1.0, [0.0, 0.0, 0.5], 0.2)
            self.servo("slew", stiffness=SLEW, inertia=self.turned_inertia())
        for number, joint in enumerate(arm.joints):
            at = np.array([float(joint.pivot.u), 0.0, float(joint.pivot.w)])
            body = parent.add_body(name=joint.name, pos=at - origin)
            body.add_joint(name=joint.name, type=HINGE, axis=[0.0, -1.0, 0.0])
            beyond = arm.joints[number + 1].lumps if number + 1 < len(arm.joints) else ()
            for each in joint.lumps:
                hangs = lift.tool.mount == "hangs" and each.name == lift.tool.name
                if not hangs and each not in beyond:
                    spot = np.array([float(each.at.u), 0.0, float(each.at.w)]) - at
                    self.lump(body, each.mass, [*spot])
            self.hold(joint, at)
            parent, origin = body, at
        self.load(parent, origin)

    def turned_inertia(self) -> float:
        """Of all that slews, about the kingpost [kg·m²]; roughly, for the damping."""
        arm, load = self.posed.arm, self.log
        return sum(float(e.mass) * float(e.at.u) ** 2 for e in arm.lumps) + load * (
            0.0 if self.lift.point.hold == "hangs" else float(arm.load_at.u) ** 2
        )

    def hold(self, joint: Joint, at: np.ndarray) -> None:
        """The ram of a joint: the oil in it as a spring, and what it holds at its relief."""
        ram, arm = joint.ram, float(joint.moment_arm)
        pressure = float(ram.holding_pressure or self.machine.hydraulics.working_pressure)
        if self.lift.gauge is not None:
            pressure = min(pressure, self.lift.gauge)
        bore = math.pi / 4 * float(ram.bore) ** 2 * ram.count
        rod = math.pi / 4 * float(ram.rod) ** 2 * ram.count
        stroke = float(ram.open) - float(ram.closed)
        stiffness = max(OIL * bore / stroke * arm**2, 2e5)
        inertia = 20.0 + sum(
            float(e.mass) * ((float(e.at.u) - at[0]) ** 2 + (float(e.at.w) - at[2]) ** 2)
            for e in joint.lumps
        )
        self.servo(joint.name, stiffness=stiffness, inertia=inertia)
        self.rams.append(
            Ram(name=joint.name, moment_arm=arm, push=pressure * bore, pull=pressure * (bore - rod))
        )

    def load(self, parent: Any, origin: np.ndarray) -> None:
        """The log, hung or held; what hangs with it is in its mass."""
        lift, arm = self.lift, self.posed.arm
        mass = self.log + lift.rigging
        length, radius = lift.measure.length, float(lift.log.largest_diameter) / 2
        where = arm.lift_at if lift.point.hold == "hangs" else arm.load_at
        at = np.array([float(where.u), 0.0, float(where.w)]) - origin
        if lift.point.hold != "hangs":
            at[1] = lift.side_room
        elif lift.tool.mount == "hangs":
            mass += float(lift.tool.mass)
        body = parent.add_body(name="load", pos=at)
        if self.pendulum:
            body.add_joint(name="swings", type=mujoco.mjtJoint.mjJNT_BALL, damping=0.01 * mass)
        # Across the machine, as it is carried; round its own length it hardly resists.
        heavy = mass * length**2 / 12 + 1.0
        light = mass * radius**2 / 2 + 1.0
        body.mass, body.ipos = mass, [0.0, 0.0, -self.pendulum]
        body.inertia, body.iquat = [heavy, light, heavy], [1.0, 0.0, 0.0, 0.0]
        body.explicitinertial = True
        body.add_site(name="load")
        self.spec.add_sensor(
            name="gear",
            type=mujoco.mjtSensor.mjSENS_FORCE,
            objtype=mujoco.mjtObj.mjOBJ_SITE,
            objname="load",
        )

    @property
    def pendulum(self) -> float:
        """From the lift point down to the log's middle [m]: our own sum of drop, sling and log."""
        lift = self.lift
        if lift.point.hold != "hangs":
            return 0.0
        radius = float(lift.log.largest_diameter) / 2
        below = float(lift.point.drop or 0.0) + radius
        if lift.tool.mount == "hangs":
            return below
        round_log = 2 * math.pi * radius if lift.sling.way == "choked" else 0.0
        return below + max(0.3, lift.sling.length - round_log)

    def obstacle(self, given: Obstacle) -> None:
        """A round log on the ground, across the way of the wheels of one side."""
        wheels, half = self.machine.wheels, given.thickness / 2
        at = [
            float(wheels.wheelbase) + given.ahead,
            SIDES[given.side] * float(wheels.front_track) / 2,
            half,
        ]
        self.spec.worldbody.add_geom(
            name="obstacle",
            type=mujoco.mjtGeom.mjGEOM_CAPSULE,
            size=[half, 0.4, 0],
            pos=at,
            quat=[math.sqrt(0.5), math.sqrt(0.5), 0.0, 0.0],
            **LOOKS,
        )
        for axle in given.wheels:
            name = f"{given.side} {axle} tyre"
            _, spring, damping = self.soft[f"{name} on ground"]
            body = self.spec.body(name)
            self.pair(
                f"{name} on obstacle",
                "obstacle",
                name,
                body,
                spring=ENVELOPING * spring,
                damping=ENVELOPING * damping,
            )


def reach_still(lift: Lift) -> Any:
    """The machine posed for a lift, without its motion."""
    return reach(replace(lift, motion=Motion(), swing=0.0))


def rig(
    lift: Lift, *, log: float, friction: float | None = None, obstacle: Obstacle | None = None
) -> Rig:
    """Build a lift with a log of a mass [kg].

    Parameters
    ----------
    lift : Lift
        The machine, how it stands and is posed, its ground and slope. Its log's own mass is not
        looked at; its length and thickness are.
    log : float
        Mass of the log as it really is [kg].
    friction : float, optional
        Of tyres and pads on the ground [-]; if not given, that of the lift.
    obstacle : Obstacle, optional
    """
    builder = _Builder(lift, log=log, friction=lift.friction if friction is None else friction)
    builder.body()
    builder.end()
    if obstacle is not None:
        builder.obstacle(obstacle)
    model = builder.made()
    wheels, arm = lift.machine.wheels, builder.posed.arm
    radii = {name: float(model.geom(name).size[0]) for name in builder.supports}
    return Rig(
        model=model,
        supports=tuple(builder.supports),
        rams=tuple(builder.rams),
        gravity=gravity_on(lift),
        mass=float(sum(model.body_mass)),
        load=log + lift.rigging,
        radii=radii,
        wheelbase=float(wheels.wheelbase),
        front_track=float(wheels.front_track),
        braked=tuple(
            f"{side} {axle} tyre"
            for axle in (("front", "rear") if wheels.braked == "all" else ("rear",))
            for side in SIDES
        ),
        lever=abs(float(arm.lift_at.u) - float(arm.joints[0].pivot.u)),
        slews=lift.end == "back",
        pendulum=builder.pendulum,
    )
