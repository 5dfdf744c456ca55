"""The arithmetic of ``sweep`` for the back end, fused by hand into one loop for numba.

It is what the sweep is measured against: single-threaded, compiled with the strict rules of IEEE
arithmetic, one pass over the poses, no array between. What depends on the place alone stands
outside the loop over slews, and a place that the arm cannot take is left at once. It takes its
figures from the machine and shares no array code with the sweep.
"""
# ruff: noqa: C901, PLR0912, PLR0915, PLR0917
# One long function on purpose, with positional arguments: so it is compiled into one loop.

from __future__ import annotations

import math
from typing import Any, NamedTuple

import numba
import numpy as np

from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.linear_criteria import linear_criteria
from liftcalc.evaluation.rams import pressure_of
from liftcalc.evaluation.rated_chart import plate_limits
from liftcalc.factors import RAM_SHARE, TIPPING_SHARE
from liftcalc.machines.arm import Arm
from liftcalc.machines.assembly import assemble, fixed_part, pressed_front, total_mass, travel_front
from liftcalc.machines.back_arm import reach_back
from liftcalc.machines.joint_limits import SLACK
from liftcalc.physics import formulas
from liftcalc.physics.tipping import Line
from liftcalc.physics.wrench import PlaceForm, moment_about

compiled = numba.njit(error_model="numpy", fastmath=False)


class Ram(NamedTuple):
    """A ram that turns a link: pins, stroke and forces; SI."""

    base_u: float
    base_w: float
    rod_u: float
    rod_w: float
    closed: float
    open: float
    push: float
    pull: float


class Bar(NamedTuple):
    """The four-bar of an attachment on pins, and its ram at the length that the curl gives."""

    ram_length: float
    base_u: float
    base_w: float
    rocker_u: float
    rocker_w: float
    ram_radius: float
    pin_radius: float
    pin_turn: float
    link_length: float
    pivot_u: float
    link_u: float
    link_w: float
    ram_side: float
    link_side: float


class Mass(NamedTuple):
    """A mass at a point of its link."""

    mass: float
    u: float
    w: float


class Sizes(NamedTuple):
    """All figures of a lift that do not vary over a map; SI."""

    foot_u: float
    foot_w: float
    boom_length: float
    dipper_length: float
    on_pins: bool
    boom_ram: Ram
    dipper_ram: Ram
    bucket_ram: Ram
    bar: Bar
    boom: Mass
    dipper: Mass
    tool: Mass
    point_u: float
    point_w: float
    gravity_x: float
    gravity_y: float
    gravity_z: float
    ram_share: float
    wll: float
    plate: float
    slew_limit: float
    sideshift_passed: bool
    slack: float


@compiled
def _crossing(pu, pw, r1, qu, qw, r2, side):
    du, dw = qu - pu, qw - pw
    between = math.sqrt(du * du + dw * dw)
    along = (between * between + r1 * r1 - r2 * r2) / (2.0 * between)
    off = math.sqrt(r1 * r1 - along * along)
    return pu + (along * du - off * side * dw) / between, pw + (along * dw + off * side * du) / (
        between
    )


@compiled
def _ram(pivot_u, pivot_w, base_u, base_w, rod_u, rod_w):
    """Length and moment arm."""
    du, dw = rod_u - base_u, rod_w - base_w
    length = math.sqrt(du * du + dw * dw)
    return length, (dw * (rod_u - pivot_u) - du * (rod_w - pivot_w)) / length


@compiled
def _turned(ram, joint_u, joint_w):
    """What the length of a ram on a link owes to the pins alone; see ``ram_on_link``."""
    u, w = ram.base_u - joint_u, ram.base_w - joint_w
    return (
        u * u + w * w + ram.rod_u * ram.rod_u + ram.rod_w * ram.rod_w,
        2.0 * (u * ram.rod_u + w * ram.rod_w),
        2.0 * (w * ram.rod_u - u * ram.rod_w),
    )


@compiled
def _four_bar(bar):
    """Turn of the attachment on the dipper, and moment arm of its ram about its pin."""
    ram_u, ram_w = _crossing(
        bar.rocker_u,
        bar.rocker_w,
        bar.ram_radius,
        bar.base_u,
        bar.base_w,
        bar.ram_length,
        bar.ram_side,
    )
    turn = math.atan2(ram_w - bar.rocker_w, ram_u - bar.rocker_u) + bar.pin_turn
    pin_u = bar.rocker_u + bar.pin_radius * math.cos(turn)
    pin_w = bar.rocker_w + bar.pin_radius * math.sin(turn)
    link_u, link_w = _crossing(
        pin_u,
        pin_w,
        bar.link_length,
        bar.pivot_u,
        0.0,
        math.hypot(bar.link_u, bar.link_w),
        bar.link_side,
    )
    _, arm = _ram(bar.rocker_u, bar.rocker_w, bar.base_u, bar.base_w, ram_u, ram_w)
    lu, lw, au, aw = link_u - pin_u, link_w - pin_w, link_u - bar.pivot_u, link_w
    ratio = (au * lw - aw * lu) / ((pin_u - bar.rocker_u) * lw - (pin_w - bar.rocker_w) * lu)
    return math.atan2(aw, au) - math.atan2(bar.link_w, bar.link_u), arm * ratio


@compiled
def _stall(ram, arm, links, unit):
    """Load that a ram can carry: 0 where it cannot hold the links."""
    up = max(ram.push * arm, -ram.pull * arm) + links
    down = max(-ram.push * arm, ram.pull * arm) - links
    if up <= 0.0 or down <= 0.0:
        return 0.0
    if unit == 0.0:
        return math.inf
    return up / -unit if unit < 0.0 else down / unit


@compiled
def _outside(length, ram, slack):
    return not (ram.closed - slack <= length <= ram.open + slack)


@compiled
def fused(sizes, lines, chart_out, chart_load, reach, height, slew, allowed, governs, stopped):
    """Fill ``allowed``, ``governs`` and ``stopped``, each of places × slews.

    ``lines`` has a row for each tipping line: moment of one kilogram per metre outward at slew 0
    and 90°, per metre up and fixed, the moment of all that does not move, and the share of its load
    that may be used.
    """
    s, count, slews = sizes, lines.shape[0], slew.size
    cosine, sine = np.cos(slew), np.sin(slew)
    level = s.gravity_x == 0.0 and s.gravity_y == 0.0
    passed = np.empty(slews, np.int16)
    for j in range(slews):
        if not (abs(slew[j]) <= s.slew_limit + s.slack):
            passed[j] = 0
        else:
            passed[j] = 1 if s.sideshift_passed else -1
    out = np.empty((count, slews))
    for n in range(count):
        for j in range(slews):
            out[n, j] = lines[n, 0] * cosine[j] + lines[n, 1] * sine[j]
    holds, tips = np.empty(count), np.empty(count)
    turn, tilt_arm = 0.0, 0.0
    if s.on_pins:
        turn, tilt_arm = _four_bar(s.bar)
    rolled_c, rolled_s = math.cos(turn), math.sin(turn)
    point_u = s.dipper_length + s.point_u * rolled_c - s.point_w * rolled_s
    point_w = s.point_u * rolled_s + s.point_w * rolled_c
    tool_u = s.dipper_length + s.tool.u * rolled_c - s.tool.w * rolled_s
    tool_w = s.tool.u * rolled_s + s.tool.w * rolled_c
    first, second = s.boom_length, math.hypot(point_u, point_w)
    joints = 3 if s.on_pins else 2
    bucket_out = s.on_pins and _outside(s.bar.ram_length, s.bucket_ram, s.slack)
    mass = s.boom.mass + s.dipper.mass + s.tool.mass
    b, d = s.boom_ram, s.dipper_ram
    boom_k, boom_a, boom_b = _turned(b, s.foot_u, s.foot_w)
    dipper_k, dipper_a, dipper_b = _turned(d, first, 0.0)
    for i in range(reach.size):
        u, w = reach[i] - s.foot_u, height[i] - s.foot_w
        square = u * u + w * w
        span = math.sqrt(square)
        # From the place to the turns of boom and dipper.
        elbow_c = (square - first * first - second * second) / (2.0 * first * second)
        elbow_s = -math.sqrt(1.0 - elbow_c * elbow_c)
        along, across = first + second * elbow_c, second * elbow_s
        boom_c, boom_s = (u * along + w * across) / square, (w * along - u * across) / square
        reach_c, reach_s = (u - first * boom_c) / second, (w - first * boom_s) / second
        dipper_c = (reach_c * point_u + reach_s * point_w) / second
        dipper_s = (reach_s * point_u - reach_c * point_w) / second
        # Rams.
        boom_length = math.sqrt(boom_k - boom_a * boom_c - boom_b * boom_s)
        turn_c = boom_c * dipper_c + boom_s * dipper_s
        turn_s = boom_c * dipper_s - boom_s * dipper_c
        dipper_length = math.sqrt(dipper_k - dipper_a * turn_c - dipper_b * turn_s)
        stop = -1
        if not (abs(first - second) - s.slack <= span <= first + second + s.slack):
            stop = 2
        elif bucket_out:
            stop = 3
        elif _outside(boom_length, b, s.slack):
            stop = 1 + joints
        elif _outside(dipper_length, d, s.slack):
            stop = 2 + joints
        if stop >= 0:
            for j in range(slews):
                allowed[i, j], governs[i, j] = math.nan, -1
                stopped[i, j] = passed[j] if passed[j] >= 0 else stop
            continue
        boom_arm = 0.5 * (boom_a * boom_s - boom_b * boom_c) / boom_length
        dipper_arm = 0.5 * (dipper_a * turn_s - dipper_b * turn_c) / dipper_length
        elbow_u, elbow_w = s.foot_u + first * boom_c, s.foot_w + first * boom_s
        # Masses.
        nose_u, nose_w = (
            elbow_u + s.dipper_length * dipper_c,
            elbow_w + s.dipper_length * dipper_s,
        )
        at_u, at_w = (
            elbow_u + point_u * dipper_c - point_w * dipper_s,
            elbow_w + point_u * dipper_s + point_w * dipper_c,
        )
        hung_u = s.tool.mass * (elbow_u + tool_u * dipper_c - tool_w * dipper_s)
        hung_w = s.tool.mass * (elbow_w + tool_u * dipper_s + tool_w * dipper_c)
        outer_u = hung_u + s.dipper.mass * (elbow_u + s.dipper.u * dipper_c - s.dipper.w * dipper_s)
        outer_w = hung_w + s.dipper.mass * (elbow_w + s.dipper.u * dipper_s + s.dipper.w * dipper_c)
        all_u = outer_u + s.boom.mass * (s.foot_u + s.boom.u * boom_c - s.boom.w * boom_s)
        all_w = outer_w + s.boom.mass * (s.foot_w + s.boom.u * boom_s + s.boom.w * boom_c)
        for n in range(count):
            holds[n] = lines[n, 2] * all_w + lines[n, 3] * mass + lines[n, 4]
            tips[n] = lines[n, 2] * at_w + lines[n, 3]
        # First moments of the links about their joints: outward, up.
        outer = s.dipper.mass + s.tool.mass
        boom_mu, boom_mw = all_u - mass * s.foot_u, all_w - mass * s.foot_w
        dipper_mu, dipper_mw = outer_u - outer * elbow_u, outer_w - outer * elbow_w
        tool_mu, tool_mw = hung_u - s.tool.mass * nose_u, hung_w - s.tool.mass * nose_w
        place_least, place_which = s.wll, count + joints
        plate = s.plate
        if chart_out.size:
            row = np.searchsorted(chart_out, reach[i] - 1e-9)
            plate = min(plate, chart_load[row] if row < chart_out.size else 0.0)
        if plate < place_least:
            place_least, place_which = plate, count + joints + 1
        least, which = place_least, place_which
        for j in range(slews):
            if passed[j] >= 0:
                allowed[i, j], governs[i, j], stopped[i, j] = math.nan, -1, passed[j]
                continue
            if j == 0 or not level:
                gu = -s.gravity_x * cosine[j] + s.gravity_y * sine[j]
                gw = s.gravity_z
                least, which = place_least, place_which
                if s.on_pins:
                    load = s.ram_share * _stall(
                        s.bucket_ram,
                        tilt_arm,
                        tool_mu * gw - tool_mw * gu,
                        (at_u - nose_u) * gw - (at_w - nose_w) * gu,
                    )
                    if load <= least:
                        least, which = load, count + 2
                load = s.ram_share * _stall(
                    d,
                    dipper_arm,
                    dipper_mu * gw - dipper_mw * gu,
                    (at_u - elbow_u) * gw - (at_w - elbow_w) * gu,
                )
                if load <= least:
                    least, which = load, count + 1
                load = s.ram_share * _stall(
                    b,
                    boom_arm,
                    boom_mu * gw - boom_mw * gu,
                    (at_u - s.foot_u) * gw - (at_w - s.foot_w) * gu,
                )
                if load <= least:
                    least, which = load, count
            best, criterion = least, which
            for n in range(count - 1, -1, -1):
                holding = out[n, j] * all_u + holds[n]
                moment = out[n, j] * at_u + tips[n]
                if holding <= 0.0:
                    load = 0.0
                elif moment >= 0.0:
                    continue
                else:
                    load = lines[n, 5] * (holding / -moment)
                if load <= best:
                    best, criterion = load, n
            allowed[i, j], governs[i, j], stopped[i, j] = best, criterion, -1


class Fused:
    """A lift made ready for the fused loop."""

    def __init__(self, lift: Lift) -> None:
        if lift.end != "back" or lift.swings or lift.side_room:
            raise ValueError("the fused loop knows the back end with a load that hangs still")
        self.sizes, self.lines = sizes(lift), lines(lift)
        charts = [each for each in plate_limits(lift) if each.kind == "chart"]
        self.chart = np.empty(0), np.empty(0)
        if charts:
            self.chart = charts[0].outs, charts[0].loads[:-1]

    def __call__(self, *, reach: Any, height: Any, slew: Any) -> tuple[Any, Any, Any]:
        """Allowed load, what governs, what stops; places × slews."""
        shape = reach.size, slew.size
        found = np.empty(shape), np.empty(shape, np.int16), np.empty(shape, np.int16)
        fused(self.sizes, self.lines, *self.chart, reach, height, slew, *found)
        return found


def _ram_of(lift: Lift, ram: Any, *, lifts: bool) -> Ram:
    hydraulics = lift.machine.hydraulics
    force = formulas.ram_force(
        bore=ram.bore,
        rod=ram.rod,
        count=ram.count,
        efficiency=hydraulics.efficiency,
        pressure=pressure_of(ram, hydraulics, gauge=lift.gauge, lifts=lifts),
    )
    rod = getattr(ram, "rod_pin", (0.0, 0.0))
    return Ram(*map(float, (*ram.base, *rod, ram.closed, ram.open, force.push, force.pull)))


def _bar_of(lift: Lift) -> Bar:
    back, ram = lift.machine.back, lift.machine.back.bucket_ram
    length = ram.closed + lift.curl * (ram.open - ram.closed)
    return Bar(
        *map(
            float,
            (
                length,
                *ram.base,
                *ram.rocker_pivot,
                ram.rocker_ram_radius,
                ram.rocker_pin_radius,
                ram.rocker_turn,
                ram.link_length,
                back.dipper.length,
                *ram.link_pin,
                1.0 if ram.lengthens == "up" else -1.0,
                1.0 if ram.link_side == "left" else -1.0,
            ),
        )
    )


def sizes(lift: Lift) -> Sizes:
    """The figures of a lift, straight from the machine."""
    back, tool = lift.machine.back, lift.tool
    hangs = tool.mount == "hangs"
    caps = [float(each.loads[0]) for each in plate_limits(lift) if each.kind != "chart"]
    gravity = lift.site.gravity
    return Sizes(
        *map(float, back.foot_pin),
        float(back.boom.length),
        float(back.dipper.length),
        tool.mount == "pins",
        _ram_of(lift, back.boom_ram, lifts=True),
        _ram_of(lift, back.dipper_ram, lifts=False),
        _ram_of(lift, back.bucket_ram, lifts=False),
        _bar_of(lift),
        *(Mass(float(x.mass), *map(float, x.cog)) for x in (back.boom, back.dipper)),
        Mass(float(tool.mass), *((0.0, 0.0) if hangs else map(float, tool.cog))),
        *((0.0, 0.0) if hangs else map(float, lift.point.at)),
        *map(float, gravity),
        RAM_SHARE.value,
        float(lift.point.wll),
        min(caps, default=math.inf),
        float(back.slew_limit),
        abs(lift.sideshift) > max(float(back.sideshift_limit), 0.0) + SLACK,
        SLACK,
    )


def _moment(line: Line, *, gravity: tuple[float, float, float]) -> PlaceForm:
    """A line's moment of one kilogram as a linear form of its place, found apart from the forms."""

    def at(x: float, y: float, z: float) -> float:
        return float(moment_about(line).unit(x=x, y=y, z=z, gravity=gravity))

    fixed = at(0.0, 0.0, 0.0)
    return PlaceForm(
        at(1.0, 0.0, 0.0) - fixed, at(0.0, 1.0, 0.0) - fixed, at(0.0, 0.0, 1.0) - fixed, fixed
    )


def lines(lift: Lift) -> Any:
    """Tipping lines and grip as linear forms in the plane of the end; see ``fused``."""
    machine = lift.machine
    pressed = lift.stance == "stabilisers and bucket"
    front = (pressed_front if pressed else travel_front)(machine, lift.other_tool)
    arm: Arm = reach_back(
        machine,
        tool=lift.tool,
        point=lift.point,
        reach=lift.reach,
        height=lift.height,
        curl=lift.curl,
    )
    moving = {lump.name for lump in arm.lumps}
    rows = []
    standings = [
        assemble(
            machine,
            front=front,
            back=arm,
            slew=0.0,
            sideshift=lift.sideshift,
            stance=lift.stance,
            operator=lift.operator,
            full=full,
        )
        for full in (True, False)
    ]
    gravity, share = lift.site.gravity, TIPPING_SHARE[lift.duty].value
    forms = [(_moment(line, gravity=gravity), share) for line in standings[0].lines]
    fixed_ones = fixed_part(
        machine,
        end=lift.end,
        other_tool=lift.other_tool,
        stance=lift.stance,
        sideshift=lift.sideshift,
        operator=lift.operator,
    )
    for criterion in linear_criteria(lift, fixed_ones, gravity=gravity):
        if criterion.kind == "tipping":
            continue
        if criterion.kind != "grip":
            raise ValueError(f"the fused loop does not know {criterion.name}")
        ((grip, _),) = criterion.ways[0]
        forms.append((grip.of_place(gravity), criterion.factor.value))
    for form, used in forms:
        still = []
        for standing in standings:
            rest = total_mass(tuple(x for x in standing.lumps if x.name not in moving))
            moment = form.x * rest.x + form.y * rest.y + form.z * rest.z + form.fixed
            still.append(rest.mass * moment)
        fixed = form.x * machine.back.slew_axis_x + form.y * lift.sideshift + form.fixed
        rows.append((-form.x, form.y, form.z, fixed, min(still), used))
    return np.array(rows, dtype=float)
