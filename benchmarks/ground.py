"""A million-pose map with every criterion against one of tipping and rams alone.

Ground under pads and pressed bucket, grip, rigging and hazards are in the one, in the other not;
both are taken in turn, with the fused loop of ``kernel`` beside them. What the ground carries at
a million poses, every reaction of it, is timed against the same map.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from benchmarks.fused import Fused
from benchmarks.kernel import BUCKET, HOOK
from benchmarks.maps import SHEET, SOLID, Map, bare, lift
from benchmarks.timing import in_turn
from liftcalc.answers.lift import Lift
from liftcalc.answers.sweep import Sweep, sweep
from liftcalc.machines.back_arm import back_arm
from liftcalc.machines.standing import pressed_front, stand, travel_front
from liftcalc.physics.reactions import Contact, settle, wrench

LIMIT = 4.0
ROUNDS = 5
STANCES = ("stabilisers", "stabilisers and bucket")


def swept(asked: Lift, where: Map) -> Sweep:
    return sweep(asked, reach=where.reach, height=where.height, slew=where.slew)


def settled(asked: Lift, where: Map) -> tuple[Any, ...]:
    """Reactions of the ground to the load of a lift at every place of a map."""
    machine = asked.machine
    pressed = asked.stance == "stabilisers and bucket"
    arm = back_arm(
        machine, tool=asked.tool, point=asked.point, boom_angle=0.4, dipper_angle=-0.8, curl=0.5
    )
    standing = stand(
        machine, front=(pressed_front if pressed else travel_front)(machine, asked.other_tool),
        back=arm, slew=0.0, sideshift=0.0, stance=asked.stance,
    )  # fmt: skip
    gravity, whole = asked.site.gravity, standing.whole
    x = float(machine.back.slew_axis_x) - where.reach
    weights = wrench(mass=whole.mass, x=whole.x, y=whole.y, z=whole.z, gravity=gravity) + wrench(
        mass=asked.needed, x=x, y=np.full_like(x, 0.3), z=where.height, gravity=gravity
    )
    contacts = [Contact(name=each.name, x=each.x, y=each.y, z=each.z) for each in standing.supports]
    return settle(contacts, wrench=weights)


def measure() -> list[dict[str, object]]:
    """Two rows for each attachment, stance, slope and map, and one for the reactions."""
    rows: list[tuple[str, float]] = []
    for tool in (HOOK, BUCKET):
        for stance in STANCES:
            for slope in ("", "6 deg"):
                said = {"attachment": tool, "stance": stance, "other_attachment": SHOVEL,
                        "slope": slope, "uphill": slope and "70 deg"}  # fmt: skip
                full, plain = lift(**said), bare(**said)
                kernel = Fused(plain)
                name = f"{tool}, {stance}{', on a slope' if slope else ''}"
                for where in (SOLID, SHEET):
                    one, two, loop = in_turn(
                        lambda full=full, where=where: swept(full, where),
                        lambda plain=plain, where=where: swept(plain, where),
                        lambda kernel=kernel, where=where: kernel(
                            reach=where.reach, height=where.height, slew=where.slew
                        ),
                        rounds=ROUNDS,
                    )  # fmt: skip
                    rows += [
                        (f"{name}, {where.name}: all criteria over tipping and rams", one / two),
                        (f"{name}, {where.name}: all criteria over fused numba", one / loop),
                    ]
    for stance in STANCES:
        full, plain = lift(stance=stance, other_attachment=SHOVEL), bare()
        one, two = in_turn(
            lambda full=full: settled(full, SHEET), lambda plain=plain: swept(plain, SHEET),
            rounds=ROUNDS,
        )  # fmt: skip
        rows.append((f"reactions on {stance} over a map of tipping and rams", one / two))
    return [
        {"name": name, "ratio": round(ratio, 3), "limit": LIMIT,
         "unit": "processor time ratio, at most"}
        for name, ratio in rows
    ]  # fmt: skip


SHOVEL = "wide front shovel"
