"""Worked steps: every figure is the answer's, and every sum that is shown comes out as shown."""

from __future__ import annotations

import math
import re
from dataclasses import replace

import pytest

from liftcalc.errors import InputError
from liftcalc.evaluation.check import check
from liftcalc.reports.data import ground_record, record
from liftcalc.requests.demo import DEMO
from liftcalc.requests.fields import LiftRequest
from liftcalc.requests.lift import parse_lift, without_sling
from liftcalc.site.site import Site
from liftcalc.working.rows import figure
from liftcalc.working.steps import worked_out
from tests.helpers import MACHINES, lift

FRONT = {
    "end": "front", "reach": "", "slew": "", "sling_length": "", "height": "0.9 m",
    "travelling": True, "speed": "4 km/h", "turn_radius": "6 m", "braking": "1 m/s2",
    "sinkage": "4 cm", "slope": "2 deg", "uphill": "30 deg", "mat": "",
}  # fmt: skip
CASES: dict[str, LiftRequest] = {
    "demo": DEMO,
    "wires and people": replace(
        DEMO, rules="us", wires="30 m", wires_voltage="33 kV", people="6 m", plate="2 t"
    ),
    "slewing": replace(DEMO, slew_speed="15 deg/s", slew_stop="2 s", swing="2 deg"),
    "wind": replace(DEMO, wind="35 km/h", people="12 m", slope="2 deg", uphill="80 deg"),
    "wind on a carried log": replace(
        without_sling(DEMO), **{**FRONT, "attachment": "multi-purpose jaw bucket", "wind": "8 m/s"}
    ),
    "bucket pressed": replace(
        DEMO, stance="stabilisers and bucket", slope="4 deg", uphill="70 deg", ground="stiff clay"
    ),
    "grab on a slope": replace(
        DEMO,
        attachment="log grab with rotator",
        machine="standard-centre-mount",
        reach="3.2 m",
        height="2.6 m",
        slope="3 deg",
        uphill="-20 deg",
        swing="4 deg",
        wind="20 mph",
        sling_kind="",
        sling_size="",
        hook_wll="",
        hitch_wll="",
        shackle_wll="",
        sling_length="",
        mat="1 m",
    ),
    "journey with a hook": replace(DEMO, **{**FRONT, "attachment": "front lifting hook"}),
    "journey with a jaw": replace(
        without_sling(DEMO), **{**FRONT, "attachment": "multi-purpose jaw bucket"}
    ),
    "one end": replace(DEMO, lifted="one end", breakout="1.5", height="1.9 m"),
    "drawn": replace(
        DEMO,
        lifted="drawn, one end up",
        height="1.2 m",
        slope="2 deg",
        uphill="180 deg",
        mat="1.5 m",
    ),
    "two legs": replace(DEMO, sling="two legs", sling_length="3.4 m", leg_spread="1.2 m"),
    "soft ground": replace(DEMO, ground="soft clay", mat=""),
    "peat": replace(DEMO, ground="peat"),
    "nothing said": LiftRequest(
        machine=DEMO.machine,
        end="back",
        species=DEMO.species,
        length="4.2 m",
        mid="49 cm",
        height="2 m",
        reach="4.5 m",
        stance="wheels",
    ),
}
every_case = pytest.mark.parametrize("name", CASES)


def worked(name):
    read = parse_lift(CASES[name])
    answer = check(read.lift)
    return read, answer, worked_out(answer, asked=read.lift)


@every_case
def test_every_criterion_has_a_section_that_ends_in_its_figures(name):
    _, answer, sections = worked(name)
    for each in answer.criteria:
        mine = [s for s in sections if each.name in s.title.lower()]
        assert mine, each.title
        results = {row.result for section in mine for row in section.rows}
        if each.clearance is not None:
            has, needs = float(each.clearance.has), float(each.clearance.needs)
            units = {"length": " m", "angle": " rad", "slope": " rad", "speed": " m/s"}
            unit = units.get(each.clearance.unit, "")
            wanted = [figure(has) + (unit if has < math.inf else ""), f"{figure(needs)}{unit}"]
            wanted += [figure(each.utilisation)] if has > 0 or each.clearance.firm else []
            wanted = ["no"] if each.clearance.unit == "yes" else wanted
        elif each.capacity == math.inf:
            wanted = ["no limit"]
        elif each.allowed - answer.lift.rigging > 0:
            wanted = [f"{figure(each.allowed)} kg", figure(each.utilisation)]
        else:
            wanted = [f"{figure(each.allowed)} kg"]
        assert set(wanted) <= results, (each.title, wanted, results)


@every_case
def test_the_load_of_every_demand_comes_out_of_its_steps(name):
    """Found again by dividing the steps' own results, not by reading the capacity."""
    _, answer, sections = worked(name)
    for each in answer.reached.linear:
        capacity = float(each.capacity)
        if not 0 < capacity < math.inf or each.criterion.name == "tipping":
            continue
        title = f"{each.criterion.name} {each.criterion.where}".lower()
        section = next(s for s in sections if s.title.lower().startswith(title))
        (load,) = (
            row
            for row in section.rows
            if row.plain.startswith(("load at which the line", "load at which nothing"))
        )
        assert load.result == f"{figure(capacity)} kg"
        rows = [row for row in section.rows if row.result.partition(" ")[0] != "no"]
        # What the machine and a kilogram came to is what goes into the load.
        part = {row.plain.partition(" =")[0]: row.result.partition(" ")[0] for row in rows}
        left = part.get("what is left without a load", part["the machine alone"])
        kilogram = next(
            part[words]
            for words in (
                "less its pull to the side",
                *(words for words in part if words.startswith("that kilogram, leaning")),
                "one kilogram of load",
            )
            if words in part
        )
        used = " ".join(row.plain for row in rows if row.plain.startswith("load at"))
        if "what is left without a load" in part:
            (summed,) = (row.plain for row in rows if row.plain.startswith("what is left without"))
            assert part["the machine alone"] in summed
        for figured in (left, kilogram):
            assert figured.lstrip("-") in used, (each.criterion.name, figured, used)


@every_case
def test_the_greatest_force_on_each_pad_and_the_settled_forces_are_the_answers(name):
    _, answer, sections = worked(name)
    shown = " ".join(f"{row.plain} = {row.result}" for s in sections for row in s.rows)
    if not answer.ground_forces.stands:
        assert "the machine tips" in shown
        return
    for foot in answer.ground_forces.feet:
        if foot.tyre:
            continue
        section = next(
            s for s in sections if s.title.startswith(f"Greatest force on the {foot.name}")
        )
        results = [row.result for row in section.rows]
        assert results[0] == f"{figure(foot.worst)} N"
        if foot.area is not None:
            assert f"{figure(foot.pressure)} Pa" in results
        if foot.needed is not None:
            assert f"{figure(foot.needed)} m²" in results
    for each in answer.ground_forces.reactions:
        assert f"= {figure(float(each.up))} N" in shown
    tyres = [each for each in answer.ground_forces.feet if each.tyre and "front" in each.name]
    if any(each.contact.z for each in answer.ground_forces.reactions):
        assert all(f"= {figure(each.force)} N" in shown for each in tyres)


@every_case
def test_lean_and_journey_are_the_answers(name):
    read, answer, sections = worked(name)
    by_title = {each.title: each for each in sections}
    if answer.reached.lean:
        last = by_title["Lean of the load"].rows[-1]
        assert last.result == f"{figure(float(answer.reached.lean))} rad"
    else:
        assert "Lean of the load" not in by_title
    journey = by_title.get("Journey: what braking and turning add")
    assert (journey is not None) == bool(read.lift.motion.braking or read.lift.motion.turning)
    if journey:
        site = answer.lift.site
        assert journey.rows[-2].result == f"{figure(float(site.acceleration_forward))} m/s²"
        assert journey.rows[-1].result == f"{figure(float(site.acceleration_left))} m/s²"
    gravity = next(each for each in sections if "effective gravity" in each.title)
    for row, part in zip(gravity.rows, answer.reached.gravity, strict=True):
        assert row.result == f"{figure(float(part))} m/s²"


KNOWN = {
    "sin": math.sin, "cos": math.cos, "tan": math.tan, "atan": math.atan, "sqrt": math.sqrt,
    "pi": math.pi, "least": min, "greatest": max, "angle": math.atan2, "TWO": 2, "THREE": 3,
    "degrees": math.radians, "exp": math.exp,
}  # fmt: skip
FIGURE = re.compile(r"(?<![A-Za-z])[0-9]+(?:\.[0-9]+)?")


def reckoned(text):
    """A sum as shown, reckoned anew, and how far the rounding of its figures can move it."""
    text = re.sub(r"(sin|cos) (-?[0-9.]+)°", r"\1(degrees(\2))", text)
    for sign, word in (
        ("·", "*"),
        ("−", "-"),
        ("√", "sqrt"),
        ("π", "pi"),
        ("²", "**TWO"),
        ("³", "**THREE"),
    ):
        text = text.replace(sign, word)
    if set(re.findall(r"[A-Za-z]+", text)) - set(KNOWN) or not re.fullmatch(r"[ -~]+", text):
        return None
    numbers = [float(each) for each in FIGURE.findall(text)]
    sum_of = FIGURE.sub("{}", text)

    def value(figures):
        return eval(sum_of.format(*map(repr, figures)), {"__builtins__": {}}, KNOWN)

    still, slack = value(numbers), 0.0
    for n, each in enumerate(numbers):
        moved = [*numbers[:n], each * (1 + 6e-5), *numbers[n + 1 :]]
        slack += abs(value(moved) - still)
    return still, slack + 6e-5 * abs(still)


@every_case
def test_every_sum_that_is_shown_comes_out_as_shown(name):
    """By hand with the figures that stand there; five digits are all that a reader has."""
    count = 0
    for section in worked(name)[2]:
        for row in section.rows:
            left, equals, right = row.plain.partition(" = ")
            if not equals or "limit" in right or "limit" in row.result:
                continue
            found = reckoned(right)
            if found is None:
                continue
            value, slack = found
            shown = float(row.result.split()[0])
            assert shown == pytest.approx(value, rel=0, abs=slack + 1e-12), (left, right)
            count += 1
    assert count > 60


def sums(ground):
    """The six sums of what is handed out, as the greatest of them over the weight."""
    pressed = [*ground["weights"]["force_N"], *ground["weights"]["moment_Nm"]]
    for each in ground["reactions"]:
        (x, y, z), (f, s, u) = each["at_m"], each["force_N"]
        for n, part in enumerate((f, s, u, y * u - z * s, z * f - x * u, x * s - y * f)):
            pressed[n] += part
    return max(map(abs, pressed)) / abs(ground["weights"]["force_N"][2])


STANCES = {"back": ("wheels", "stabilisers", "stabilisers and bucket"), "front": ("wheels",)}


@pytest.mark.parametrize("machine", MACHINES)
@pytest.mark.parametrize("slope", [0.0, 0.06])
def test_six_sums_are_nothing_for_every_machine_end_and_stance(machine, slope):
    stood = tipped = 0
    for end, stances in STANCES.items():
        for stance in stances:
            for heading in (0.0, 1.1, -1.6, 2.6) if slope else (0.0,):
                site = Site(slope=slope, heading=heading, acceleration_left=0.4 if slope else 0.0)
                try:
                    answer = check(lift(machine, end=end, stance=stance, site=site))
                except InputError:  # a bucket that cannot be pressed with what is fitted
                    continue
                if answer.ground_forces.stands:
                    stood += 1
                    assert sums(ground_record(answer)) <= 1e-9
                else:
                    tipped += 1
    assert stood > tipped


@every_case
def test_six_sums_of_every_answer_are_nothing(name):
    """Of the reactions and weights that are handed out, whatever end, stance and slope."""
    read = parse_lift(CASES[name])
    ground = record(check(read.lift), read, evidence=False)["ground"]
    assert not ground["stands"] or sums(ground) <= 1e-9
