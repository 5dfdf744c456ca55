"""What hangs leans with its load: a swinging grab is so much more load, not part of the machine."""

from __future__ import annotations

import math

import pytest

from liftcalc.evaluation.check import check
from liftcalc.physics.wrench import moment_about
from liftcalc.requests.fields import LiftRequest
from liftcalc.requests.lift import parse_lift

ASKED = {
    "back": LiftRequest(
        machine="standard-sideshift", end="back", attachment="log grab with rotator",
        species="European larch", length="3 m", butt="40 cm", top="35 cm", reach="3.4 m",
        height="3 m", slew="70 deg", swing="8 deg",
    ),
    "front": LiftRequest(
        machine="standard-sideshift", end="front", attachment="front log grab with rotator",
        species="European larch", length="3 m", butt="40 cm", top="35 cm", height="2.4 m",
        swing="8 deg",
    ),
}  # fmt: skip


@pytest.mark.parametrize("end", ASKED)
def test_a_swinging_grab_counts_as_load(end: str) -> None:
    answer = check(parse_lift(ASKED[end]).lift)
    reached, tool = answer.reached, answer.lift.tool
    x, y, z = reached.load
    for each in reached.lines:
        bare = sum(
            lump.mass
            * moment_about(each.line).unit(x=lump.x, y=lump.y, z=lump.z, gravity=reached.gravity)
            for lump in reached.standing.lumps
            if lump.name != tool.name
        )
        swung = moment_about(each.line).unit(
            x=x, y=y, z=z, gravity=reached.gravity, swing=math.radians(8)
        )
        if swung < 0 and math.isfinite(each.tipping_load):
            whole = bare / -swung
            assert each.tipping_load == pytest.approx(whole - tool.mass, rel=1e-9)
    for ram in reached.rams:
        # The same for a ram: what it holds in all, less the grab.
        others = [lump for lump in ram.joint.lumps if lump.name != tool.name]
        g_u, g_w = 0.0, reached.gravity[2]  # level ground
        bare = sum(
            lump.mass
            * ((lump.at.u - ram.joint.pivot.u) * g_w - (lump.at.w - ram.joint.pivot.w) * g_u)
            for lump in others
        )
        up = max(ram.push * ram.joint.moment_arm, -ram.pull * ram.joint.moment_arm)
        assert ram.load_unit_moment < 0
        whole = (up + bare) / -ram.load_unit_moment
        assert ram.capacity == pytest.approx(whole - tool.mass, rel=1e-9)
