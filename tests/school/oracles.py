"""Keys derived again, by other ways than the model's: moments summed lump by lump about lines of
our own, rams by virtual work through moved linkages, pads by equilibrium, logs by plain arithmetic.

Where links and lumps stand comes from the machines' room, whose poses have oracles of their own in
tests/physics. Nothing here asks ``check``, its criteria, its tipping lines or its ram moments.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from liftcalc.evaluation.lift import Lift
from liftcalc.machines.arm import Arm
from liftcalc.machines.assembly import MachineState, assemble, travel_back, travel_front
from liftcalc.machines.back_arm import back_arm, back_hand, reach_back
from liftcalc.machines.front_arm import reach_front
from tests.physics.programme import Contact, Scene

G = 9.80665
"""Standard gravity [m/s²]; CGPM 1901."""
STEPS = np.array([-2, -1, 1, 2], dtype=float)
WEIGHTS = np.array([1 / 12, -2 / 3, 2 / 3, -1 / 12])
"""Central difference of fourth order; Fornberg, Math. Comp. 51 (1988) 699, table 1."""
STEP = 2e-3
DIRECTIONS = np.linspace(0, 2 * math.pi, 360, endpoint=False)
LEANS = np.linspace(0, 1, 41)
Vector = np.ndarray


def gravity_of(lift: Lift) -> Iterator[Vector]:
    """Gravity less the machine's own acceleration, braking either way [m/s²]."""
    slope, heading = float(lift.site.slope), float(lift.site.heading)
    down = np.array(
        [
            -math.sin(slope) * math.cos(heading),
            -math.sin(slope) * math.sin(heading),
            -math.cos(slope),
        ]
    )
    for along in {lift.motion.braking, -lift.motion.braking}:
        yield G * down - np.array([along, 0.0, 0.0])


def lean_of(lift: Lift) -> float:
    """A slew started and stopped at the worst moment, and the lean of going round [rad].

    A pendulum at rest that is pulled along steadily swings to twice its steady lean; the stop comes
    when it has swung farthest the other way, and adds as much again.
    """
    turn, time = lift.motion.slew_speed, lift.motion.slew_stop
    if not turn or not time:
        return 0.0
    out = float(lift.reach or 0.0)
    started = stopped = 2 * math.atan(turn * out / (time * G))
    return started + stopped + math.atan(turn**2 * out / G)


@dataclass
class Stood:
    """The machine posed and standing in one of its states, with the load somewhere."""

    lift: Lift
    arm: Arm
    standing: MachineState
    load: Vector

    @cached_property
    def mass(self) -> float:
        return sum(float(each.mass) for each in self.standing.lumps)

    @cached_property
    def first(self) -> Vector:
        """First moments of all lumps [kg·m]."""
        return sum(
            float(each.mass) * np.array([float(each.x), float(each.y), float(each.z)])
            for each in self.standing.lumps
        )


_STOOD: list[tuple[Lift, tuple[Stood, ...]]] = []


def stood(lift: Lift) -> tuple[Stood, ...]:
    """Every state that nobody sees: tank full or empty, the log off to either side."""
    # A lift cannot be a key: the last few are kept as they are.
    for known, states in _STOOD:
        if known is lift:
            return states
    del _STOOD[4:]
    _STOOD.insert(0, (lift, _stood(lift)))
    return _STOOD[0][1]


def _stood(lift: Lift) -> tuple[Stood, ...]:
    radius = lift.log.largest_diameter / 2
    if lift.end == "back":
        arm = reach_back(
            lift.machine,
            tool=lift.tool,
            point=lift.point,
            reach=lift.reach,
            height=lift.height,
            curl=lift.curl,
            radius=radius,
        )
        front, back, slew = travel_front(lift.machine, lift.other_tool), arm, lift.slew
    else:
        arm = reach_front(
            lift.machine,
            tool=lift.tool,
            point=lift.point,
            height=lift.height,
            tilt=lift.tilt,
            radius=radius,
        )
        front, back, slew = arm, travel_back(lift.machine, lift.other_tool), 0.0
    arm.refuse()
    found = []
    for full in (True, False):
        standing = assemble(
            lift.machine,
            front=front,
            back=back,
            slew=slew,
            sideshift=lift.sideshift,
            stance=lift.stance,
            operator=lift.operator,
            full=full,
        )
        for at in arm.load_places:
            for side in {lift.side_room, -lift.side_room}:
                load = placed(lift, float(at.u), float(at.w)) + np.array([0.0, side, 0.0])
                found.append(Stood(lift, arm, standing, load))
    return tuple(found)


def placed(lift: Lift, out: float, up: float) -> Vector:
    """A point of the end's plane in the machine frame [m]."""
    if lift.end == "front":
        return np.array([out, 0.0, up])
    axis = float(lift.machine.back.slew_axis_x)
    return np.array(
        [axis - out * math.cos(lift.slew), lift.sideshift + out * math.sin(lift.slew), up]
    )


def lines_of(lift: Lift) -> dict[str, tuple[Vector, Vector, Vector]]:
    """Where it may go over, by name: two points of the line, and one that lies inside."""
    wheels, legs = lift.machine.wheels, lift.machine.stabilisers
    base, half = float(wheels.wheelbase), float(wheels.front_track) / 2
    pin = np.array([base, 0.0, float(wheels.axle_pin_height)])
    if lift.stance == "wheels":
        far, wide, name = 0.0, float(wheels.rear_track) / 2, "rear tyre"
        both = "over the rear axle"
    else:
        far, wide, name = float(legs.x), float(legs.pad_spread) / 2, "stabiliser"
        both = "over both stabilisers"
    left, right = np.array([far, wide, 0.0]), np.array([far, -wide, 0.0])
    tyres = np.array([base, half, 0.0]), np.array([base, -half, 0.0])
    assert wheels.front_axle_oscillates
    return {
        both: (left, right, pin),
        f"left {name} to front-axle pin": (left, pin, right),
        f"right {name} to front-axle pin": (right, pin, left),
        "over the front axle": (*tyres, left),
    }


def lines(lift: Lift, states: tuple[Stood, ...] | None = None) -> dict[str, float]:
    """Load at which the machine goes over each line [kg], the worst of all its states."""
    lean = lean_of(lift)
    found: dict[str, float] = {}
    for name, (start, end, inside) in lines_of(lift).items():
        along = (end - start) / np.linalg.norm(end - start)
        sign = math.copysign(1.0, along @ np.cross(inside - start, [0.0, 0.0, -1.0]))
        for gravity in gravity_of(lift):
            pulls = _leaning(gravity, lean)
            for each in states or stood(lift):
                holds = sign * along @ np.cross(each.first - each.mass * start, gravity)
                worst = float(np.max(-sign * (np.cross(each.load - start, pulls) @ along)))
                load = 0.0 if holds <= 0 else holds / worst if worst > 0 else math.inf
                found[name] = min(found.get(name, math.inf), load)
    return found


def _leaning(gravity: Vector, lean: float) -> Vector:
    """Every pull of a kilogram of load that leans, all round and up to an angle [N/kg]."""
    if not lean:
        return gravity[np.newaxis]
    size = np.linalg.norm(gravity)
    one = np.cross(gravity, [1.0, 0.0, 0.0])
    one /= np.linalg.norm(one)
    two = np.cross(gravity / size, one)
    aside = np.outer(np.cos(DIRECTIONS), one) + np.outer(np.sin(DIRECTIONS), two)
    # Of a load far below its line a lesser lean may be the worse.
    return np.concatenate(
        [math.cos(part) * gravity + math.sin(part) * size * aside for part in lean * LEANS]
    )


def tipping(lift: Lift) -> float:
    return min(lines(lift).values())


def programme(lift: Lift) -> float:
    """The same by the linear programme of contact forces; level, or with a slope across."""
    found = []
    for each in stood(lift):
        (rear, other, pin), *_, tyres = lines_of(lift).values()
        contacts = [Contact(tuple(rear)), Contact(tuple(other))]
        contacts += [Contact(tuple(point), 1) for point in tyres[:2]]
        for gravity in gravity_of(lift):
            assert abs(gravity[0]) < 1e-9
            scene = Scene(
                masses=[(each.mass, tuple(each.first / each.mass))],
                load=tuple(each.load),
                gravity=tuple(gravity),
                contacts=contacts,
                pin=tuple(pin),
            )
            found.append(scene.greatest_load())
    return min(found)


def rams(lift: Lift) -> dict[str, float]:
    """Load at which each ram of the back end gives way [kg], by virtual work: F·dℓ + Σ m·g·dr = 0.

    The boom is turned with all it carries, the dipper with its own, the bucket by its curl; ram
    lengths and places are differentiated.
    """
    machine = lift.machine
    one = stood(lift)[0]
    foot, knuckle = one.arm.joints[0].pivot, one.arm.joints[1].pivot
    boom = math.atan2(float(knuckle.w - foot.w), float(knuckle.u - foot.u))
    _, cosine, sine = one.arm.carrier
    hand = back_hand(machine, lift.tool, lift.point, lift.curl)
    dipper = math.atan2(float(sine), float(cosine)) + hand.dipper.angle
    moved = {
        "boom ram": (boom + STEP * STEPS, dipper + STEP * STEPS, lift.curl),
        "dipper ram": (boom, dipper + STEP * STEPS, lift.curl),
        "bucket ram": (boom, dipper, lift.curl + STEP * STEPS),
    }
    (gravity,) = gravity_of(lift)
    outward = -gravity[0] * math.cos(lift.slew) + gravity[1] * math.sin(lift.slew)
    found = {}
    for joint in one.arm.joints:
        a, b, c = moved[joint.name]
        arm = back_arm(
            machine,
            tool=lift.tool,
            point=lift.point,
            boom_angle=a,
            dipper_angle=b,
            curl=c,
            radius=lift.log.largest_diameter / 2,
        )
        then = next(each for each in arm.joints if each.name == joint.name)
        (u0, w0), (u1, w1) = then.base_pin, then.rod_pin
        length = _rate(np.hypot(u1 - u0, w1 - w0))
        links = sum(
            each.mass * (outward * _rate(each.at.u) + gravity[2] * _rate(each.at.w))
            for each in then.lumps
        )
        loads = [
            outward * _rate(place.u) + gravity[2] * _rate(place.w) for place in arm.load_places
        ]
        found[joint.name] = min(_given(joint.ram, lift, links, load, length) for load in loads)
    return found


def _rate(values: object) -> float:
    return float(np.broadcast_to(np.asarray(values), STEPS.shape) @ WEIGHTS / STEP)


def _given(ram: object, lift: Lift, links: float, load: float, length: float) -> float:
    """The greatest load for which the ram's force stays between full pull and full push [kg]."""
    hydraulics = lift.machine.hydraulics
    effort = float(hydraulics.working_pressure) * float(hydraulics.efficiency) * ram.count
    area = math.pi / 4 * float(ram.bore) ** 2
    push, pull = effort * area, effort * (area - math.pi / 4 * float(ram.rod) ** 2)
    assert ram.holding_pressure is None
    still, more = -links / length, -load / length
    if not -pull <= still <= push:
        return 0.0
    if more == 0:
        return math.inf
    return (push - still) / more if more > 0 else (-pull - still) / more


def pads(each: Stood, load: float) -> dict[str, float]:
    """Force on each pad with a load on the hook [N], level: two pads and the pin of the axle."""
    (gravity,) = gravity_of(each.lift)
    assert abs(gravity[0]) + abs(gravity[1]) < 1e-9
    (left, right, pin), *_ = lines_of(each.lift).values()
    whole, places = each.first + load * each.load, np.array([left, right, pin])
    matrix = np.array([np.ones(3), places[:, 0], places[:, 1]])
    up = np.linalg.solve(matrix, G * np.array([each.mass + load, whole[0], whole[1]]))
    return {"left stabiliser": float(up[0]), "right stabiliser": float(up[1])}


def pad_force(lift: Lift) -> float:
    """Force on the worse pad under the planned log and its jolt [N], in the worst of all states."""
    return max(max(pads(each, 1.10 * needed(lift)).values()) for each in stood(lift))


def needed(lift: Lift) -> float:
    """Rigging, and the log to plan on [kg]."""
    return lift.sling.mass + lift.log.mass_planning


def pad_load(lift: Lift, pressure: float) -> dict[str, float]:
    """Load at which a pad reaches its pressure [kg]; forces go in a straight line with load."""
    assert lift.mat is not None
    found: dict[str, float] = {}
    for each in stood(lift):
        none, some = pads(each, 0.0), pads(each, 1000.0)
        for name, empty in none.items():
            rises = (some[name] - empty) / 1000.0
            room = pressure * lift.mat**2 - empty
            fails = max(room / rises, 0.0) if rises > 0 else math.inf if room >= 0 else 0.0
            key = f"ground under the {name}"
            found[key] = min(found.get(key, math.inf), fails)
    return found


def front_axle(lift: Lift) -> float:
    """Load at which the front axle reaches its rating [kg]: moments about the line of the pads, or
    of the rear tyres where no pad is down, over the lever to the front axle; lump by lump."""
    (start, end, pin), *_ = lines_of(lift).values()
    lever, rating = float(pin[0] - start[0]), lift.machine.wheels.front_axle_rating
    assert rating is not None
    along, found = (end - start) / np.linalg.norm(end - start), []
    for gravity in gravity_of(lift):
        for each in stood(lift):
            # Left to right, along points to the right: what lies ahead turns the other way.
            alone = -along @ np.cross(each.first - each.mass * start, gravity) / lever
            more = -along @ np.cross(each.load - start, gravity) / lever
            room = G * float(rating) - alone
            found.append(max(room / more, 0.0) if more > 0 else math.inf if room >= 0 else 0.0)
    return min(found)


def likely(lift: Lift) -> float:
    """Newton's volume times the density of the species' row; saturated where it is soaked [kg]."""
    measure = lift.measure
    wood = measure.species
    gravity = float(wood.basic_gravity.value)
    # Wood Handbook, chapter 4: dry mass over green volume, cell wall substance 1.54.
    water = 1 / gravity - 1 / 1.54 if measure.moisture == "soaked" else wood.moisture.value
    density = 1000 * gravity * (1 + water)
    if wood.bark is not None:
        bark = 1000 * wood.bark.gravity * (1 + wood.bark.moisture)
        share = wood.bark.share
        density = max(density, (density + share * bark) / (1 + share))
    butt, middle, top = (math.pi / 4 * each**2 for each in _diameters(lift))
    return measure.length / 6 * (butt + 4 * middle + top) * density


def _diameters(lift: Lift) -> tuple[float, float, float]:
    butt, middle, top = lift.measure.butt, lift.measure.middle, lift.measure.top
    assert butt
    assert middle
    assert top
    return float(butt), float(middle), float(top)


def balance(lift: Lift) -> float:
    """Balance point from the butt [m]: a section that runs as a parabola through the three taped
    ones, summed over ten thousand slices."""
    butt, middle, top = (each**2 for each in _diameters(lift))
    at = (np.arange(10_000) + 0.5) / 10_000
    area = butt * (1 - at) * (1 - 2 * at) + 4 * middle * at * (1 - at) + top * at * (2 * at - 1)
    return float(lift.measure.length * (area @ at) / area.sum())


CHAIN = {6: 1120.0, 7: 1500.0, 8: 2000.0, 10: 3150.0, 13: 5300.0, 16: 8000.0}
"""Grade 8 chain, straight [kg]; EN 818-4, from memory."""


def leg(lift: Lift) -> float:
    """What one choked leg of a chain may carry [kg]; see ``chain``."""
    size = round(1000 * float(lift.gear.size or 0.0))
    return 0.8 * min(32.0 * size**2, CHAIN[size])


def chain(lift: Lift) -> float:
    """What a chain of grade 80 may carry as it is slung [kg].

    32·d² of the Queensland doggers' guide or the row of EN 818-4, the less; a choke leaves 0.8
    (ASME B30.9); of two legs each pulls with what of it points up, the worse with its share, and
    never more than they are marked for.
    """
    if lift.sling.way == "choked":
        return leg(lift)
    free = lift.sling.length - math.pi * lift.log.largest_diameter
    half = math.asin(lift.sling.spread / 2 / free)
    share = 0.5 + 0.02 * lift.measure.length / lift.sling.spread
    return min(leg(lift) * math.cos(half) / share, uniform(lift, half))


def uniform(lift: Lift, half: float) -> float:
    """What two choked legs are marked for at half the angle between them [kg].

    1.4 straight legs up to a right angle, one beyond (EN 818-4, from memory; 4.25 t of 10 mm).
    """
    if half > math.radians(45) + 1e-9:
        return leg(lift)
    return 0.8 * 4250.0 if lift.gear.size == 0.010 else 1.4 * leg(lift)


def bearing(name: str, side: float) -> float:
    """Pressure allowed under a square pad on level ground [Pa]: where the ground gives way, by two.

    Clay: Prandtl's 2 + π times the shear strength, a fifth more for a square. Gravel: wedges of
    Rankine and a log spiral between them give Nq, and 2 (Nq - 1) tan φ its weight number; a square
    0.7 of a strip. Careful ends: clay of BS 5930 from 40 (firm) and 75 kPa (stiff), gravel at
    38 degrees with water at its surface, 10 kN/m³.
    """
    if name in CLAYS:
        return 1.2 * (2 + math.pi) * CLAYS[name] / 2
    assert name == "dense gravel"
    turn = math.radians(38)
    spiral = math.tan(math.pi / 4 + turn / 2) ** 2 * math.exp(math.pi * math.tan(turn))
    return 0.7 * 10e3 * side / 2 * 2 * (spiral - 1) * math.tan(turn) / 2


CLAYS = {"stiff clay": 75e3, "firm clay": 40e3}
"""Undrained shear strength, careful end [Pa]."""


def stops(lift: Lift, pressure: float | None = None) -> dict[str, float]:
    """Allowed load of everything that can stop a back lift on stabilisers [kg], by name.

    Three quarters of tipping and 87 % of the rams (ISO 10567); what is rated, in full; ground and
    axles less a tenth for the jolt of a land lift (Noble Denton), which nothing else holds.
    """
    over = lines(lift)
    name = min(over, key=lambda each: over[each])
    found = {f"tipping {name}": 0.75 * over[name]}
    found |= {each: 0.87 * load for each, load in rams(lift).items()}
    found[f"lift point ({lift.point.name})"] = float(lift.point.wll)
    found["axle rating (front axle and tyres)"] = front_axle(lift) / 1.10
    if lift.gear.size:
        found["sling (chain grade 80, choked)"] = chain(lift)
    if pressure is not None:
        found |= {name: load / 1.10 for name, load in pad_load(lift, pressure).items()}
    return found
