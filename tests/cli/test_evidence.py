"""The answer as JSON with its evidence: an engineer computes all of it again from that alone."""

from __future__ import annotations

import math

import pytest

from liftcalc.factors import CAUTION
from tests.cli.test_check import BACK, FRONT, LOG, answer


def cross(a, b):
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def dot(a, b):
    return sum(x * y for x, y in zip(a, b, strict=True))


def minus(a, b):
    return tuple(x - y for x, y in zip(a, b, strict=True))


def xyz(record):
    return record["x"], record["y"], record["z"]


CASES = [
    ("standard-sideshift", *BACK, "--slew", "75 deg", "--attachment", "lifting hook"),
    ("standard-sideshift", *BACK, "--slew", "-30 deg", "--sideshift", "0.4 m", "--slope", "4 deg",
     "--uphill", "120 deg", "--ground", "dense gravel", "--mat", "80 cm"),
    ("standard-centre-mount", "--end", "back", "--reach", "3.2 m", "--height", "2.6 m",
     "--stance", "stabilisers+bucket", "--attachment",
     "log grab with rotator", "--slope", "1 in 12", "--uphill", "0 deg", "--ground", "stiff clay",
     "--mat", "1 m"),
    ("compact-centre-mount", "--end", "back", "--reach", "2.6 m", "--height", "5 ft 2 in",
     "--stance", "wheels", "--slew-speed", "15 deg/s", "--slew-stop", "1.5 s"),
    ("standard-sideshift", *FRONT, "--attachment", "pallet forks", "--slope", "5 %", "--uphill",
     "90 deg", "--ground", "rock"),
    ("small-tractor", "--end", "front", "--height", "0.9 m", "--attachment", "front lifting hook",
     "--accelerate-forward", "-1.5 m/s2"),
    ("standard-centre-mount", *FRONT, "--travelling", "--attachment", "multi-purpose jaw bucket"),
    ("standard-centre-mount", *FRONT, "--travelling", "--attachment", "front lifting hook",
     "--speed", "4 km/h", "--turn-radius", "6 m", "--braking", "1 m/s2", "--ground",
     "dense gravel", "--sinkage", "3 cm", "--slope", "2 deg", "--uphill", "30 deg"),
    ("standard-sideshift", *BACK, "--lifted", "one end", "--breakout", "1.3", "--ground",
     "firm clay", "--mat", "1 m", "--sling-kind", "chain grade 80", "--sling-size", "10 mm",
     "--hook-wll", "2 t", "--hook-at", "3.9 m"),
    ("standard-sideshift", "--end", "back", "--reach", "3.8 m", "--height", "1 m", "--lifted",
     "drawn", "--stance", "stabilisers and bucket", "--ground", "stiff clay"),
    ("standard-sideshift", *BACK, "--sling", "two legs", "--sling-length", "3.4 m",
     "--leg-spread", "1.2 m", "--sling-kind", "wire rope", "--sling-size", "16 mm", "--swing",
     "5 deg", "--ground", "rock"),
]  # fmt: skip
STILL = ("--wind", "0 m/s")
"""What wind pushes is computed again in tests/physics/test_wind_on_ground.py."""
CASES = [(*each, *STILL) for each in CASES]
every_case = pytest.mark.parametrize("words", CASES, ids=lambda w: f"{w[0]} {w[2]} {len(w)}")


def leaning(per_force, gravity, lean):
    """Least that a kilogram counts for whose weight may lean any way up to an angle.

    The weight keeps its size: least is where it points farthest from what counts, by angles.
    """
    size, arm = math.hypot(*gravity), math.hypot(*per_force)
    if size == 0 or arm == 0:
        return 0.0
    between = math.acos(max(-1.0, min(1.0, dot(gravity, per_force) / (size * arm))))
    return size * arm * math.cos(min(math.pi, between + lean))


def first_failure(numbers):
    """Load, from zero upward, at which all of some numbers ``a + b·load`` are below zero."""
    if max(a for a, _ in numbers) < 0:
        return 0.0
    falls = [a / -b for a, b in numbers if b < 0 and a >= 0]
    if any(b >= 0 and a >= 0 for a, b in numbers):
        return math.inf
    at = max(falls)
    return at if all(a + b * at <= 1e-6 * (1 + abs(a)) for a, b in numbers) else math.inf


def unit_forces(number, at):
    """What a unit force at a point counts for in a number that is linear in force and moment."""
    ones = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
    return tuple(number(one, cross(at, one)) for one in ones)


def _bound(line, lever, back):
    """What is left of a support's limit, less what a line lets it carry."""
    return lambda force, moment: -(line(force, moment) - back * force[0]) / lever


CLAY = {"soft clay": 20e3, "firm clay": 40e3, "stiff clay": 75e3}
"""Least undrained strength [Pa], BS 5930."""


class Engineer:
    """The evidence, and statics done on it from the beginning."""

    def __init__(self, got):
        self.got, self.evidence = got, got["evidence"]
        self.gravity = xyz(self.evidence["gravity"])
        self.lean = self.evidence["lean"]["whole"]
        self.states = [(each["mass"], xyz(each)) for each in self.evidence["machine_states"]]
        self.places = [xyz(each) for each in self.evidence["load_places"]]
        self.supports = {each["name"]: xyz(each) for each in self.evidence["supports"]}
        self.wheels = self.evidence["wheels"]
        xs = [at[0] for at in self.supports.values()]
        self.rear, self.front = min(xs), max(xs)
        self.friction = self.evidence["journey"]["friction"]

    def line(self, start, end):
        """Moment about a line from start to end."""
        along = minus(end, start)
        unit = tuple(part / math.hypot(*along) for part in along)
        return lambda force, moment: dot(minus(moment, cross(start, force)), unit)

    def capacity(self, ways, *, pulled=False):
        """Load at which the first of some ways fails; each is a list of (number, constant)."""
        hung, size = self.evidence["hung_mass"], math.hypot(*self.gravity)
        aside = size * math.sin(self.lean) * size / -self.gravity[2] if pulled else 0.0
        fails = []
        for way in ways:
            numbers = []
            for number, constant in way:
                alone = min(m * dot(unit_forces(number, at), self.gravity) for m, at in self.states)
                still = [dot(unit_forces(number, at), self.gravity) for at in self.places]
                lean = [
                    leaning(unit_forces(number, at), self.gravity, self.lean) if self.lean else k
                    for at, k in zip(self.places, still, strict=True)
                ]
                alone += hung * min(a - b for a, b in zip(lean, still, strict=True))
                numbers.append((alone + constant, min(lean) - aside))
            fails.append(first_failure(numbers))
        return min(fails)

    def axle(self, at, other):
        """Force up on all that stands at x = at, moments taken about x = other."""
        return lambda force, moment: (moment[1] + other * force[2]) / (at - other)

    def ways_of(self, name, where):
        """A demand in plain statics; which one is told by its words alone."""
        front, rear = self.axle(self.front, self.rear), self.axle(self.rear, self.front)

        def down(force, moment):
            return -force[2]

        def held_by(which, own):
            return down if which == "all" else own

        if name == "axle rating":
            which = "front" if "front" in where else "rear"
            form = front if which == "front" else rear
            most = 9.80665 * self.wheels[f"{which}_axle_rating"]
            return [[(lambda f, m: -form(f, m), most)]]
        if name == "least axle load":
            form = front if "steered" in where else rear
            share = self.wheels["least_axle_share"]
            return [[(lambda f, m: form(f, m) - share * down(f, m), 0.0)]]
        if name == "traction":
            driven, journey = held_by(self.wheels["driven"], rear), self.evidence["journey"]
            # Earth-moving handbooks: 2 %, 1.5 % for every inch of sinkage, and the grade.
            share = 0.02 + 0.015 * (journey["sinkage"] or 0.0) / 0.0254
            share += math.tan(self.evidence["site"]["slope"])
            unit = tuple(each / math.hypot(*self.gravity) for each in self.gravity)
            return [[(lambda f, m: self.friction * driven(f, m) - share * dot(unit, f), 0.0)]]
        if name == "grip on the ground":
            on_all = self.wheels["stance"] == "stabilisers and bucket" or (
                self.wheels["stance"] == "wheels" and self.wheels["braked"] == "all"
            )
            # Wheels that brake beyond their grip stop later: of braking nothing is asked.
            forward, left, up = self.gravity
            slope = math.hypot(forward + self.evidence["site"]["braked"], left) / -up
            held = down if on_all else rear
            return [[(lambda f, m: self.friction * held(f, m) - slope * down(f, m), 0.0)]]
        assert name == "ground", (name, where)
        under = where.removeprefix("under the ")
        return self.front_tyres(front) if under == "front tyres" else self.pad(under)

    def front_tyres(self, on_axle):
        """Half of what the axle carries, and what the push to the side at its pin adds to one.

        That push is held by moments in plan about the rear axle; all the force along may sit on
        either rear wheel, which turns the nose.
        """
        feet = {each["name"]: each for each in self.got["ground"]["feet"]}
        left, right = (feet[f"{side} front tyre"] for side in ("left", "right"))
        track, height = left["at_m"][1] - right["at_m"][1], self.supports["front-axle pin"][2]
        wide = abs(self.supports["left rear tyre"][1] - self.supports["right rear tyre"][1])
        base = self.front - self.rear

        def number(aside, fore):
            def left_over(force, moment):
                push = aside * moment[2] + fore * wide * force[0]
                return -on_axle(force, moment) / 2 - push / base * height / track

            return left_over

        level = not self.lean and not any(self.gravity[:2])
        signs = (0.0,) if level else (-1.0, 1.0)
        return [[(number(a, b), left["allowed_N"])] for a in signs for b in signs]

    def pad(self, name):
        """What a support may carry against its limit, by moments about every line across."""
        ground, at = self.got["ground"], self.supports[name]
        foot = next(each for each in ground["feet"] if each["name"] == name)
        most = foot["allowed_N"]
        ring = [
            (tuple(each["start"]), tuple(each["end"]))
            for each in self.evidence["lines"]
            if {tuple(each["start"]), tuple(each["end"])} <= set(self.supports.values())
        ]
        ways = []
        # Of the force along the machine none is held at this support, or all of it.
        for share in (0.0, 1.0):
            way = []
            for start, end in ring:
                line = self.line(start, end)
                lever = line((0.0, 0.0, -1.0), cross(at, (0.0, 0.0, -1.0)))
                if abs(lever) < 1e-9:
                    continue
                back = share * line((1.0, 0.0, 0.0), cross(at, (1.0, 0.0, 0.0)))
                way.append((_bound(line, lever, back), most))
            ways.append(way)
        return ways


@every_case
def test_an_engineer_computes_every_tipping_and_ram_load_again(words):
    """From the evidence alone: moments about each line, and virtual work of each ram."""
    got = answer(*words, *LOG)
    evidence = got["evidence"]
    lean, hung = evidence["lean"]["whole"], evidence["hung_mass"]
    gravity, load = xyz(evidence["gravity"]), xyz(evidence["lift_point"])
    lumps = [(lump["mass"], xyz(lump)) for lump in evidence["lumps"]]
    engineer = Engineer(got)
    for line in evidence["lines"]:
        number = engineer.line(line["start"], line["end"])
        moment = sum(m * dot(unit_forces(number, at), gravity) for m, at in lumps)
        per_force = unit_forces(number, load)
        per_kg = leaning(per_force, gravity, lean) if lean else dot(per_force, gravity)
        moment += hung * (per_kg - dot(per_force, gravity))
        assert line["holding_moment"] == pytest.approx(moment, rel=1e-9)
        assert line["load_moment_per_kg"] == pytest.approx(per_kg, rel=1e-7)
        if per_kg < 0 < moment:
            assert line["tipping_load"] == pytest.approx(moment / -per_kg, rel=1e-7)
        else:
            assert line["tipping_load"] == (None if moment > 0 else 0.0)
    for ram in evidence["rams"]:
        _ram_again(ram, evidence, front="front" in words)
    tips = [line["tipping_load"] for line in evidence["lines"]]
    tipping = next(each for each in got["criteria"] if each["name"] == "tipping")
    assert tipping["capacity_kg"] == min(t for t in tips if t is not None)


def _ram_again(ram, evidence, *, front):
    gravity, load = xyz(evidence["gravity"]), xyz(evidence["lift_point"])
    lean, hung = evidence["lean"]["whole"], evidence["hung_mass"]
    pivot, base, rod = ram["pivot"], ram["base_pin"], ram["rod_pin"]
    assert ram["length"] == pytest.approx(math.dist(base, rod), rel=1e-12)
    # Square to the plane of the end: through the joint's points, or the machine's side.
    out = (1.0, 0.0, 0.0)
    if not front:
        out = minus((load[0], load[1], 0.0), (pivot[0], pivot[1], 0.0))
        out = tuple(part / math.hypot(*out) for part in out)
    axis = cross((0.0, 0.0, 1.0), out)
    # Turning up carries `out` toward z: the moment about -axis.
    up = tuple(-part for part in axis)
    carried = [lump for lump in evidence["lumps"] if lump["name"] in ram["carries"]]
    links = sum(lump["mass"] * dot(cross(minus(xyz(lump), pivot), gravity), up) for lump in carried)
    # The plane's own load: a log carried off the middle does not twist the ram.
    along = dot(minus(load, pivot), out)
    at = (pivot[0] + along * out[0], pivot[1] + along * out[1], load[2])
    in_plane = minus(gravity, tuple(dot(gravity, axis) * part for part in axis))
    still = dot(cross(minus(at, pivot), in_plane), up)
    if "bucket" not in ram["name"] and "tilt" not in ram["name"]:
        line_of_ram = tuple(part / ram["length"] for part in minus(rod, base))
        arm = dot(cross(minus(rod, pivot), line_of_ram), up)
        assert ram["moment_arm"] == pytest.approx(arm, rel=1e-9, abs=1e-12)
    area = math.pi / 4 * ram["bore"] ** 2
    ring = area - math.pi / 4 * ram["rod"] ** 2
    each = ram["count"] * ram["pressure"] * ram["efficiency"]
    sides = (each * area * ram["moment_arm"], -each * ring * ram["moment_arm"])
    upward, downward = max(sides), -min(sides)
    found = []
    # The weight leans in the plane either way, up to the greatest: tried in many steps.
    for step in range(-400, 401):
        angle = lean * step / 400
        leant = tuple(
            math.cos(angle) * g + math.sin(angle) * c
            for g, c in zip(in_plane, cross(axis, in_plane), strict=True)
        )
        per_kg = dot(cross(minus(at, pivot), leant), up)
        held = links + hung * (per_kg - still)
        if upward + held <= 0 or downward - held <= 0:
            capacity = 0.0
        elif per_kg == 0:
            capacity = math.inf
        else:
            capacity = (upward + held) / -per_kg if per_kg < 0 else (downward - held) / per_kg
        found.append((capacity, held, per_kg))
    least, held, per_kg = min(found)
    # To the step where the worst lean is inside the swing, exact at its ends.
    assert ram["capacity"] == pytest.approx(least, rel=1e-9 if not lean else 1e-4)
    if not lean:
        assert ram["links_moment"] == pytest.approx(held, rel=1e-9, abs=1e-6)
        assert ram["load_moment_per_kg"] == pytest.approx(per_kg, rel=1e-9, abs=1e-9)


@every_case
def test_an_engineer_computes_every_demand_of_ground_and_wheels_again(words):
    """Pads, axles, grip and traction by statics on the evidence, not by the forms printed there."""
    got = answer(*words, *LOG)
    engineer = Engineer(got)
    criteria = {(each["name"], each["where"]): each for each in got["criteria"]}
    for each in got["evidence"]["demands"]:
        # Over an obstacle gravity is another: by hand in tests/unit/test_possible.py. What holds a
        # pull to the side is held against a programme in tests/physics.
        if each["name"] in {"tipping", "a wheel over an obstacle", "grip against turning"}:
            continue
        ways = engineer.ways_of(each["name"], each["where"])
        found = engineer.capacity(ways, pulled=each["pulled_sideways"])
        said = math.inf if each["capacity"] is None else each["capacity"]
        assert said == pytest.approx(found, rel=1e-6), (each["name"], each["where"])
        assert criteria[each["name"], each["where"]]["capacity_kg"] == each["capacity"]


@every_case
def test_six_sums_of_forces_and_moments_are_nothing(words):
    ground = answer(*words, *LOG)["ground"]
    if not ground["stands"]:
        assert any(None in each["force_N"] for each in ground["reactions"])
        return
    weight = abs(ground["weights"]["force_N"][2])
    for axis in range(3):
        force = sum(each["force_N"][axis] for each in ground["reactions"])
        moment = sum(cross(each["at_m"], each["force_N"])[axis] for each in ground["reactions"])
        assert abs(force + ground["weights"]["force_N"][axis]) <= 1e-9 * weight
        assert abs(moment + ground["weights"]["moment_Nm"][axis]) <= 1e-9 * weight


@every_case
def test_an_engineer_computes_what_presses_on_the_ground_again(words):
    """The weights' wrench, each pressure and the plate it needs."""
    got = answer(*words, *LOG)
    evidence, ground = got["evidence"], got["ground"]
    gravity, told = xyz(evidence["gravity"]), got["answer"]
    planned = told["share_of_log"] * got["log"]["mass_kg"]["planning"] + told["rigging_kg"]
    assert ground["load_kg"] == pytest.approx(ground["load_factor"] * planned, rel=1e-12)
    assert ground["load_factor"] >= 1.1
    masses = [(lump["mass"], xyz(lump)) for lump in evidence["lumps"]]
    masses.append((ground["load_kg"], xyz(evidence["lift_point"])))
    for axis in range(3):
        force = sum(m * gravity[axis] for m, _ in masses)
        moment = sum(m * cross(at, gravity)[axis] for m, at in masses)
        assert ground["weights"]["force_N"][axis] == pytest.approx(force, rel=1e-9, abs=1e-6)
        assert ground["weights"]["moment_Nm"][axis] == pytest.approx(moment, rel=1e-9, abs=1e-5)
    for each in ground["feet"]:
        if each["area_m2"] is not None:
            assert each["pressure_Pa"] == pytest.approx(each["worst_N"] / each["area_m2"])
        if "stabiliser" in each["name"] and ground["name"] in CLAY:
            # EN 1997-1 annex D: (π + 2)·1.2 times the strength under a square, and a factor of 2;
            # less for a force that leans by its share along the ground.
            number, share = 1.2 * (math.pi + 2), math.hypot(*gravity[:2]) / -gravity[2]
            allowed = number * (1 - share * number / 4) * CLAY[ground["name"]] / 2
            assert each["needed_m2"] == pytest.approx(each["worst_N"] / allowed)
        if each["settled_N"] is not None:
            assert each["worst_N"] >= each["settled_N"] * (1 - 1e-9)


@every_case
def test_an_engineer_computes_gravity_lean_and_journey_again(words):
    evidence = answer(*words, *LOG)["evidence"]
    site, journey, g0 = evidence["site"], evidence["journey"], 9.80665
    slope = 0.0 if site["levelled"] else site["slope"]
    expected = (
        -g0 * math.sin(slope) * math.cos(site["uphill"]) - site["acceleration_forward"],
        -g0 * math.sin(slope) * math.sin(site["uphill"]) - site["acceleration_left"],
        -g0 * math.cos(slope),
    )
    for got, want in zip(xyz(evidence["gravity"]), expected, strict=True):
        assert got == pytest.approx(want, abs=1e-12)
    forward = left = 0.0
    if journey["speed"] and journey["turn_radius"]:
        # v²/R over 0.7 to the side; the nose, up to two wheelbases ahead, is thrown forward.
        rate = journey["speed"] / journey["turn_radius"]
        left = rate * journey["speed"] / journey["rollover_share"]
        forward = rate**2 * 2 * journey["wheelbase"] / journey["rollover_share"]
    forward += journey["braking"]
    for axis, most in (("forward", forward), ("left", left)):
        added = site[f"acceleration_{axis}"] - journey[f"acceleration_{axis}_said"]
        assert abs(added) == pytest.approx(most, rel=1e-12)
    lean = evidence["lean"]
    total = lean["swing_said"] + lean["drawn"]
    total += math.atan(math.hypot(site["acceleration_forward"], site["acceleration_left"]) / g0)
    if lean["slew_speed"]:
        rate, radius = lean["slew_speed"], lean["hook_reach"]
        # Stopped when the swing of the start adds to that of the stop, unless it hung quiet.
        total += (2 if lean["settled"] else 4) * math.atan(rate * radius / lean["slew_stop"] / g0)
        total += math.atan(rate**2 * radius / g0)
    hangs = any("hook" in word or "grab" in word for word in words) or lean["whole"]
    assert lean["whole"] == pytest.approx(min(total, math.pi / 2) if hangs else 0.0, rel=1e-12)


def test_an_engineer_computes_rigging_and_shares_again():
    """Chain by its size, choked; two legs of rope by angles; one end by moments about the other."""
    chain = answer(*CASES[8], *LOG)
    by_name = {each["name"]: each for each in chain["criteria"]}
    # EN 818-4: grade 8 chain of 10 mm carries 3150 kg; a choke leaves 80 %.
    assert by_name["sling"]["capacity_kg"] == pytest.approx(0.8 * 3150)
    assert by_name["hook"]["capacity_kg"] == 2000
    log, told = chain["evidence"]["log"], chain["answer"]
    # Butt lifted, 0.3 m short of it; balance missed by 2 % and thrown by half a diameter.
    far = log["length"] - log["cog_from_butt"] + 0.02 * log["length"]
    far += log["largest_diameter"] / 2
    assert told["share_of_log"] == pytest.approx(far / (log["length"] - 0.3))
    assert by_name["sling"]["load_factor"] == 1.3  # what frees it, where no jolt is counted
    rope = answer(*CASES[10], *LOG)
    log = rope["evidence"]["log"]
    leg = 3.4 - math.pi * log["largest_diameter"]
    angle = math.asin(0.6 / leg)
    worse = 0.5 + 0.02 * log["length"] / 1.2
    # Doggers' rule for wire rope: 8 kg for each square millimetre; 70 % when choked.
    single = 8 * 16**2 * 0.7
    sling = next(each for each in rope["criteria"] if each["name"] == "sling")
    # Never more than 1.4 straight legs, as two are marked (uniform rating of EN 818-4, memory).
    assert sling["capacity_kg"] == pytest.approx(single * min(math.cos(angle) / worse, 1.4))


@every_case
def test_the_least_allowed_load_is_the_answer(words):
    """JSON has no number for what no load here comes to: it is null, and uses nothing."""
    got = answer(*words, *LOG, "--plate", "1.4 tonne")
    told = got["answer"]
    allowed = [math.inf if c["allowed_kg"] is None else c["allowed_kg"] for c in got["criteria"]]
    assert told["allowed_kg"] == min(allowed) <= 1400
    names = [f"{each['name']} {each['where']}".strip() for each in got["criteria"]]
    assert told["governs"] == names[allowed.index(min(allowed))]
    planned = told["share_of_log"] * got["log"]["mass_kg"]["planning"]
    for each, most in zip(got["criteria"], allowed, strict=True):
        if "needs_m" in each:
            continue
        if each["capacity_kg"] is None:
            assert math.isinf(most)
            assert each["utilisation"] == 0
            continue
        usable = each["capacity_kg"] * each["factor"] * each["tolerance_share"]
        assert most == pytest.approx(usable / each["load_factor"], rel=1e-12)
        room = most - told["rigging_kg"]
        if room <= 0:
            assert each["utilisation"] is None
        else:
            assert each["utilisation"] == pytest.approx(planned / room, rel=1e-12)
    most_used = told["utilisation"]
    assert told["passes"] == (most_used is not None and most_used <= 1)
    assert got["caution"] == CAUTION
