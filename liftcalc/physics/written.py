"""Closed forms of the model, written from ``liftcalc.derivations``; do not edit.

Every function takes SI scalars or arrays that broadcast, by keyword, and returns a named tuple
of all its steps, the result last. ``make generated`` writes this file anew.
"""
# ruff: noqa: E501

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np

Real = Any  # a float or an array of floats; numpy broadcasts


class NewtonVolume(NamedTuple):
    """Steps of `newton_volume`."""

    butt_area: Real
    middle_area: Real
    top_area: Real
    volume: Real


def newton_volume(*, butt_diameter: Real, middle_diameter: Real, top_diameter: Real, log_length: Real) -> NewtonVolume:
    """Volume of a log from three diameters.

    Parameters
    ----------
    butt_diameter : diameter at the butt [m]
    middle_diameter : diameter at mid length [m]
    top_diameter : diameter at the top end [m]
    log_length : length of the log [m]

    Returns
    -------
    NewtonVolume
        butt_area : section at the butt [m²]
        middle_area : section at mid length [m²]
        top_area : section at the top end [m²]
        volume : volume of the log [m³]

    Notes
    -----
    Source: Newton's (prismoidal) rule, any text on forest measurement.
    Error: exact for cylinder, cone, paraboloid and neiloid; of either sign on an uneven stem.
    """
    # section at the butt, taken as a circle
    butt_area = (1/4)*np.pi*butt_diameter**2
    # section at mid length
    middle_area = (1/4)*np.pi*middle_diameter**2
    # section at the top end
    top_area = (1/4)*np.pi*top_diameter**2
    # Newton's rule: exact where the section varies as a cubic of the length or less
    volume = (1/6)*log_length*(butt_area + 4*middle_area + top_area)
    return NewtonVolume(butt_area, middle_area, top_area, volume)


class EffectiveGravity(NamedTuple):
    """Steps of `effective_gravity`."""

    gravity_x: Real
    gravity_y: Real
    gravity_z: Real


def effective_gravity(*, slope: Real, heading: Real, acceleration_x: Real, acceleration_y: Real, acceleration_z: Real) -> EffectiveGravity:
    """Effective gravity in the machine frame.

    Parameters
    ----------
    slope : slope of the ground [rad]
    heading : uphill direction in the machine frame: 0 nose uphill, +90° left side uphill [rad]
    acceleration_x : own acceleration, forward [m/s²]
    acceleration_y : own acceleration, left [m/s²]
    acceleration_z : own acceleration, up [m/s²]

    Returns
    -------
    EffectiveGravity
        gravity_x : effective gravity, forward [m/s²]
        gravity_y : effective gravity, left [m/s²]
        gravity_z : effective gravity, up [m/s²]

    Notes
    -----
    Source: d'Alembert's principle; standard gravity, CGPM 1901.
    Error: exact for a steady acceleration; a sudden one swings a hanging load twice as far.
    """
    # gravity along the machine, less its own acceleration
    gravity_x = -acceleration_x - 9.80665*np.sin(slope)*np.cos(heading)
    # gravity across the machine, less its own acceleration
    gravity_y = -acceleration_y - 9.80665*np.sin(heading)*np.sin(slope)
    # gravity square to the ground, less its own acceleration
    gravity_z = -acceleration_z - 9.80665*np.cos(slope)
    return EffectiveGravity(gravity_x, gravity_y, gravity_z)


class LineMoment(NamedTuple):
    """Steps of `line_moment`."""

    line_length: Real
    unit_moment: Real


def line_moment(*, point_x: Real, point_y: Real, point_z: Real, start_x: Real, start_y: Real, start_z: Real, end_x: Real, end_y: Real, end_z: Real, gravity_x: Real, gravity_y: Real, gravity_z: Real) -> LineMoment:
    """Moment of one kilogram about a tipping line.

    Parameters
    ----------
    point_x : point where a weight acts, forward [m]
    point_y : point where a weight acts, left [m]
    point_z : point where a weight acts, up [m]
    start_x : start of the tipping line, forward [m]
    start_y : start of the tipping line, left [m]
    start_z : start of the tipping line, up [m]
    end_x : end of the tipping line, forward [m]
    end_y : end of the tipping line, left [m]
    end_z : end of the tipping line, up [m]
    gravity_x : effective gravity, forward [m/s²]
    gravity_y : effective gravity, left [m/s²]
    gravity_z : effective gravity, up [m/s²]

    Returns
    -------
    LineMoment
        line_length : length of the tipping line [m]
        unit_moment : moment about the tipping line of one kilogram, positive when it holds down [N·m/kg]

    Notes
    -----
    Source: moment of a force about a line, any text on statics.
    Error: exact for a rigid machine on unyielding ground; measured tip angles are 1 to 4 %
    smaller (Majdan et al. 2021), so it overstates stability by that much.
    """
    # length of the line from its start to its end
    line_length = np.sqrt((end_x - start_x)**2 + (end_y - start_y)**2 + (end_z - start_z)**2)
    # (r − P) × g along the line; with the supports to its right it holds down when positive
    unit_moment = ((end_x - start_x)*(-gravity_y*(point_z - start_z) + gravity_z*(point_y - start_y)) + (end_y - start_y)*(gravity_x*(point_z - start_z) - gravity_z*(point_x - start_x)) + (end_z - start_z)*(-gravity_x*(point_y - start_y) + gravity_y*(point_x - start_x)))/line_length
    return LineMoment(line_length, unit_moment)


class TippingLoad(NamedTuple):
    """Steps of `tipping_load`."""

    tipping_load: Real


def tipping_load(*, holding_moment: Real, load_unit_moment: Real) -> TippingLoad:
    """Tipping load of one line.

    Parameters
    ----------
    holding_moment : moment of the machine about the tipping line, positive when it holds down [N·m]
    load_unit_moment : moment about the tipping line of one kilogram of load [N·m/kg]

    Returns
    -------
    TippingLoad
        tipping_load : load at which the machine just tips [kg]

    Notes
    -----
    Source: equilibrium of moments.
    Error: exact for a rigid machine; means something only where M₀ > 0 and k < 0, see
    `physics.tipping.load_at_tipping`.
    """
    # the load whose moment equals that of the machine: M₀ + m·k = 0
    tipping_load = -holding_moment/load_unit_moment
    return TippingLoad(tipping_load)


class TwoLink(NamedTuple):
    """Steps of `two_link`."""

    span: Real
    elbow_cosine: Real
    second_angle: Real
    first_angle: Real


def two_link(*, target_u: Real, target_w: Real, first_length: Real, second_length: Real) -> TwoLink:
    """Angles of a two-link arm that reaches a point, knuckle up.

    Parameters
    ----------
    target_u : target, outward of the foot pin [m]
    target_w : target, above the foot pin [m]
    first_length : length of the first link [m]
    second_length : length of the second link [m]

    Returns
    -------
    TwoLink
        span : distance from the foot pin to the target [m]
        elbow_cosine : cosine between the links [-]
        second_angle : turn from first to second link [rad]
        first_angle : first link above horizontal [rad]

    Notes
    -----
    Source: law of cosines.
    Error: exact for rigid links and pins without play.
    """
    # distance to the target
    span = np.sqrt(target_u**2 + target_w**2)
    # law of cosines; outside −1…1 the arm cannot reach
    elbow_cosine = (1/2)*(-first_length**2 - second_length**2 + span**2)/(first_length*second_length)
    # the second link turns down from the first
    second_angle = -np.arccos(elbow_cosine)
    # direction of the target less the part the second link turns it by
    first_angle = np.arctan2(target_w, target_u) - np.arctan2(second_length*np.sin(second_angle), first_length + second_length*np.cos(second_angle))
    return TwoLink(span, elbow_cosine, second_angle, first_angle)


class RamForce(NamedTuple):
    """Steps of `ram_force`."""

    bore_area: Real
    ring_area: Real
    push: Real
    pull: Real


def ram_force(*, bore: Real, rod: Real, count: Real, pressure: Real, efficiency: Real) -> RamForce:
    """Push and pull of a ram.

    Parameters
    ----------
    bore : bore of the ram [m]
    rod : diameter of the rod [m]
    count : number of equal rams side by side [-]
    pressure : pressure at the ram [Pa]
    efficiency : share of the pressure that lifts [-]

    Returns
    -------
    RamForce
        bore_area : full area of the piston [m²]
        ring_area : piston less rod [m²]
        push : greatest push of the rams [N]
        pull : greatest pull of the rams [N]

    Notes
    -----
    Source: Esposito, Fluid Power with Applications, chapter 6.
    Error: back pressure is in the efficiency; a full relief pressure that the pump no longer
    gives overstates capacity.
    """
    # area that the oil pushes on
    bore_area = (1/4)*np.pi*bore**2
    # area that the oil pulls on: the rod takes its share away
    ring_area = bore_area - 1/4*np.pi*rod**2
    # push = number · pressure · efficiency · area
    push = bore_area*count*efficiency*pressure
    # pull = number · pressure · efficiency · ring area
    pull = count*efficiency*pressure*ring_area
    return RamForce(bore_area, ring_area, push, pull)


class RamGeometry(NamedTuple):
    """Steps of `ram_geometry`."""

    ram_length: Real
    moment_arm: Real


def ram_geometry(*, pivot_u: Real, pivot_w: Real, base_pin_u: Real, base_pin_w: Real, rod_pin_u: Real, rod_pin_w: Real) -> RamGeometry:
    """Length and moment arm of a ram.

    Parameters
    ----------
    pivot_u : joint, outward [m]
    pivot_w : joint, up [m]
    base_pin_u : pin of the ram on its base, outward [m]
    base_pin_w : pin of the ram on its base, up [m]
    rod_pin_u : pin of the rod, outward [m]
    rod_pin_w : pin of the rod, up [m]

    Returns
    -------
    RamGeometry
        ram_length : ram from pin to pin [m]
        moment_arm : moment arm of the ram, dℓ/dθ, positive when it lengthens as the link turns up [m]

    Notes
    -----
    Source: virtual work: the moment of a force F along the ram is F·dℓ/dθ.
    Error: exact for rigid links and pins without play.
    """
    # from pin to pin
    ram_length = np.sqrt((-base_pin_u + rod_pin_u)**2 + (-base_pin_w + rod_pin_w)**2)
    # square distance from the joint to the line of the ram, signed: dℓ/dθ
    moment_arm = (-(-base_pin_u + rod_pin_u)*(-pivot_w + rod_pin_w) + (-base_pin_w + rod_pin_w)*(-pivot_u + rod_pin_u))/ram_length
    return RamGeometry(ram_length, moment_arm)


class CircleCrossing(NamedTuple):
    """Steps of `circle_crossing`."""

    between: Real
    along: Real
    off: Real
    crossing_u: Real
    crossing_w: Real


def circle_crossing(*, first_u: Real, first_w: Real, first_radius: Real, second_u: Real, second_w: Real, second_radius: Real, side: Real) -> CircleCrossing:
    """Where two links of known length meet.

    Parameters
    ----------
    first_u : centre of the first circle, outward [m]
    first_w : centre of the first circle, up [m]
    first_radius : radius of the first circle [m]
    second_u : centre of the second circle, outward [m]
    second_w : centre of the second circle, up [m]
    second_radius : radius of the second circle [m]
    side : +1 for the crossing to the left of the line between the centres, −1 right of it [-]

    Returns
    -------
    CircleCrossing
        between : distance between the centres [m]
        along : first centre to the common chord [m]
        off : half the common chord [m]
        crossing_u : crossing of circles, outward [m]
        crossing_w : crossing of circles, up [m]

    Notes
    -----
    Source: plane geometry.
    Error: exact for rigid links and pins without play.
    """
    # distance between the two pins that are known
    between = np.sqrt((-first_u + second_u)**2 + (-first_w + second_w)**2)
    # law of cosines along the line between them
    along = (1/2)*(between**2 + first_radius**2 - second_radius**2)/between
    # square to it; no real value when the linkage cannot close
    off = np.sqrt(-along**2 + first_radius**2)
    # from the first pin, along and square to the line
    crossing_u = first_u + (along*(-first_u + second_u) - off*side*(-first_w + second_w))/between
    # the same, upward
    crossing_w = first_w + (along*(-first_w + second_w) + off*side*(-first_u + second_u))/between
    return CircleCrossing(between, along, off, crossing_u, crossing_w)


class FourBarRatio(NamedTuple):
    """Steps of `four_bar_ratio`."""

    velocity_ratio: Real


def four_bar_ratio(*, pivot_u: Real, pivot_w: Real, crank_pivot_u: Real, crank_pivot_w: Real, crank_pin_u: Real, crank_pin_w: Real, link_pin_u: Real, link_pin_w: Real) -> FourBarRatio:
    """Velocity ratio of the attachment's four-bar.

    Parameters
    ----------
    pivot_u : joint, outward [m]
    pivot_w : joint, up [m]
    crank_pivot_u : pivot of the rocker, outward [m]
    crank_pivot_w : pivot of the rocker, up [m]
    crank_pin_u : pin of the rocker and the link, outward [m]
    crank_pin_w : pin of the rocker and the link, up [m]
    link_pin_u : pin of the link on the attachment, outward [m]
    link_pin_w : pin of the link on the attachment, up [m]

    Returns
    -------
    FourBarRatio
        velocity_ratio : turn of the rocker for one turn of the attachment [-]

    Notes
    -----
    Source: velocity along a rigid link, any text on mechanisms.
    Error: exact for rigid links and pins without play.
    """
    # both ends of the link move equally fast along it
    velocity_ratio = (-(-crank_pin_u + link_pin_u)*(link_pin_w - pivot_w) + (-crank_pin_w + link_pin_w)*(link_pin_u - pivot_u))/(-(-crank_pin_u + link_pin_u)*(crank_pin_w - crank_pivot_w) + (crank_pin_u - crank_pivot_u)*(-crank_pin_w + link_pin_w))
    return FourBarRatio(velocity_ratio)


class JointLoad(NamedTuple):
    """Steps of `joint_load`."""

    upward_moment: Real
    downward_moment: Real
    upward_left: Real
    downward_left: Real
    joint_load: Real


def joint_load(*, push: Real, pull: Real, moment_arm: Real, links_moment: Real, joint_unit_moment: Real) -> JointLoad:
    """Load that a joint's ram can carry.

    Parameters
    ----------
    push : greatest push of the rams [N]
    pull : greatest pull of the rams [N]
    moment_arm : moment arm of the ram, dℓ/dθ, positive when it lengthens as the link turns up [m]
    links_moment : moment of the links' own weight about the joint, positive turning up [N·m]
    joint_unit_moment : moment about the joint of one kilogram of load, positive turning up [N·m/kg]

    Returns
    -------
    JointLoad
        upward_moment : greatest moment turning up [N·m]
        downward_moment : greatest moment turning down [N·m]
        upward_left : upward moment left for a load [N·m]
        downward_left : downward moment left for a load [N·m]
        joint_load : load that the joint can carry [kg]

    Notes
    -----
    Source: equilibrium of moments about the joint.
    Error: pin friction is not credited; means something only where both moments left are above
    zero, see `physics.joints.load_at_stall`.
    """
    # force times moment arm, pushing or pulling, whichever turns the link up
    upward_moment = np.maximum(moment_arm*push, -moment_arm*pull)
    # the same, turning the link down
    downward_moment = np.maximum(moment_arm*pull, -moment_arm*push)
    # what is left upward once the links' own weight is carried
    upward_left = links_moment + upward_moment
    # what is left downward
    downward_left = downward_moment - links_moment
    # a load that turns the joint down uses the upward moment, and the other way round
    joint_load = np.maximum(downward_left/joint_unit_moment, -upward_left/joint_unit_moment)
    return JointLoad(upward_moment, downward_moment, upward_left, downward_left, joint_load)
