"""Tipping in a rigid-body physics engine: bodies, contacts and time steps; no moments of ours.

A `Scene` (lumps, contacts, a pin) is built in MuJoCo and loaded slowly until it leans for good.
The ground is a plane, a slope is a gravity that is not square to it, every contact is a small hard
ball under its place, and an oscillating front axle is a weightless second body on a hinge along
the machine, without stops.

Friction: the front tyres of an oscillating axle roll freely, so they hold sideways and not along.
Locked ones scrub and wrongly hold the axle: across a slope the machine of `test_engine` then goes
over at 35.8° in place of 32.4°. Every other contact has `FRICTION`. It is more than any ground
gives, for sliding is another criterion, and less than wheelbase over height of the pin: up to
that the far rear contact cannot hold the machine down by its friction. (Moment about the line from
near rear contact to pin of a force at the far one, s apart: s·(N·L − F·h_p), positive as long as
F < N·L/h_p.)

How stiff: at rest the balls sink in by some 10 µm and the machine leans by some 1e-5 rad. Measured
on the 400 cases of `test_engine`: contacts four times as soft move the tip load by 0.13 % at most,
half the time step by 0.07 %, which is the width of the last bisection.
"""

from __future__ import annotations

import math
from typing import Any, Literal

import mujoco
import numpy as np

from tests.physics.programme import Contact, Scene, Vector

Outcome = Literal["holds", "tips", "slides"]

STEP = 0.002
"""Time step [s]; contacts take twice that to come to rest, the least that MuJoCo advises."""
FRICTION = 3.0
ROLLING = 1e-5
"""Friction along the machine of a tyre that rolls: the least that MuJoCo takes."""
GONE = 0.005
"""Lean from which there is no way back [rad]; at rest it is below a hundredth of this."""
SLID = 0.01
"""Way along the ground from which a machine is said to slide [m]; creep is below a tenth of it."""
BALL = 0.005
"""Radius of a contact [m]; its foot wanders by that times the lean."""

_SPHERE = mujoco.mjtGeom.mjGEOM_SPHERE
_LOOKS = {"contype": 0, "conaffinity": 0}
"""Nothing touches but the pairs that are listed."""


def model(
    scene: Scene, *, rolls: bool, held: Contact | None, softness: float, step: float
) -> mujoco.MjModel:
    """The scene as MuJoCo has it; see `Engine`."""
    spec = mujoco.MjSpec()
    spec.option.timestep = step
    spec.option.cone = mujoco.mjtCone.mjCONE_ELLIPTIC
    # Friction is ten times as stiff as the contact is, so that nothing creeps away meanwhile.
    spec.option.impratio = 10.0
    spec.option.integrator = mujoco.mjtIntegrator.mjINT_IMPLICITFAST
    hard = {"solref": [2 * STEP * math.sqrt(softness), 1.0], "solimp": [0.9, 0.9, 0.001, 0.5, 2.0]}
    world = spec.worldbody
    plane = mujoco.mjtGeom.mjGEOM_PLANE
    world.add_geom(name="ground", type=plane, size=[50.0, 50.0, 1.0], **_LOOKS)
    chassis = world.add_body(name="chassis")
    chassis.add_freejoint()
    for mass, at in scene.masses:
        chassis.add_geom(type=_SPHERE, size=[0.2, 0.0, 0.0], mass=mass, pos=at, **_LOOKS)
    bodies = [(chassis, np.zeros(3))]
    if scene.pin is not None:
        # The axle's mass is among the lumps: this body has inertia but no weight.
        axle = chassis.add_body(name="axle", pos=scene.pin, gravcomp=1.0)
        axle.add_joint(type=mujoco.mjtJoint.mjJNT_HINGE, axis=[1.0, 0.0, 0.0])
        bodies.append((axle, np.array(scene.pin)))
    for number, contact in enumerate(scene.contacts):
        body, origin = bodies[contact.body]
        name = f"contact {number}"
        body.add_geom(
            name=name,
            type=_SPHERE,
            size=[BALL, 0.0, 0.0],
            mass=200.0 if contact.body else 0.0,
            pos=np.add(contact.at, [0.0, 0.0, BALL]) - origin,
            **_LOOKS,
        )
        # On a level plane the first direction of friction is y and the second x (mju_makeFrame).
        along = ROLLING if contact.body and rolls else FRICTION
        spec.add_pair(
            geomname1="ground",
            geomname2=name,
            condim=3,
            friction=[FRICTION, along, 0.0, 0.0, 0.0],
            **hard,
        )
    if held is not None:
        # A weightless post that slides up and down only: it holds its place in plan.
        post = world.add_body(name="post", pos=held.at, gravcomp=1.0)
        post.add_joint(type=mujoco.mjtJoint.mjJNT_SLIDE, axis=[0.0, 0.0, 1.0])
        post.add_geom(type=_SPHERE, size=[0.1, 0.0, 0.0], mass=50.0, **_LOOKS)
        tie = spec.add_equality(
            type=mujoco.mjtEq.mjEQ_CONNECT,
            objtype=mujoco.mjtObj.mjOBJ_BODY,
            name1="post",
            name2=("chassis", "axle")[held.body],
            **hard,
        )
        tie.data[:3] = [0.0, 0.0, 0.0]
    return spec.compile()


class Engine:
    """A machine standing in the engine, at first level and without its load.

    Parameters
    ----------
    scene : Scene
    rolls : bool
        Whether the front tyres of an oscillating axle roll freely along the machine.
    held : Contact, optional
        A contact that cannot slide whatever it carries; it may still lift off.
    softness : float
        Times as soft as usual.
    step : float
        Time step [s].
    """

    def __init__(
        self,
        scene: Scene,
        *,
        rolls: bool = True,
        held: Contact | None = None,
        softness: float = 1.0,
        step: float = STEP,
    ) -> None:
        self.model = model(scene, rolls=rolls, held=held, softness=softness, step=step)
        self.data = mujoco.MjData(self.model)
        self.chassis = self.model.body("chassis").id
        self.at = np.array(scene.load, float)
        self.load = 0.0
        self.gravity = np.array([0.0, 0.0, -math.hypot(*scene.gravity)])
        self.outcome: Outcome = self.run(0.1)

    def run(
        self, seconds: float, *, load: float | None = None, gravity: Vector | None = None
    ) -> Outcome:
        """Go on for a while, with load [kg] and gravity [m/s²] moving evenly to new values.

        The load hangs: its weight acts at its place of the chassis, along gravity.
        """
        old_load, old_gravity = self.load, self.gravity
        new_load = old_load if load is None else load
        new_gravity = old_gravity if gravity is None else np.array(gravity)
        stride = round(0.05 / self.model.opt.timestep)
        laps = max(1, round(seconds / 0.05))
        for lap in range(1, laps + 1):
            self.load = old_load + (new_load - old_load) * lap / laps
            self.gravity = old_gravity + (new_gravity - old_gravity) * lap / laps
            self._pull()
            mujoco.mj_step(self.model, self.data, stride)
            # Sliding first: what then leans is a machine that has run against something.
            if math.hypot(*self.data.xpos[self.chassis][:2]) > SLID:
                return "slides"
            if self.lean > GONE:
                return "tips"
        return "holds"

    def _pull(self) -> None:
        """Gravity on the machine, and the load's weight on the chassis where it now hangs."""
        data, body = self.data, self.chassis
        self.model.opt.gravity = self.gravity
        turn = data.xmat[body].reshape(3, 3)
        weight = self.load * self.gravity
        data.xfrc_applied[body, :3] = weight
        data.xfrc_applied[body, 3:] = np.cross(
            data.xpos[body] + turn @ self.at - data.xipos[body], weight
        )

    @property
    def lean(self) -> float:
        """Angle of the chassis to the ground, whichever way it leans [rad]."""
        turn = self.data.xmat[self.chassis]
        return math.asin(min(1.0, math.hypot(turn[2], turn[5])))

    def keep(self) -> tuple[np.ndarray, float, np.ndarray]:
        """The state as it is, to come back to."""
        kind = mujoco.mjtState.mjSTATE_INTEGRATION
        state = np.empty(mujoco.mj_stateSize(self.model, kind))
        mujoco.mj_getState(self.model, self.data, state, kind)
        return state, self.load, self.gravity

    def back(self, kept: tuple[np.ndarray, float, np.ndarray]) -> None:
        """Go back to a state."""
        state, self.load, self.gravity = kept
        mujoco.mj_setState(self.model, self.data, state, mujoco.mjtState.mjSTATE_INTEGRATION)
        mujoco.mj_forward(self.model, self.data)


class Loading:
    """A machine on its slope, loaded in turn by loads that are shares of a guess.

    Every load is put on slowly, from nine tenths of the guess, and then kept for two seconds.
    """

    def __init__(self, scene: Scene, guess: float, **how: Any) -> None:
        self.engine = Engine(scene, **how)
        self.guess = guess
        self.start = self.engine.run(0.3, gravity=scene.gravity)
        if self.start == "holds":
            self.start = self.engine.run(0.4, load=0.9 * guess)
        if self.start == "holds":
            self.start = self.engine.run(0.1)
        self.kept = self.engine.keep()
        self.slides = self.start == "slides"

    def under(self, share: float) -> Outcome:
        """What the machine does under a load."""
        if self.start != "holds":
            return self.start
        self.engine.back(self.kept)
        found = self.engine.run(0.3, load=share * self.guess)
        if found == "holds":
            found = self.engine.run(2.0)
        self.slides |= found == "slides"
        return found

    def share_at_tipping(self, *, within: float = 1e-3) -> float:
        """Load at which it no longer holds, as a share of the guess.

        0 where it does not even hold nine tenths of it, infinity where it holds twice the guess.
        """
        if self.start != "holds":
            return 0.0
        low, high = (0.99, 1.01) if self.under(0.99) == "holds" else (0.9, 0.99)
        while low >= 0.99 and self.under(high) == "holds":
            low, high = high, 2 * high - 0.99
            if high > 2.0:
                return math.inf
        while high - low > within:
            middle = (low + high) / 2
            low, high = (middle, high) if self.under(middle) == "holds" else (low, middle)
        return (low + high) / 2
