"""What one typed thing asks of another: each rule refuses, and only what it is about."""

from __future__ import annotations

from dataclasses import replace

import pytest

from liftcalc.errors import InputError
from liftcalc.requests.demo import DEMO
from liftcalc.requests.fields import LiftRequest
from liftcalc.requests.lift import parse_lift, without_sling

HELD = replace(
    without_sling(DEMO), end="front", attachment="pallet forks", reach="", height="1.5 m", slew=""
)
FRONT = replace(DEMO, end="front", attachment="front lifting hook", reach="", height="2 m", slew="")


@pytest.mark.parametrize(
    ("request_", "changes", "field", "words"),
    [
        (DEMO, {"slope": "3 deg"}, "uphill", "which way is uphill"),
        (DEMO, {"levelled": True, "stance": "wheels"}, "levelled", "on its wheels"),
        (DEMO, {"levelled": True, "slope": "12 deg"}, "levelled", "at most 10°"),
        (DEMO, {"travelling": True}, "travelling", "the front end, on its wheels"),
        (FRONT, {"travelling": True, "stance": "stabilisers"}, "travelling", "on its wheels"),
        (DEMO, {"speed": "5 km/h"}, "speed", "a machine that stands"),
        (FRONT, {"turn_radius": "6 m"}, "turn-radius", "a machine that stands"),
        (FRONT, {"braking": "1 m/s2"}, "braking", "a machine that stands"),
        (FRONT, {"slew": "40 deg"}, "slew or sideshift", "they move the back end"),
        (FRONT, {"sideshift": "0.2 m"}, "slew or sideshift", '"0.2 m"'),
        (FRONT, {"slew_speed": "20 deg/s", "slew_stop": "1 s"}, "slew-speed", "only the back end"),
        (FRONT, {"stance": "stabilisers and bucket"}, "stance", "cannot press and lift"),
        (HELD, {"sling_length": "2 m"}, "sling-length", "no sling goes with it"),
        (HELD, {"hook_wll": "2 t"}, "hook-wll", "held fast in the pallet forks"),
        (HELD, {"lifted": "one end"}, "lifted", "holds the log fast"),
        (DEMO, {"slung_at": "4.3 m"}, "slung-at", "up to 4.20 m from the butt"),
        (DEMO, {"lifted": "one end", "hook_at": "5 m"}, "hook-at", "from the end on the ground"),
        (DEMO, {"sling": "Two-legs"}, "leg-spread", "nothing"),
    ],
)
def test_a_rule_refuses(request_: LiftRequest, changes: dict[str, object], field: str, words: str):
    parse_lift(request_)
    with pytest.raises(InputError) as caught:
        parse_lift(replace(request_, **changes))
    (fault,) = caught.value.faults
    assert fault.field == field
    assert words in str(fault)


@pytest.mark.parametrize(
    ("request_", "changes"),
    [
        (DEMO, {"slope": "3 deg", "levelled": True}),
        (DEMO, {"slope": "0 deg"}),
        (FRONT, {"travelling": True, "speed": "5 km/h", "turn_radius": "6 m", "braking": "1 m/s2"}),
        (FRONT, {"slew": "0 deg", "sideshift": "0 m"}),
        (HELD, {"lifted": "whole", "rigging_mass": "15 kg"}),
        (DEMO, {"slung_at": "4.2 m"}),
        (DEMO, {"lifted": "one end", "hook_at": "4.2 m"}),
        (DEMO, {"sling": "two legs", "leg_spread": "1.2 m"}),
    ],
)
def test_a_rule_lets_through_what_it_is_not_about(
    request_: LiftRequest, changes: dict[str, object]
):
    parse_lift(replace(request_, **changes))
