"""One lift in motion: settle, do what the case does, see what leaves the ground or gives way."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import mujoco
import numpy as np

from dynamics.figures import BLINK, OVER
from dynamics.model import Obstacle, Rig

SETTLE, CRUISE, AFTER = 2.0, 0.4, 3.0
"""Times before anything moves, before it happens, and after it is over [s]."""
STRIDE = 4
"""Steps between two looks."""
_CALM = 0.97
"""What is left of every speed after a look while the machine settles [-]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """What a case does, in SI.

    ``speed`` is negative in reverse, ``turn_radius`` negative to the right. ``slewing`` ends where
    the lift is posed, after starting, ``slew_cruise`` and stopping; ``way`` is +1 to the left.
    ``lowering`` is how fast the load comes down before it is stopped within ``lowering_stop``.
    """

    speed: float = 0.0
    braking: float = 0.0
    turn_radius: float | None = None
    slewing: float = 0.0
    slew_stop: float = 1.0
    slew_cruise: float = 0.0
    way: float = 1.0
    lowering: float = 0.0
    lowering_stop: float = 0.2
    obstacle: Obstacle | None = None

    @property
    def slewed(self) -> float:
        """Angle from where slewing starts to where it has stopped [rad]."""
        return self.way * self.slewing * (self.slew_stop + self.slew_cruise)


@dataclass(slots=True, kw_only=True)
class Outcome:
    """What happened: ``failed`` names it, or is empty.

    Peaks are over what was there at rest [-]: of the hardest pressed wheel or pad, of the axle (a
    pair of supports), of what holds the load; ``ram`` is the greatest holding force over its
    relief. ``off`` is the longest that a support was off the ground [s], ``slid`` how far a
    standing machine went [m], ``lean`` how far it leaned from rest [rad].
    """

    failed: str = ""
    when: float = 0.0
    rest: dict[str, float] = field(default_factory=dict)
    ground: float = 0.0
    axle: float = 0.0
    gear: float = 0.0
    ram: float = 0.0
    off: float = 0.0
    slid: float = 0.0
    lean: float = 0.0


def ramp(time: float, *, start: float, cruise: float, stop: float) -> tuple[float, float]:
    """Way and speed of a motion that starts, goes on at a speed of one and stops [s, -]."""
    if time <= 0:
        return 0.0, 0.0
    if time < start:
        return time**2 / (2 * start), time / start
    way = start / 2 + min(time - start, cruise)
    left = time - start - cruise
    if left <= 0:
        return way, 1.0
    left = min(left, stop)
    return way + left - left**2 / (2 * stop), 1.0 - left / stop


class Run:
    """A rig in motion."""

    def __init__(self, rig: Rig, move: Move) -> None:
        self.rig, self.move = rig, move
        self.model, self.data = rig.model, mujoco.MjData(rig.model)
        self.model.opt.gravity[:] = rig.gravity
        self.look = STRIDE * self.model.opt.timestep
        self.chassis = self.model.body("chassis").id
        self.sensors = np.array([self.model.sensor(name).adr[0] for name in rig.supports])
        gear = self.model.sensor("gear").adr[0]
        self.gear = slice(gear, gear + 3)
        self.ram_ids = [self.model.actuator(ram.name).id for ram in rig.rams]
        self.joint = self.model.joint
        self.lower_angle = move.lowering / rig.lever * (0.5 / 2 + 0.5 + move.lowering_stop / 2)
        self.sag: dict[str, float] = {}
        self.outcome = Outcome()

    # Commands

    def torque(self, actuator: str, limit: float) -> None:
        """The most torque of a brake or of the drive from now on [N·m]."""
        self.model.actuator(actuator).forcerange[:] = [-limit - 1e-6, limit + 1e-6]

    def aim(self, joint: str, angle: float, speed: float = 0.0) -> None:
        """Where a held joint is to be, and how fast it is to go there."""
        actuator = self.model.actuator(joint)
        kp, kv = -actuator.biasprm[1], -actuator.biasprm[2]
        self.data.ctrl[actuator.id] = angle + speed * kv / kp + self.sag.get(joint, 0.0)

    def at_rest(self) -> None:
        """The pose from which the case starts, the load hanging plumb, brakes on."""
        rig, move, data = self.rig, self.move, self.data
        if move.slewing:
            data.qpos[self.joint("slew").qposadr] = move.slewed  # seen from above it turns back
        if move.lowering:
            first = rig.rams[0].name
            data.qpos[self.joint(first).qposadr] = self.lower_angle
        for name in rig.supports:
            if "rear tyre" in name:
                self.torque(f"{name} brake", 1e6)
        mujoco.mj_kinematics(self.model, data)
        self.hang_plumb()
        mujoco.mj_forward(self.model, data)
        for joint in (*(ram.name for ram in rig.rams), *(["slew"] if rig.slews else [])):
            # Held so far above its place that at rest the springs have let it down to it.
            dof, stiff = self.joint(joint).dofadr[0], -self.model.actuator(joint).biasprm[1]
            self.sag[joint] = float(data.qfrc_bias[dof]) / stiff
            self.aim(joint, float(data.qpos[self.joint(joint).qposadr[0]]))

    def hang_plumb(self) -> None:
        """The load straight below its lift point."""
        rig, data = self.rig, self.data
        if rig.pendulum:
            # From straight down in the frame of what it hangs on to along gravity.
            parent = self.model.body("load").parentid[0]
            down = data.xmat[parent].reshape(3, 3).T @ (rig.gravity / np.linalg.norm(rig.gravity))
            turn = np.cross([0.0, 0.0, -1.0], down)
            size = float(np.linalg.norm(turn))
            if size > 1e-9:
                half = math.asin(min(1.0, size)) / 2
                adr = self.joint("swings").qposadr[0]
                data.qpos[adr : adr + 4] = [math.cos(half), *(turn / size * math.sin(half))]

    def set_off(self) -> None:
        """The whole machine moving at its speed."""
        rig, speed = self.rig, self.move.speed
        if not speed:
            return
        adr = self.joint(0).dofadr[0]
        forward = self.data.xmat[self.chassis].reshape(3, 3)[:, 0]
        self.data.qvel[adr : adr + 3] += speed * forward
        for name, radius in rig.radii.items():
            if "tyre" in name:
                self.data.qvel[self.joint(f"{name} rolls").dofadr[0]] += speed / radius
                self.torque(f"{name} brake", 0.0)
        radius = rig.radii["left rear tyre"]
        self.torque("drive", 0.3 * rig.mass * 9.81 * radius)
        self.data.ctrl[self.model.actuator("drive").id] = 2 * speed / radius

    def command(self, time: float) -> None:
        """What driver and levers do at a time after the cruise [s]."""
        rig, move = self.rig, self.move
        if move.braking and time > 0:
            self.torque("drive", 0.0)
            for name in rig.braked:
                # All of the machine is slowed by its braked wheels, alike.
                whole = rig.mass * move.braking * rig.radii[name] / len(rig.braked)
                self.torque(f"{name} brake", whole * min(1.0, time / 0.2))
        if move.turn_radius is not None:
            share = min(1.0, max(0.0, time / 0.8))
            for side, sign in (("left", 1.0), ("right", -1.0)):
                middle = move.turn_radius - sign * rig.front_track / 2
                self.aim(f"{side} front tyre steers", share * math.atan(rig.wheelbase / middle))
        if move.slewing:
            done, speed = ramp(
                time, start=move.slew_stop, cruise=move.slew_cruise, stop=move.slew_stop
            )
            turn = move.way * move.slewing
            self.aim("slew", move.slewed - turn * done, -turn * speed)
        if move.lowering:
            done, speed = ramp(time, start=0.5, cruise=0.5, stop=move.lowering_stop)
            rate = move.lowering / rig.lever
            self.aim(rig.rams[0].name, self.lower_angle - rate * done, -rate * speed)

    @property
    def lasts(self) -> float:
        """How long the case goes on once it has begun [s]."""
        move = self.move
        if move.slewing:
            return 2 * move.slew_stop + move.slew_cruise + AFTER
        if move.obstacle is not None:
            return (move.obstacle.ahead + self.rig.wheelbase + 0.5) / abs(move.speed) + AFTER - 1
        if move.turn_radius is not None:
            return min(5.0, 3 * abs(move.turn_radius) / abs(move.speed)) + 0.8
        if move.braking:
            return abs(move.speed) / move.braking * 1.5 + AFTER
        return 1.0 + move.lowering_stop + AFTER

    # The run

    def go(self) -> Outcome:
        """Settle, then move; stops as soon as something has failed."""
        data, model = self.data, self.model
        self.at_rest()
        seen, gears = [], []
        for look in range(round(SETTLE / self.look)):
            mujoco.mj_step(model, data, STRIDE)
            if look * self.look < SETTLE - 0.4:
                data.qvel *= _CALM
            elif look * self.look > SETTLE - 0.2:
                seen.append(data.sensordata[self.sensors])
                gears.append(float(np.linalg.norm(data.sensordata[self.gear])))
        forces = np.mean(seen, axis=0)
        outcome = self.outcome
        outcome.rest = dict(zip(self.rig.supports, map(float, forces), strict=True))
        self.watch_from(forces, float(np.mean(gears)))
        if self.unsound(0.0):
            outcome.failed = f"{outcome.failed}, at rest"
            return outcome
        self.set_off()
        for look in range(round((CRUISE + self.lasts) / self.look)):
            time = look * self.look - CRUISE
            self.command(time)
            mujoco.mj_step(model, data, STRIDE)
            if self.unsound(time):
                outcome.when = time
                break
        return outcome

    def watch_from(self, forces: np.ndarray, gear: float) -> None:
        """Remember how the machine stands at rest."""
        self.forces, self.hangs = forces, max(gear, 1.0)
        self.stood = self.data.xpos[self.chassis].copy()
        self.up = self.data.xmat[self.chassis].reshape(3, 3)[:, 2].copy()
        self.since_off = np.zeros(len(forces))
        self.since_over = np.zeros(len(self.rig.rams))
        self.pairs = [
            [n for n, name in enumerate(self.rig.supports) if name.split(maxsplit=1)[1] == kind]
            for kind in dict.fromkeys(name.split(maxsplit=1)[1] for name in self.rig.supports)
        ]

    def unsound(self, time: float) -> bool:
        """Look once: note the peaks, and say whether something has failed."""
        out, data = self.outcome, self.data
        now = data.sensordata[self.sensors]
        bears = self.forces > 0.05 * self.forces.sum()
        out.ground = max(out.ground, float(np.max(now[bears] / self.forces[bears], initial=0.0)))
        for pair in self.pairs:
            rest = self.forces[pair].sum()
            if rest > 0.1 * self.forces.sum():
                out.axle = max(out.axle, float(now[pair].sum() / rest))
        out.gear = max(out.gear, float(np.linalg.norm(data.sensordata[self.gear])) / self.hangs)
        self.since_off = np.where(now > 0, 0.0, self.since_off + self.look)
        out.off = max(out.off, float(np.max(self.since_off[bears], initial=0.0)))
        at = data.xpos[self.chassis]
        if not self.move.speed:
            out.slid = max(out.slid, float(np.hypot(*(at - self.stood)[:2])))
        up = data.xmat[self.chassis].reshape(3, 3)[:, 2]
        out.lean = max(out.lean, math.acos(min(1.0, float(up @ self.up))))
        if self.overrun():
            return True
        if out.lean > OVER or not np.isfinite(at).all():
            out.failed = "tips over"
        gone = [n for n in np.flatnonzero(self.since_off > BLINK) if self.must_stay(int(n))]
        if gone and not out.failed:
            out.failed = f"{self.rig.supports[gone[0]]} off the ground"
        return bool(out.failed)

    def must_stay(self, number: int) -> bool:
        """Whether a support has to stay on the ground; of a pressed bucket one corner may lift."""
        if "corner" not in self.rig.supports[number]:
            return True
        return int((self.since_off > BLINK).sum()) > 1

    def overrun(self) -> bool:
        """Whether a ram was above its relief for longer than a blink; names it."""
        for number, (ram, actuator) in enumerate(zip(self.rig.rams, self.ram_ids, strict=True)):
            force = float(self.data.actuator_force[actuator]) / ram.moment_arm
            used = force / ram.push if force > 0 else -force / ram.pull
            self.outcome.ram = max(self.outcome.ram, used)
            self.since_over[number] = self.since_over[number] + self.look if used > 1 else 0.0
            if self.since_over[number] > BLINK:
                self.outcome.failed = f"{ram.name} overrun"
                return True
        return False


def run(rig: Rig, move: Move) -> Outcome:
    """Run a move on a fresh rig."""
    return Run(rig, move).go()
