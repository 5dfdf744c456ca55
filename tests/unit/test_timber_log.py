"""What a log weighs: records, faults, figures, doubts."""

from __future__ import annotations

import dataclasses
import inspect
import math

import pytest

from liftcalc.errors import InputError
from liftcalc.physics import formulas
from liftcalc.timber.log import (
    DENSITY_SPREAD,
    DIAMETER_ERROR,
    DISTRUST,
    Extra,
    Extras,
    LogMeasure,
    weigh,
)
from liftcalc.timber.species import all_species, find
from tests.helpers import plain, told

OAK = find("English oak")


def measure(**changed):
    sizes = {"species": OAK, "length": 4.0, "butt": 0.6, "middle": 0.5, "top": 0.44}
    return LogMeasure(**(sizes | changed))


def doubts(**changed):
    return " ".join(told(weigh(measure(**changed)).doubts))


def test_records_are_frozen_and_keyword_only():
    ours = weigh(measure())
    for record in (ours, ours.measure, ours.measure.extras, Extra()):
        with pytest.raises(dataclasses.FrozenInstanceError):
            setattr(record, dataclasses.fields(record)[0].name, 1.0)
        parameters = inspect.signature(type(record)).parameters.values()
        assert all(one.kind is inspect.Parameter.KEYWORD_ONLY for one in parameters)


def test_a_cylinder_of_oak_by_hand():
    """π/4·0.5²·4 m³ of gravity 0.56 at 88.7 % moisture; bark 0.16 of 0.56 at 88.9 %."""
    ours = weigh(measure(butt=0.5, middle=0.5, top=0.5))
    volume = math.pi / 4 * 0.25 * 4
    wood, bark = 560 * 1.887, 560 * 1.889
    assert ours.volume == pytest.approx(volume)
    assert ours.mass_likely == pytest.approx(volume * max(wood, (wood + 0.16 * bark) / 1.16))
    assert ours.cog_from_butt == pytest.approx(2.0)
    sigma = math.hypot(0.10, 2 * 0.01 / 0.5)
    assert ours.mass_planning == pytest.approx(ours.mass_likely * (1 + 1.645 * sigma))
    assert ours.mass_low == pytest.approx(ours.mass_likely * (1 - 1.645 * sigma))


def test_under_bark_adds_the_bark_by_hand():
    ours = weigh(measure(butt=0.5, middle=0.5, top=0.5, over_bark=False))
    volume = math.pi / 4 * 0.25 * 4
    assert ours.mass_likely == pytest.approx(volume * (560 * 1.887 + 0.16 * 560 * 1.889))
    assert "peeled log is lighter" in " ".join(told(ours.assumed))


@pytest.mark.parametrize("moisture", ["soaked", 3.0])
def test_soaked_is_saturated_and_nothing_is_wetter(moisture):
    ours = weigh(measure(moisture=moisture, over_bark=False))
    assert ours.density_likely == pytest.approx(1000 * (1 + 0.56 * (1 - 1 / 1.54)))


def test_the_densest_is_saturated_at_the_upper_basic_gravity():
    ours = weigh(measure(over_bark=False))
    upper = 0.56 * (1 + 1.645 * 0.079)  # Lavers & Moore: 7.9 % between specimens
    assert ours.density_densest == pytest.approx(1000 * (1 + upper * (1 - 1 / 1.54)))


def test_part_dry_has_lost_half_the_water_above_fibre_saturation():
    ours = weigh(measure(moisture="part-dry", over_bark=False))
    assert ours.density_likely == pytest.approx(560 * (1 + 0.30 + (0.887 - 0.30) / 2))


@pytest.mark.parametrize(("name", "density"), [("Yew", 1160), ("Hornbeam", 1207)])
def test_a_reported_density_enters_the_planning_mass(name, density):
    ours = weigh(measure(species=find(name), over_bark=False))
    planning = next(w for w in ours.worked if w.formula == "planning_log")
    assert planning.given["high_density"] == density


def test_dry_wood_taped_dry_is_denser_than_its_green_volume_would_say():
    dry = weigh(measure(moisture=0.15, over_bark=False)).density_likely
    assert dry > 560 * 1.15  # dry mass over green volume: that of a log taped before it dried
    at_saturation = weigh(measure(moisture=0.30, over_bark=False)).density_likely
    assert at_saturation == pytest.approx(560 * 1.30)


def test_planning_stops_at_saturation():
    """Holm oak is so dense that its upper 95 % value would not fit in its own pores."""
    holm = find("Holm oak")
    ours = weigh(measure(species=holm, over_bark=False, butt=2.9, middle=2.9, top=2.9))
    bark = next(w for w in ours.worked if w.formula == "bark_under").result
    wood = ours.mass_planning - bark * (1 + 1.645 * 0.30)
    free = ours.density_likely * (1 + 1.645 * DENSITY_SPREAD["hardwood"] * DISTRUST["D"])
    assert free > ours.density_densest
    spread = 2 * DIAMETER_ERROR / 2.9
    assert wood / ours.volume == pytest.approx(ours.density_densest * (1 + 1.645 * spread))


def test_the_diameters_for_drawing():
    three = weigh(measure())
    assert (three.butt_diameter, three.middle_diameter, three.top_diameter) == (0.6, 0.5, 0.44)
    ends = weigh(measure(middle=None))
    assert ends.middle_diameter == pytest.approx(0.52)
    middle = weigh(measure(butt=None, top=None))
    assert middle.cog_from_butt == 2.0  # nothing tells where the thick end is
    assert middle.butt_diameter == middle.top_diameter == middle.middle_diameter == 0.5
    assert (three.largest_diameter, three.least_diameter) == (0.6, 0.44)


def test_extras_by_mass_and_share_count_on_the_logs_own_mass():
    bare = weigh(measure())
    extras = Extras(ice=Extra(mass=30), mud=Extra(share=0.05), limbs=Extra(mass=10, share=0.1))
    ours = weigh(measure(extras=extras))
    assert ours.mass_likely == pytest.approx(bare.mass_likely * 1.15 + 40)
    high = 1 + 1.645 * 0.30
    assert ours.mass_planning == pytest.approx(bare.mass_planning * (1 + 0.15 * high) + 40 * high)
    low = 1 - 1.645 * 0.30
    assert ours.mass_low == pytest.approx(bare.mass_low * (1 + 0.15 * low) + 40 * low)


def test_a_root_plate_by_moments():
    bare = weigh(measure())
    ours = weigh(measure(extras=Extras(root_plate=Extra(mass=200), mud=Extra(mass=50))))
    moment = (bare.mass_likely + 50) * bare.cog_from_butt
    assert ours.cog_from_butt == pytest.approx(moment / (bare.mass_likely + 250))
    assert "root plate is taken at the butt face" in " ".join(told(ours.doubts))


def test_every_figure_has_its_working():
    ours = weigh(measure(over_bark=False, extras=Extras(root_plate=Extra(mass=90))))
    results = [done.result for done in ours.worked]
    figures = ("volume", "mass_low", "mass_likely", "mass_planning", "cog_from_butt")
    for figure in (*figures, "density_likely", "density_densest"):
        assert getattr(ours, figure) in results
    for done in ours.worked:
        again = getattr(formulas, done.formula)(**done.given)
        assert tuple(again) == tuple(done.steps)


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({"butt": None, "top": None}, "Only the middle was measured"),
        ({"moisture": "part-dry"}, "drying cannot be seen from outside"),
        ({"moisture": 2.0}, "more than this wood can hold (114 %)"),
        ({"moisture": 0.2}, "lowers the low and likely mass only"),
        ({"extras": Extras(mud=Extra(mass=5))}, "half as much again"),
        ({"extras": Extras(limbs=Extra(mass=5))}, "crown moves the balance point"),
        ({}, "Bark figures are those of a related species"),
        ({"species": find("Holm oak")}, "confidence D"),
        ({"species": find("Scots pine")}, "use MC 120-135 for thinnings"),
        ({"species": find("Yew")}, "TreeConsult"),
        ({"species": find("Hornbeam")}, "sources disagree"),
        ({"species": find("Karri"), "over_bark": False}, "heaviest bark of any hardwood"),
        ({"species": find("unknown softwood")}, "name the tree"),
    ],
)
def test_the_answer_carries_its_doubts(changed, words):
    assert words in doubts(**changed)


def test_a_sound_measure_of_a_well_known_tree_has_no_doubts():
    assert weigh(measure(species=find("White ash"))).doubts == ()


def test_what_was_assumed_is_said_with_its_source():
    said = " ".join(told(weigh(measure(middle=None)).assumed))
    for words in ("circles", "1.0 cm", "Smalian", "0.56", "Lavers", "89 %", "10.0 %"):
        assert words in said


def test_less_measured_means_a_wider_margin():
    def margin(**changed):
        ours = weigh(measure(butt=0.5, middle=0.5, top=0.5) if not changed else changed["of"])
        return ours.mass_planning / ours.mass_likely

    three = margin()
    ends = margin(of=measure(butt=0.5, middle=None, top=0.5))
    middle = margin(of=measure(butt=None, middle=0.5, top=None))
    assert three < ends < middle


def faults(**changed):
    with pytest.raises(InputError) as caught:
        measure(**changed)
    return {fault.field: fault for fault in caught.value.faults}


def test_all_faults_are_listed_together():
    found = faults(length=-1.0, butt=7.0, middle=math.nan, moisture=9.0)
    assert set(found) == {"length", "butt", "mid", "moisture"}


@pytest.mark.parametrize(
    ("changed", "field", "words"),
    [
        ({"length": 41.0}, "length", "from 0.10 m to 40.00 m"),
        ({"length": 0.0}, "length", "above zero"),
        ({"length": math.inf}, "length", "from 0.10 m to 40.00 m"),
        ({"butt": 3.5}, "butt", "from 0.05 m to 3.00 m"),
        ({"top": 0.01}, "top", "read the tape again"),
        ({"butt": 0.4, "middle": None}, "butt", "change the two about"),
        ({"middle": 0.7}, "mid", "this one may be the butt"),
        ({"middle": 0.3}, "mid", "this one may be the top"),
        ({"top": None}, "top", "only butt and mid"),
        ({"butt": None}, "butt", "give the middle alone"),
        ({"butt": None, "middle": None}, "butt", "only top"),
        ({"butt": None, "middle": None, "top": None}, "butt and top", "at least the middle"),
        ({"moisture": -0.1}, "moisture", "0 % to 300 %"),
        ({"moisture": math.nan}, "moisture", "0 % to 300 %"),
        ({"moisture": "wet"}, "moisture", "fresh, part-dry or soaked"),
        ({"extras": Extras(ice=Extra(mass=-1))}, "ice", "leave it out"),
        ({"extras": Extras(root_plate=Extra(share=5.0))}, "root-plate", "300 %"),
        ({"extras": Extras(mud=Extra(mass=math.nan))}, "mud", "from 0 kg"),
    ],
)
def test_faults_name_the_field_and_the_way_out(changed, field, words):
    assert words in plain(str(faults(**changed)[field]))


def test_a_middle_a_little_outside_its_ends_is_a_knot():
    assert weigh(measure(middle=0.62)).largest_diameter == 0.62
    assert weigh(measure(middle=0.42)).least_diameter == 0.42


@pytest.mark.parametrize("species", all_species(), ids=lambda species: species.name)
@pytest.mark.parametrize("over", [True, False])
def test_every_species_can_be_weighed_in_every_state(species, over):
    for moisture in ("fresh", "part-dry", "soaked", 0.5):
        ours = weigh(measure(species=species, over_bark=over, moisture=moisture))
        assert 300 < ours.density_likely < 1400
        assert ours.mass_low < ours.mass_likely < ours.mass_planning
