"""Where the chain goes and how the log hangs: each figure by the moments of a rod."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from liftcalc.errors import InputError
from liftcalc.evaluation.check import check
from liftcalc.questions.chain_place import chain_place
from liftcalc.remarks import Remark
from liftcalc.rigging.sling import BALANCE_MISS, Sling
from tests.helpers import lift, told

ROD = {
    "species": "norway spruce", "length": "4 m", "butt": "30 cm", "mid": "30 cm", "top": "30 cm",
}  # fmt: skip
TAPERED = {
    "species": "norway spruce", "length": "4 m", "butt": "40 cm", "mid": "30 cm", "top": "20 cm",
}  # fmt: skip
RADIUS = 0.15


def slung(log=ROD, **sling):
    return lift(tool="lifting hook", log=log, sling=Sling(**sling))


def figures(answer) -> dict[str, float]:
    return {str(each.name): each.figure.value for each in answer.details}


def test_a_rod_balances_in_its_middle_and_a_cone_nearer_its_butt():
    assert chain_place(slung()).value == 2.0
    tapered = slung(TAPERED)
    # Frustum of a cone: h (R² + 2Rr + 3r²) / (4 (R² + Rr + r²)) from the butt.
    R, r = 0.2, 0.1
    by_hand = 4 * (R**2 + 2 * R * r + 3 * r**2) / (4 * (R**2 + R * r + r**2))
    assert chain_place(tapered).value == pytest.approx(by_hand, abs=0.03)


def test_the_window_is_what_five_degrees_leave_below_half_a_diameter():
    found = figures(chain_place(slung()))
    miss = RADIUS * math.tan(math.radians(5))
    assert found["hangs within 5° from"] == pytest.approx(2.0 - miss)
    assert found["hangs within 5° to"] == pytest.approx(2.0 + miss)
    assert found["how far off it may be, as usual"] == BALANCE_MISS * 4.0


@pytest.mark.parametrize("way", ["choked", "single"])
def test_inside_the_window_the_check_hangs_it_within_five_degrees_and_outside_not(way):
    found = figures(chain_place(slung(TAPERED, way=way)))
    low, high = found["hangs within 5° from"], found["hangs within 5° to"]

    def angle(at: float) -> float:
        asked = slung(TAPERED, way=way, at=at)
        assert (
            check(asked).hang.angle
            <= figures(chain_place(asked))["it hangs off the level by up to"]
        )
        return check(asked).hang.angle

    limit = math.radians(5)
    assert angle(low + 1e-6) <= limit
    assert angle(high - 1e-6) <= limit
    # The window is of the thinnest part, so just outside it may still do: twice as far never.
    assert angle(high + (high - low)) > limit
    thin = figures(chain_place(slung(TAPERED, way=way, at=high + 1e-4)))
    assert thin["it hangs off the level by up to"] > limit


def test_two_legs_turn_about_the_hook_and_hang_level_over_a_wider_window():
    legs = slung(way="two legs", length=3.0, spread=1.4)
    found = figures(chain_place(legs))
    depth = math.sqrt((3.0 - math.pi * 0.3) ** 2 - 0.7**2) + RADIUS
    assert found["hangs within 5° to"] - 2.0 == pytest.approx(depth * math.tan(math.radians(5)))
    assert found["leg nearer the butt, from the butt"] == pytest.approx(1.3)
    assert found["leg nearer the top, from the butt"] == pytest.approx(2.7)
    # By moments about the other leg, the balance point off by its doubt: W (0.7 + 0.08) / 1.4.
    by_hand = legs.log.mass_planning * (0.7 + 0.08) / 1.4
    assert found["at most on the leg nearer the butt"] == pytest.approx(by_hand)
    assert found["at most on the leg nearer the top"] == pytest.approx(by_hand)


def test_where_it_tapers_the_window_is_the_narrower_way():
    """One sling: as if at the thin end, 0.1 m. Two legs: as if the thick end took 0.4 π of them."""
    one = figures(chain_place(slung(TAPERED)))
    width = one["hangs within 5° to"] - one["hangs within 5° from"]
    assert width == pytest.approx(2 * 0.1 * math.tan(math.radians(5)))
    two = figures(chain_place(slung(TAPERED, way="two legs", length=3.0, spread=1.4)))
    depth = math.sqrt((3.0 - math.pi * 0.4) ** 2 - 0.7**2) + 0.2
    width = two["hangs within 5° to"] - two["hangs within 5° from"]
    assert width == pytest.approx(2 * depth * math.tan(math.radians(5)))


def test_legs_that_were_placed_share_by_their_distances():
    legs = slung(way="two legs", length=3.0, spread=1.4, at=2.3)
    found = figures(chain_place(legs))
    mass = legs.log.mass_planning
    assert found["at most on the leg nearer the butt"] == pytest.approx(mass * 1.0 / 1.4)
    assert found["at most on the leg nearer the top"] == pytest.approx(mass * 0.4 / 1.4)


def test_one_end_alone_is_half_of_a_rod_and_a_little_more():
    """W·(L/2)/(L − 0.3) and never less; the check lifts the same."""
    asked = slung()
    found = figures(chain_place(asked))
    thin = asked.log.mass_planning * 2.0 / 3.7
    for raised in ("top", "butt"):
        assert thin < found[f"on the hook with only the {raised} end raised"] < 1.15 * thin
    cone = figures(chain_place(slung(TAPERED)))
    assert (
        cone["on the hook with only the top end raised"]
        < cone["on the hook with only the butt end raised"]
    )


def test_the_notes_say_which_end_hangs_low_and_what_a_basket_does():
    off = chain_place(slung(at=2.6)).notes
    assert any(
        "toward the top: outside the window, and the butt end hangs low." in x for x in told(off)
    )
    near = chain_place(slung(at=2.005)).notes
    assert any(each.code == "slung" and each["window"] == Remark("inside_window") for each in near)
    assert Remark("basket_tips") in chain_place(slung(way="basket")).notes
    assert any(each.code == "narrow_window" for each in chain_place(slung()).notes)


@pytest.mark.parametrize(
    ("end", "tool"), [("front", "pallet forks"), ("front", "wide front shovel")]
)
def test_what_is_held_has_no_chain(end, tool):
    with pytest.raises(InputError, match="holds the log itself"):
        chain_place(lift(end=end, tool=tool, log=ROD))


def test_a_grab_has_no_chain_either():
    machine = lift().machine
    grab = next(each.name for each in machine.attachment if each.mount == "hangs")
    with pytest.raises(InputError, match="holds the log itself"):
        chain_place(lift(machine, tool=grab, log=ROD))


def test_a_place_that_the_machine_does_not_get_to_is_answered_all_the_same():
    far = replace(slung(), reach=30.0)
    assert chain_place(far).value == 2.0
    assert not chain_place(far).at.passes


def test_a_sling_too_short_to_go_round_is_refused():
    with pytest.raises(InputError, match="more than once round the log"):
        chain_place(slung(length=0.6))
