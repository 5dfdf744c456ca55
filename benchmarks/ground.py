"""A million-pose map with every criterion against one of tipping and rams alone.

Ground under pads and pressed bucket, grip, rigging and hazards are in the one, in the other not;
both are taken in turn, with the fused loop of ``kernel`` beside them. Where a map can be reached,
all reactions of the ground are timed with it.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from benchmarks.fused import Fused
from benchmarks.kernel import BUCKET, HOOK
from benchmarks.kernel import LIMIT as KERNEL
from benchmarks.maps import SHEET, SOLID, Map, bare, lift
from benchmarks.timing import in_turn
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.sweep import BLOCK, Sweep, blocks, sweep
from liftcalc.machines.assembly import assemble, back_point, pressed_front, travel_front
from liftcalc.machines.back_arm import reach_back
from liftcalc.physics.reactions import settle, wrench
from liftcalc.physics.tipping import Support

LIMIT = 4.0
ROUNDS = 5
SHOVEL = "wide front shovel"
STANCES = ("stabilisers", "stabilisers and bucket")


def swept(asked: Lift, where: Map) -> Sweep:
    return sweep(asked, reach=where.reach, height=where.height, slew=where.slew)


def reacted(asked: Lift, where: Map) -> list[Any]:
    """A map with every criterion, and the reactions of the ground wherever it can be reached."""
    machine, found = asked.machine, swept(asked, where)
    pressed = asked.stance == "stabilisers and bucket"
    front = (pressed_front if pressed else travel_front)(machine, asked.other_tool)
    (slew,), gravity = where.slew, asked.site.gravity
    taken, reactions = np.flatnonzero(found.stopped[:, 0] < 0), []
    for part in blocks(taken.size, BLOCK):
        at = taken[part]
        arm = reach_back(
            machine,
            tool=asked.tool,
            point=asked.point,
            reach=where.reach[at],
            height=where.height[at],
            curl=asked.curl,
        )
        standing = assemble(
            machine,
            front=front,
            back=arm,
            slew=slew,
            sideshift=asked.sideshift,
            stance=asked.stance,
            operator=asked.operator,
        )
        x, y, z = back_point(machine, arm.load_at, slew=slew, sideshift=asked.sideshift)
        whole, load = standing.whole, asked.needed
        weights = wrench(mass=whole.mass, x=whole.x, y=whole.y, z=whole.z, gravity=gravity)
        weights += wrench(mass=load, x=x, y=y, z=z, gravity=gravity)
        contacts = [Support(name=s.name, x=s.x, y=s.y, z=s.z) for s in standing.supports]
        reactions.append(settle(contacts, wrench=weights))
    return reactions


def measure() -> list[dict[str, object]]:
    """Two rows for each attachment, stance, slope and map, and one for the reactions."""
    rows: list[tuple[str, float, float]] = []
    for tool in (HOOK, BUCKET):
        for stance in STANCES:
            for slope in ("", "6 deg"):
                said = {
                    "attachment": tool,
                    "stance": stance,
                    "other_attachment": SHOVEL,
                    "slope": slope,
                    "uphill": slope and "70 deg",
                }
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
                    )
                    rows += [
                        (
                            f"{name}, {where.name}: all criteria over tipping and rams",
                            one / two,
                            LIMIT,
                        ),
                        (
                            f"{name}, {where.name}: all criteria over fused numba",
                            one / loop,
                            KERNEL * LIMIT,
                        ),
                    ]
    for stance in STANCES:
        full, plain = lift(stance=stance, other_attachment=SHOVEL), bare()
        one, two = in_turn(
            lambda full=full: reacted(full, SHEET),
            lambda plain=plain: swept(plain, SHEET),
            rounds=ROUNDS,
        )
        rows.append(
            (f"{stance}: all criteria and reactions over tipping and rams", one / two, LIMIT)
        )
    return [
        {
            "name": name,
            "ratio": round(ratio, 3),
            "limit": limit,
            "unit": "processor time ratio, at most",
        }
        for name, ratio, limit in rows
    ]
