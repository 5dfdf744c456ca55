"""Parts of a machine in the engine: masses, soft contacts, joints that are held or turned.

A tyre is a ball with a soft contact, so that it gives toward an obstacle as well as downward. The
engine's contact is a spring and damper of our choosing as long as its "impedance" is small
(``SOFT``): force = (s·r + b·v)/(Â·(1 − SOFT)) with Â the engine's inverse mass, so s = k·Â·(1 −
SOFT) makes a spring of k. What is left is an added mass of SOFT times the body's own.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

import mujoco

from dynamics.figures import BRAKE_GAIN, PLANE, SERVO_DAMPING, SOFT, STEP

SPHERE, HINGE = mujoco.mjtGeom.mjGEOM_SPHERE, mujoco.mjtJoint.mjJNT_HINGE
LOOKS = {"contype": 0, "conaffinity": 0}
"""Nothing touches but the pairs that are listed."""
X_AXIS, Y_AXIS, Z_AXIS = [1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]


class Parts:
    """A world with a plane of a friction and a chassis on it, to be added to and then ``made``."""

    def __init__(self, friction: float) -> None:
        self.friction = friction
        self.soft: dict[str, tuple[str, float, float]] = {}
        self.supports: list[str] = []
        self.spec = spec = mujoco.MjSpec()
        spec.option.timestep = STEP
        spec.option.cone = mujoco.mjtCone.mjCONE_ELLIPTIC
        spec.option.impratio = 100.0  # what grips creeps little
        spec.option.integrator = mujoco.mjtIntegrator.mjINT_IMPLICITFAST
        plane = mujoco.mjtGeom.mjGEOM_PLANE
        spec.worldbody.add_geom(name="ground", type=plane, size=PLANE, **LOOKS)
        self.chassis = spec.worldbody.add_body(name="chassis")
        self.chassis.add_freejoint()

    def lump(
        self, body: Any, mass: float, at: Sequence[float], radius: float = 0.4, **more: Any
    ) -> None:
        """A mass in a body."""
        body.add_geom(type=SPHERE, size=[radius, 0, 0], mass=float(mass), pos=[*at], **LOOKS | more)

    def touches(self, name: str, body: Any, *, spring: float, damping: float) -> None:
        """A part of a body that stands on the ground, as soft as said once all is built."""
        self.pair(f"{name} on ground", "ground", name, body, spring=spring, damping=damping)
        self.spec.add_sensor(
            name=name,
            type=mujoco.mjtSensor.mjSENS_TOUCH,
            objtype=mujoco.mjtObj.mjOBJ_SITE,
            objname=name,
        )
        self.supports.append(name)

    def pair(
        self, name: str, under: str, part: str, body: Any, *, spring: float, damping: float
    ) -> None:
        """A pair that may touch; ``soft`` remembers what spring it is to be."""
        self.spec.add_pair(
            name=name,
            geomname1=under,
            geomname2=part,
            condim=3,
            friction=[self.friction, self.friction, 0, 0, 0],
            solimp=[SOFT, SOFT, 0.001, 0.5, 2.0],
        )
        self.soft[name] = (body.name, spring, damping)

    def servo(self, joint: str, *, stiffness: float, inertia: float) -> None:
        """A joint held where it is told, as by oil: a spring and a damper."""
        damping = 2 * SERVO_DAMPING * math.sqrt(stiffness * inertia)
        self.spec.add_actuator(
            name=joint,
            target=joint,
            trntype=mujoco.mjtTrn.mjTRN_JOINT,
            gaintype=mujoco.mjtGain.mjGAIN_FIXED,
            biastype=mujoco.mjtBias.mjBIAS_AFFINE,
            gainprm=[stiffness, *[0.0] * 9],
            biasprm=[0.0, -stiffness, -damping, *[0.0] * 7],
        )

    def speed_servo(
        self, name: str, target: str, *, gain: float = BRAKE_GAIN, tendon: bool = False
    ) -> None:
        """A joint, or two as one, turned at a speed with no more than a torque set later."""
        kind = mujoco.mjtTrn.mjTRN_TENDON if tendon else mujoco.mjtTrn.mjTRN_JOINT
        self.spec.add_actuator(
            name=name,
            target=target,
            trntype=kind,
            gaintype=mujoco.mjtGain.mjGAIN_FIXED,
            biastype=mujoco.mjtBias.mjBIAS_AFFINE,
            gainprm=[gain, *[0.0] * 9],
            biasprm=[0.0, 0.0, -gain, *[0.0] * 7],
            forcerange=[-1e-6, 1e-6],
            forcelimited=True,
        )

    def made(self) -> mujoco.MjModel:
        """All of it compiled, every contact with the spring it was to have."""
        model = self.spec.compile()
        for name, (body, spring, damping) in self.soft.items():
            inverse = model.body_invweight0[model.body(body).id][0] * (1 - SOFT)
            model.pair(name).solref[:] = [-spring * inverse, -damping * inverse]
        return model
