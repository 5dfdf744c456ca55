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


class TwoEndVolume(NamedTuple):
    """Steps of `two_end_volume`."""

    butt_area: Real
    top_area: Real
    volume: Real


def two_end_volume(*, butt_diameter: Real, top_diameter: Real, log_length: Real) -> TwoEndVolume:
    """Volume of a log from its two ends.

    Parameters
    ----------
    butt_diameter : diameter at the butt [m]
    top_diameter : diameter at the top end [m]
    log_length : length of the log [m]

    Returns
    -------
    TwoEndVolume
        butt_area : section at the butt [m²]
        top_area : section at the top end [m²]
        volume : volume of the log [m³]

    Notes
    -----
    Source: Smalian's rule, any text on forest measurement.
    Error: exact for a paraboloid; overstates a cone by π·L·(d_0 − d_1)²/24 and a neiloid
    (flared butt) by more; understates only a log that bulges beyond a paraboloid between its
    ends.
    """
    # section at the butt, taken as a circle
    butt_area = (1/4)*np.pi*butt_diameter**2
    # section at the top end
    top_area = (1/4)*np.pi*top_diameter**2
    # Smalian's rule: the mean of the end sections along the whole length
    volume = (1/2)*log_length*(butt_area + top_area)
    return TwoEndVolume(butt_area, top_area, volume)


class MiddleVolume(NamedTuple):
    """Steps of `middle_volume`."""

    middle_area: Real
    volume: Real


def middle_volume(*, middle_diameter: Real, log_length: Real) -> MiddleVolume:
    """Volume of a log from its middle.

    Parameters
    ----------
    middle_diameter : diameter at mid length [m]
    log_length : length of the log [m]

    Returns
    -------
    MiddleVolume
        middle_area : section at mid length [m²]
        volume : volume of the log [m³]

    Notes
    -----
    Source: Huber's rule, any text on forest measurement.
    Error: exact for a paraboloid; understates a cone by π·L·(d_0 − d_1)²/48 and a flared butt
    by more, so a spread of its own must go with it.
    """
    # section at mid length
    middle_area = (1/4)*np.pi*middle_diameter**2
    # Huber's rule: the middle section along the whole length
    volume = log_length*middle_area
    return MiddleVolume(middle_area, volume)


class BalancePoint(NamedTuple):
    """Steps of `balance_point`."""

    butt_area: Real
    middle_area: Real
    top_area: Real
    balance_from_butt: Real


def balance_point(*, butt_diameter: Real, middle_diameter: Real, top_diameter: Real, log_length: Real) -> BalancePoint:
    """Balance point of a log from three diameters.

    Parameters
    ----------
    butt_diameter : diameter at the butt [m]
    middle_diameter : diameter at mid length [m]
    top_diameter : diameter at the top end [m]
    log_length : length of the log [m]

    Returns
    -------
    BalancePoint
        butt_area : section at the butt [m²]
        middle_area : section at mid length [m²]
        top_area : section at the top end [m²]
        balance_from_butt : balance point of the log, from butt [m]

    Notes
    -----
    Source: first moment of area by Simpson's rule.
    Error: exact for cylinder, paraboloid and cone of even density; puts the balance point of a
    neiloid too near the butt, by 0.033 of the length for one that runs to a point and by less
    when cut short; wetter sapwood or a denser butt is not counted.
    """
    # section at the butt, taken as a circle
    butt_area = (1/4)*np.pi*butt_diameter**2
    # section at mid length
    middle_area = (1/4)*np.pi*middle_diameter**2
    # section at the top end
    top_area = (1/4)*np.pi*top_diameter**2
    # Simpson's rule on the first moment of the section, over the volume
    balance_from_butt = log_length*(2*middle_area + top_area)/(butt_area + 4*middle_area + top_area)
    return BalancePoint(butt_area, middle_area, top_area, balance_from_butt)


class TwoEndBalancePoint(NamedTuple):
    """Steps of `two_end_balance_point`."""

    middle_diameter: Real
    butt_area: Real
    middle_area: Real
    top_area: Real
    balance_from_butt: Real


def two_end_balance_point(*, butt_diameter: Real, top_diameter: Real, log_length: Real) -> TwoEndBalancePoint:
    """Balance point of a log from its two ends.

    Parameters
    ----------
    butt_diameter : diameter at the butt [m]
    top_diameter : diameter at the top end [m]
    log_length : length of the log [m]

    Returns
    -------
    TwoEndBalancePoint
        middle_diameter : diameter at mid length [m]
        butt_area : section at the butt [m²]
        middle_area : section at mid length [m²]
        top_area : section at the top end [m²]
        balance_from_butt : balance point of the log, from butt [m]

    Notes
    -----
    Source: first moment of a cone frustum.
    Error: exact for a cone frustum of even density; a flared butt balances nearer the butt, a
    log that bulges in the middle nearer its middle.
    """
    # straight taper between the ends
    middle_diameter = (1/2)*butt_diameter + (1/2)*top_diameter
    # section at the butt, taken as a circle
    butt_area = (1/4)*np.pi*butt_diameter**2
    # section at mid length
    middle_area = (1/4)*np.pi*middle_diameter**2
    # section at the top end
    top_area = (1/4)*np.pi*top_diameter**2
    # Simpson's rule on the first moment of the section, over the volume
    balance_from_butt = log_length*(2*middle_area + top_area)/(butt_area + 4*middle_area + top_area)
    return TwoEndBalancePoint(middle_diameter, butt_area, middle_area, top_area, balance_from_butt)


class MiddleBalancePoint(NamedTuple):
    """Steps of `middle_balance_point`."""

    balance_from_butt: Real


def middle_balance_point(*, log_length: Real) -> MiddleBalancePoint:
    """Balance point of a log from its middle alone.

    Parameters
    ----------
    log_length : length of the log [m]

    Returns
    -------
    MiddleBalancePoint
        balance_from_butt : balance point of the log, from butt [m]

    Notes
    -----
    Source: symmetry of a cylinder.
    Error: too far from the butt for every log that tapers.
    """
    # without taper the log balances at mid length
    balance_from_butt = (1/2)*log_length
    return MiddleBalancePoint(balance_from_butt)


class RootPlateBalance(NamedTuple):
    """Steps of `root_plate_balance`."""

    balance_with_plate: Real


def root_plate_balance(*, trunk_mass: Real, balance_from_butt: Real, root_plate_mass: Real) -> RootPlateBalance:
    """Balance point of a log with its root plate.

    Parameters
    ----------
    trunk_mass : mass of the log without its root plate [kg]
    balance_from_butt : balance point of the log, from butt [m]
    root_plate_mass : mass of the root plate [kg]

    Returns
    -------
    RootPlateBalance
        balance_with_plate : balance point of the log and its root plate, from butt [m]

    Notes
    -----
    Source: statics.
    Error: too far from the butt: the plate's own centre lies beyond the butt face.
    """
    # moments about the butt, the plate taken at the butt face
    balance_with_plate = balance_from_butt*trunk_mass/(root_plate_mass + trunk_mass)
    return RootPlateBalance(balance_with_plate)


class OneEndLifted(NamedTuple):
    """Steps of `one_end_lifted`."""

    hook_share: Real
    hook_mass: Real


def one_end_lifted(*, log_mass: Real, balance_from_ground_end: Real, hook_from_ground_end: Real, breakout_factor: Real) -> OneEndLifted:
    """What the hook carries when one end is lifted.

    Parameters
    ----------
    log_mass : mass of the log [kg]
    balance_from_ground_end : balance point from the end that stays on the ground [m]
    hook_from_ground_end : hook along the log from the end that stays on the ground [m]
    breakout_factor : multiplier for a bedded or stuck log, 1 when it lies free [-]

    Returns
    -------
    OneEndLifted
        hook_share : share of the log's weight on the hook [-]
        hook_mass : mass whose weight the hook carries [kg]

    Notes
    -----
    Source: statics.
    Error: exact for a thin log; thickness moves it either way by about radius over length as
    the log rises; no breakout factor is standard.
    """
    # moments about the end on the ground; the angle of the log cancels
    hook_share = balance_from_ground_end/hook_from_ground_end
    # and what frees it from its bed
    hook_mass = breakout_factor*hook_share*log_mass
    return OneEndLifted(hook_share, hook_mass)


class SaturatedDensity(NamedTuple):
    """Steps of `saturated_density`."""

    cell_wall_gravity: Real
    moisture_ceiling: Real
    saturated_density: Real


def saturated_density(*, basic_gravity: Real) -> SaturatedDensity:
    """Density of saturated wood.

    Parameters
    ----------
    basic_gravity : basic specific gravity of the wood: dry mass over green volume, water being 1 [-]

    Returns
    -------
    SaturatedDensity
        cell_wall_gravity : specific gravity of wood substance [-]
        moisture_ceiling : most moisture the wood can hold [-]
        saturated_density : density with every pore full [kg/m³]

    Notes
    -----
    Source: Wood Handbook, FPL-GTR-190 (2010), chapter 4, eq. 4-3.
    Error: an upper bound of the density of wood of this basic gravity.
    """
    # specific gravity of wood substance
    cell_wall_gravity = 1.54
    # the pores are what the substance leaves free
    moisture_ceiling = basic_gravity**(-1.0) - 1/cell_wall_gravity
    # density of the wood when it holds all the water it can
    saturated_density = 1000*basic_gravity*(moisture_ceiling + 1)
    return SaturatedDensity(cell_wall_gravity, moisture_ceiling, saturated_density)


class WoodDensity(NamedTuple):
    """Steps of `wood_density`."""

    fibre_saturation: Real
    shrinkage: Real
    shrunken_gravity: Real
    open_density: Real
    cell_wall_gravity: Real
    moisture_ceiling: Real
    saturated_density: Real
    wood_density: Real


def wood_density(*, basic_gravity: Real, moisture: Real) -> WoodDensity:
    """Density of wood by its moisture.

    Parameters
    ----------
    basic_gravity : basic specific gravity of the wood: dry mass over green volume, water being 1 [-]
    moisture : water over dry mass of the wood [-]

    Returns
    -------
    WoodDensity
        fibre_saturation : moisture below which wood shrinks [-]
        shrinkage : volume lost by shrinking over green volume [-]
        shrunken_gravity : dry mass over the volume at the present moisture, water being 1 [-]
        open_density : density by moisture, no ceiling [kg/m³]
        cell_wall_gravity : specific gravity of wood substance [-]
        moisture_ceiling : most moisture the wood can hold [-]
        saturated_density : density with every pore full [kg/m³]
        wood_density : density of the wood [kg/m³]

    Notes
    -----
    Source: Wood Handbook, FPL-GTR-190 (2010), chapter 4, eq. 4-3, 4-13 and 4-14.
    Error: none from the rule above 30 % moisture; below it the volume is taken as measured on
    the dry log, which overstates one measured green and dried since.
    """
    # wood shrinks below this moisture
    fibre_saturation = 0.3
    # loss of volume below fibre saturation, none above it
    shrinkage = 0.265*basic_gravity*np.maximum(0, 1 - moisture/fibre_saturation)
    # a log taped when dry has shrunk: the same dry mass stands in less volume
    shrunken_gravity = basic_gravity/(1 - shrinkage)
    # dry mass and water together
    open_density = 1000*shrunken_gravity*(moisture + 1)
    # specific gravity of wood substance
    cell_wall_gravity = 1.54
    # the pores are what the substance leaves free
    moisture_ceiling = basic_gravity**(-1.0) - 1/cell_wall_gravity
    # density of the wood when it holds all the water it can
    saturated_density = 1000*basic_gravity*(moisture_ceiling + 1)
    # never more than saturated
    wood_density = np.minimum(open_density, saturated_density)
    return WoodDensity(fibre_saturation, shrinkage, shrunken_gravity, open_density, cell_wall_gravity, moisture_ceiling, saturated_density, wood_density)


class DensestWood(NamedTuple):
    """Steps of `densest_wood`."""

    upper_point: Real
    upper_gravity: Real
    cell_wall_gravity: Real
    densest_wood_density: Real


def densest_wood(*, basic_gravity: Real, gravity_spread: Real) -> DensestWood:
    """The densest that wood of this species can be.

    Parameters
    ----------
    basic_gravity : basic specific gravity of the wood: dry mass over green volume, water being 1 [-]
    gravity_spread : one sigma of the basic gravity [-]

    Returns
    -------
    DensestWood
        upper_point : 95 % point of the normal distribution [-]
        upper_gravity : upper 95 % value of the basic gravity [-]
        cell_wall_gravity : specific gravity of wood substance [-]
        densest_wood_density : saturated density of the upper basic gravity [kg/m³]

    Notes
    -----
    Source: Wood Handbook, FPL-GTR-190 (2010), chapter 4, eq. 4-3.
    Error: overstates the density of any wood but the densest and wettest of the species.
    """
    # one log in twenty lies beyond, on that side
    upper_point = 1.645
    # the basic gravity itself varies from tree to tree
    upper_gravity = basic_gravity*(gravity_spread*upper_point + 1)
    # specific gravity of wood substance
    cell_wall_gravity = 1.54
    # every pore of that wood full of water
    densest_wood_density = 1000*upper_gravity*(1 - 1/cell_wall_gravity) + 1000
    return DensestWood(upper_point, upper_gravity, cell_wall_gravity, densest_wood_density)


class BarkUnder(NamedTuple):
    """Steps of `bark_under`."""

    bark_density: Real
    bark_mass: Real


def bark_under(*, volume: Real, bark_share: Real, bark_gravity: Real, bark_moisture: Real) -> BarkUnder:
    """Mass of the bark of a log measured under bark.

    Parameters
    ----------
    volume : volume of the log [m³]
    bark_share : volume of bark over volume of wood [-]
    bark_gravity : basic specific gravity of the bark [-]
    bark_moisture : water over dry mass of the bark [-]

    Returns
    -------
    BarkUnder
        bark_density : density of the bark [kg/m³]
        bark_mass : mass of bark not in the measured volume [kg]

    Notes
    -----
    Source: Miles & Smith 2009 (USDA NRS-38) define the three bark figures.
    Error: overstates a log that has been peeled or has lost bark.
    """
    # dry bark and its water
    bark_density = 1000*bark_gravity*(bark_moisture + 1)
    # bark volume as a share of the wood's
    bark_mass = bark_density*bark_share*volume
    return BarkUnder(bark_density, bark_mass)


class OverBarkBlend(NamedTuple):
    """Steps of `over_bark_blend`."""

    bark_density: Real
    blend_density: Real
    over_bark_density: Real


def over_bark_blend(*, wood_density: Real, bark_share: Real, bark_gravity: Real, bark_moisture: Real) -> OverBarkBlend:
    """Density of a log measured over bark.

    Parameters
    ----------
    wood_density : density of the wood [kg/m³]
    bark_share : volume of bark over volume of wood [-]
    bark_gravity : basic specific gravity of the bark [-]
    bark_moisture : water over dry mass of the bark [-]

    Returns
    -------
    OverBarkBlend
        bark_density : density of the bark [kg/m³]
        blend_density : wood and bark, over all volume [kg/m³]
        over_bark_density : density that goes with a volume over bark [kg/m³]

    Notes
    -----
    Source: Miles & Smith 2009 (USDA NRS-38) define the three bark figures.
    Error: overstates where the bark is lighter than the wood; never understates for the bark.
    """
    # dry bark and its water
    bark_density = 1000*bark_gravity*(bark_moisture + 1)
    # wood and bark shared over the volume of both
    blend_density = (bark_density*bark_share + wood_density)/(bark_share + 1)
    # light bark earns no benefit, dense bark counts
    over_bark_density = np.maximum(blend_density, wood_density)
    return OverBarkBlend(bark_density, blend_density, over_bark_density)


class VolumeDoubt(NamedTuple):
    """Steps of `volume_doubt`."""

    equivalent_diameter: Real
    volume_spread: Real


def volume_doubt(*, volume: Real, log_length: Real, diameter_error: Real, shape_spread: Real) -> VolumeDoubt:
    """How far the volume may be out.

    Parameters
    ----------
    volume : volume of the log [m³]
    log_length : length of the log [m]
    diameter_error : one sigma of a taped diameter [m]
    shape_spread : one sigma of the volume rule [-]

    Returns
    -------
    VolumeDoubt
        equivalent_diameter : diameter of the cylinder of the same length and volume [m]
        volume_spread : one sigma of the volume [-]

    Notes
    -----
    Source: propagation of small errors.
    Error: overstates the spread where the errors of the tapes differ; length taken as exact.
    """
    # one diameter to stand for all that were taped
    equivalent_diameter = 2*np.sqrt(volume/log_length)/np.sqrt(np.pi)
    # volume goes as the square of the diameter; all tapes taken to err together
    volume_spread = np.sqrt(4*diameter_error**2/equivalent_diameter**2 + shape_spread**2)
    return VolumeDoubt(equivalent_diameter, volume_spread)


class LikelyLog(NamedTuple):
    """Steps of `likely_log`."""

    stem_mass: Real
    likely_mass: Real


def likely_log(*, volume: Real, likely_density: Real, bark_mass: Real, added_share: Real, added_mass: Real) -> LikelyLog:
    """Likely mass of the log.

    Parameters
    ----------
    volume : volume of the log [m³]
    likely_density : likely density of what was taped [kg/m³]
    bark_mass : mass of bark not in the measured volume [kg]
    added_share : extras stated as a share of the log's mass [-]
    added_mass : extras stated as a mass [kg]

    Returns
    -------
    LikelyLog
        stem_mass : wood and bark, without extras [kg]
        likely_mass : likely mass of the log [kg]

    Notes
    -----
    Source: mass = volume × density.
    Error: that of its volume and density.
    """
    # wood and bark
    stem_mass = bark_mass + likely_density*volume
    # with what sticks to it or grows on it
    likely_mass = added_mass + stem_mass*(added_share + 1)
    return LikelyLog(stem_mass, likely_mass)


class LowLog(NamedTuple):
    """Steps of `low_log`."""

    upper_point: Real
    mass_spread: Real
    low_guess: Real
    low_stem_mass: Real
    low_mass: Real


def low_log(*, volume: Real, likely_density: Real, bark_mass: Real, added_share: Real, added_mass: Real, volume_spread: Real, density_spread: Real, guess_spread: Real) -> LowLog:
    """Low mass of the log.

    Parameters
    ----------
    volume : volume of the log [m³]
    likely_density : likely density of what was taped [kg/m³]
    bark_mass : mass of bark not in the measured volume [kg]
    added_share : extras stated as a share of the log's mass [-]
    added_mass : extras stated as a mass [kg]
    volume_spread : one sigma of the volume [-]
    density_spread : one sigma of the density [-]
    guess_spread : one sigma of bark and extras [-]

    Returns
    -------
    LowLog
        upper_point : 95 % point of the normal distribution [-]
        mass_spread : one sigma of volume × density [-]
        low_guess : factor on bark and extras, low [-]
        low_stem_mass : low stem mass [kg]
        low_mass : low mass of the log [kg]

    Notes
    -----
    Source: propagation of small errors, normal distribution.
    Error: for information only; no lift may count on a log being this light.
    """
    # one log in twenty lies beyond, on that side
    upper_point = 1.645
    # density and volume err independently
    mass_spread = np.sqrt(density_spread**2 + volume_spread**2)
    # lower 5 % of a guess
    low_guess = 1 - guess_spread*upper_point
    # lower 5 % value: nineteen logs in twenty are heavier
    low_stem_mass = bark_mass*low_guess + likely_density*volume*(1 - mass_spread*upper_point)
    # with the extras at their low value
    low_mass = added_mass*low_guess + low_stem_mass*(added_share*low_guess + 1)
    return LowLog(upper_point, mass_spread, low_guess, low_stem_mass, low_mass)


class PlanningLog(NamedTuple):
    """Steps of `planning_log`."""

    upper_point: Real
    mass_spread: Real
    upper_volume: Real
    high_guess: Real
    high_stem_mass: Real
    planning_mass: Real


def planning_log(*, volume: Real, likely_density: Real, high_density: Real, densest_density: Real, bark_mass: Real, added_share: Real, added_mass: Real, volume_spread: Real, density_spread: Real, guess_spread: Real) -> PlanningLog:
    """Mass to plan the lift on.

    Parameters
    ----------
    volume : volume of the log [m³]
    likely_density : likely density of what was taped [kg/m³]
    high_density : higher density that a source gives for the species, or the likely one [kg/m³]
    densest_density : density that what was taped cannot pass [kg/m³]
    bark_mass : mass of bark not in the measured volume [kg]
    added_share : extras stated as a share of the log's mass [-]
    added_mass : extras stated as a mass [kg]
    volume_spread : one sigma of the volume [-]
    density_spread : one sigma of the density [-]
    guess_spread : one sigma of bark and extras [-]

    Returns
    -------
    PlanningLog
        upper_point : 95 % point of the normal distribution [-]
        mass_spread : one sigma of volume × density [-]
        upper_volume : upper 95 % value of the volume [m³]
        high_guess : factor on bark and extras, high [-]
        high_stem_mass : upper stem mass [kg]
        planning_mass : mass to plan the lift on [kg]

    Notes
    -----
    Source: propagation of small errors, normal distribution.
    Error: overstates nineteen logs in twenty.
    """
    # one log in twenty lies beyond, on that side
    upper_point = 1.645
    # density and volume err independently
    mass_spread = np.sqrt(density_spread**2 + volume_spread**2)
    # upper 95 % value of the volume
    upper_volume = volume*(upper_point*volume_spread + 1)
    # upper 95 % of a guess
    high_guess = guess_spread*upper_point + 1
    # upper 95 % value, at least what the sources report, at most saturated
    high_stem_mass = bark_mass*high_guess + np.minimum(densest_density*upper_volume, np.maximum(high_density*upper_volume, likely_density*volume*(mass_spread*upper_point + 1)))
    # with the extras at their high value
    planning_mass = added_mass*high_guess + high_stem_mass*(added_share*high_guess + 1)
    return PlanningLog(upper_point, mass_spread, upper_volume, high_guess, high_stem_mass, planning_mass)


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
    unit_moment = ((end_x - start_x)*(gravity_z*(point_y - start_y) - gravity_y*(point_z - start_z)) + (end_y - start_y)*(gravity_x*(point_z - start_z) - gravity_z*(point_x - start_x)) + (end_z - start_z)*(gravity_y*(point_x - start_x) - gravity_x*(point_y - start_y)))/line_length
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

    span_square: Real
    span: Real
    lengths_square: Real
    lengths_product: Real
    elbow_cosine: Real
    elbow_sine: Real
    far_along: Real
    far_across: Real
    first_cosine: Real
    first_sine: Real
    second_cosine: Real
    second_sine: Real


def two_link(*, target_u: Real, target_w: Real, first_length: Real, second_length: Real) -> TwoLink:
    """Directions of a two-link arm that reaches a point, knuckle up.

    Parameters
    ----------
    target_u : target, outward of the foot pin [m]
    target_w : target, above the foot pin [m]
    first_length : length of the first link [m]
    second_length : length of the second link [m]

    Returns
    -------
    TwoLink
        span_square : square of that distance [m²]
        span : distance from the foot pin to the target [m]
        lengths_square : squares of both links, together [m²]
        lengths_product : twice the product of both links [m²]
        elbow_cosine : cosine between the links [-]
        elbow_sine : sine between the links [-]
        far_along : far end of the folded arm, along its first link [m]
        far_across : far end of the folded arm, square to its first link [m]
        first_cosine : cosine of the first link above horizontal [-]
        first_sine : sine of the first link above horizontal [-]
        second_cosine : cosine of the second link above horizontal [-]
        second_sine : sine of the second link above horizontal [-]

    Notes
    -----
    Source: law of cosines.
    Error: exact for rigid links and pins without play.
    """
    # distance to the target, squared
    span_square = target_u**2 + target_w**2
    # distance to the target
    span = np.sqrt(span_square)
    # the span of a square elbow
    lengths_square = first_length**2 + second_length**2
    # what the elbow adds at most
    lengths_product = 2*first_length*second_length
    # law of cosines; outside −1…1 the arm cannot reach
    elbow_cosine = (span_square - lengths_square)/lengths_product
    # the second link turns down from the first; no real value out of reach
    elbow_sine = -np.sqrt(1 - elbow_cosine**2)
    # both links, along the first
    far_along = elbow_cosine*second_length + first_length
    # the second link, square to the first
    far_across = elbow_sine*second_length
    # the folded arm turned until its far end is the target
    first_cosine = (far_across*target_w + far_along*target_u)/span_square
    # the same, for the sine
    first_sine = (far_along*target_w - far_across*target_u)/span_square
    # from the knuckle to the target
    second_cosine = (target_u - first_cosine*first_length)/second_length
    # the same, upward
    second_sine = (target_w - first_length*first_sine)/second_length
    return TwoLink(span_square, span, lengths_square, lengths_product, elbow_cosine, elbow_sine, far_along, far_across, first_cosine, first_sine, second_cosine, second_sine)


class AllowedLoad(NamedTuple):
    """Steps of `allowed_load`."""

    allowed: Real


def allowed_load(*, capacity: Real, share: Real) -> AllowedLoad:
    """Allowed load of a criterion.

    Parameters
    ----------
    capacity : load at which a criterion is reached [kg]
    share : share of the capacity that may be used [-]

    Returns
    -------
    AllowedLoad
        allowed : allowed load on the lift point [kg]

    Notes
    -----
    Source: the share's own source, see rules.
    Error: exact.
    """
    # only a share of the capacity may be used
    allowed = capacity*share
    return AllowedLoad(allowed)


class Utilisation(NamedTuple):
    """Steps of `utilisation`."""

    left_for_log: Real
    heaviest_log: Real
    utilisation: Real


def utilisation(*, allowed: Real, rigging_mass: Real, load_factor: Real, planning_mass: Real) -> Utilisation:
    """Utilisation of a criterion.

    Parameters
    ----------
    allowed : allowed load on the lift point [kg]
    rigging_mass : chain, sling and hook below the point [kg]
    load_factor : load factor [-]
    planning_mass : mass to plan the lift on [kg]

    Returns
    -------
    Utilisation
        left_for_log : allowed load less the rigging [kg]
        heaviest_log : heaviest log the criterion allows [kg]
        utilisation : share of the allowed load used [-]

    Notes
    -----
    Source: definition.
    Error: the load factor is on the log only, the rigging is light.
    """
    # the rigging hangs on the lift point too
    left_for_log = allowed - rigging_mass
    # the log pulls harder than it weighs when it is moved
    heaviest_log = left_for_log/load_factor
    # what the log asks, over what is left for it
    utilisation = load_factor*planning_mass/left_for_log
    return Utilisation(left_for_log, heaviest_log, utilisation)


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

    ram_u: Real
    ram_w: Real
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
        ram_u : from the ram's base pin to its rod pin, outward [m]
        ram_w : from the ram's base pin to its rod pin, up [m]
        ram_length : ram from pin to pin [m]
        moment_arm : moment arm of the ram, dℓ/dθ, positive when it lengthens as the link turns up [m]

    Notes
    -----
    Source: virtual work: the moment of a force F along the ram is F·dℓ/dθ.
    Error: exact for rigid links and pins without play.
    """
    # from pin to pin, outward
    ram_u = rod_pin_u - base_pin_u
    # from pin to pin, up
    ram_w = rod_pin_w - base_pin_w
    # from pin to pin
    ram_length = np.sqrt(ram_u**2 + ram_w**2)
    # square distance from the joint to the line of the ram, signed: dℓ/dθ
    moment_arm = (ram_w*(rod_pin_u - pivot_u) - ram_u*(rod_pin_w - pivot_w))/ram_length
    return RamGeometry(ram_u, ram_w, ram_length, moment_arm)


class RamOnLink(NamedTuple):
    """Steps of `ram_on_link`."""

    radii_square: Real
    pins_inner: Real
    pins_outer: Real
    ram_length: Real
    moment_arm: Real


def ram_on_link(*, base_from_joint_u: Real, base_from_joint_w: Real, rod_on_link_u: Real, rod_on_link_w: Real, turn_cosine: Real, turn_sine: Real) -> RamOnLink:
    """Length and moment arm of a ram, by the turn of the link it holds.

    Parameters
    ----------
    base_from_joint_u : pin of the ram on its base, from the joint, outward [m]
    base_from_joint_w : pin of the ram on its base, from the joint, up [m]
    rod_on_link_u : pin of the rod, from the joint, in the frame of its link, outward [m]
    rod_on_link_w : pin of the rod, from the joint, in the frame of its link, up [m]
    turn_cosine : cosine of the turn of the link [-]
    turn_sine : sine of the turn of the link [-]

    Returns
    -------
    RamOnLink
        radii_square : squares of both pins' distance from joint [m²]
        pins_inner : inner product of the two pins [m²]
        pins_outer : outer product of the two pins [m²]
        ram_length : ram from pin to pin [m]
        moment_arm : moment arm of the ram, dℓ/dθ, positive when it lengthens as the link turns up [m]

    Notes
    -----
    Source: law of cosines; virtual work.
    Error: exact for rigid links and pins without play.
    """
    # the two pins stay as far from the joint, however the link turns
    radii_square = base_from_joint_u**2 + base_from_joint_w**2 + rod_on_link_u**2 + rod_on_link_w**2
    # what a turn of nought brings together
    pins_inner = base_from_joint_u*rod_on_link_u + base_from_joint_w*rod_on_link_w
    # what a quarter turn brings together
    pins_outer = base_from_joint_w*rod_on_link_u - base_from_joint_u*rod_on_link_w
    # law of cosines
    ram_length = np.sqrt(radii_square - 2*pins_inner*turn_cosine - 2*pins_outer*turn_sine)
    # its derivative by the turn: dℓ/dθ
    moment_arm = (pins_inner*turn_sine - pins_outer*turn_cosine)/ram_length
    return RamOnLink(radii_square, pins_inner, pins_outer, ram_length, moment_arm)


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
    between = np.sqrt((second_u - first_u)**2 + (second_w - first_w)**2)
    # law of cosines along the line between them
    along = (1/2)*(between**2 + first_radius**2 - second_radius**2)/between
    # square to it; no real value when the linkage cannot close
    off = np.sqrt(first_radius**2 - along**2)
    # from the first pin, along and square to the line
    crossing_u = first_u + (along*(second_u - first_u) - off*side*(second_w - first_w))/between
    # the same, upward
    crossing_w = first_w + (along*(second_w - first_w) + off*side*(second_u - first_u))/between
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
    velocity_ratio = ((link_pin_w - crank_pin_w)*(link_pin_u - pivot_u) - (link_pin_u - crank_pin_u)*(link_pin_w - pivot_w))/((crank_pin_u - crank_pivot_u)*(link_pin_w - crank_pin_w) - (link_pin_u - crank_pin_u)*(crank_pin_w - crank_pivot_w))
    return FourBarRatio(velocity_ratio)


class JointLoad(NamedTuple):
    """Steps of `joint_load`."""

    pushing_moment: Real
    pulling_moment: Real
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
        pushing_moment : moment of a full push [N·m]
        pulling_moment : moment of a full pull [N·m]
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
    # force times moment arm, positive turning up
    pushing_moment = moment_arm*push
    # the same, the other way round
    pulling_moment = -moment_arm*pull
    # pushing or pulling, whichever turns the link up
    upward_moment = np.maximum(pulling_moment, pushing_moment)
    # the other of the two turns it down
    downward_moment = -np.minimum(pulling_moment, pushing_moment)
    # what is left upward once the links' own weight is carried
    upward_left = links_moment + upward_moment
    # what is left downward
    downward_left = downward_moment - links_moment
    # a load that turns the joint down uses the upward moment, and the other way round
    joint_load = np.maximum(downward_left/joint_unit_moment, -upward_left/joint_unit_moment)
    return JointLoad(pushing_moment, pulling_moment, upward_moment, downward_moment, upward_left, downward_left, joint_load)


class SupportForce(NamedTuple):
    """Steps of `support_force`."""

    support_force: Real


def support_force(*, pressing_moment: Real, support_lever: Real) -> SupportForce:
    """Greatest force on a support, whatever the ground's stiffness.

    Parameters
    ----------
    pressing_moment : moment of all weights about the line across from a support [N·m]
    support_lever : moment about that line of a unit force up at the support [m]

    Returns
    -------
    SupportForce
        support_force : greatest force of the ground on a support [N]

    Notes
    -----
    Source: duality of linear programmes: the least bound is also reached.
    Error: overstates the force wherever the ground shares the load more evenly.
    """
    # about a line that the machine may tip over, across from the support: no other support
    # pulls, so they only take moment off it; the least over the lines counts
    support_force = pressing_moment/support_lever
    return SupportForce(support_force)


class ForceLimitLoad(NamedTuple):
    """Steps of `force_limit_load`."""

    moment_room: Real
    force_limit_load: Real


def force_limit_load(*, holding_moment: Real, load_unit_moment: Real, support_lever: Real, force_limit: Real) -> ForceLimitLoad:
    """Load at which a support comes to its limit.

    Parameters
    ----------
    holding_moment : moment of the machine about the tipping line, positive when it holds down [N·m]
    load_unit_moment : moment about the tipping line of one kilogram of load [N·m/kg]
    support_lever : moment about that line of a unit force up at the support [m]
    force_limit : greatest force allowed on a support [N]

    Returns
    -------
    ForceLimitLoad
        moment_room : moment about the line that a load may add before the support's limit [N·m]
        force_limit_load : load at which the line lets the support have more than its limit [kg]

    Notes
    -----
    Source: equilibrium of moments.
    Error: understates the load, as the force on the support is overstated; see
    `physics.reactions.carried` and, for several lines, `physics.forms.load_at_failure`.
    """
    # moment of the limit about the line, less that of the machine
    moment_room = force_limit*support_lever - holding_moment
    # the load that fills it: M₀ + m·k = N·d
    force_limit_load = moment_room/load_unit_moment
    return ForceLimitLoad(moment_room, force_limit_load)


class ThreeSupports(NamedTuple):
    """Steps of `three_supports`."""

    pin_base: Real
    pin_up: Real
    back_up: Real
    turning_moment: Real
    roll_factor: Real
    back_roll: Real
    left_up: Real
    right_up: Real
    pin_left: Real
    back_left: Real


def three_supports(*, force_x: Real, force_y: Real, force_z: Real, moment_x: Real, moment_y: Real, moment_z: Real, back_x: Real, left_y: Real, right_y: Real, pin_x: Real, pin_height: Real) -> ThreeSupports:
    """Two back supports on the ground, and a front axle that rolls freely under its pin.

    Parameters
    ----------
    force_x : force of all weights, forward [N]
    force_y : force of all weights, left [N]
    force_z : force of all weights, up [N]
    moment_x : moment of all weights about the origin, round the axis forward [N·m]
    moment_y : moment of all weights about the origin, round the axis left [N·m]
    moment_z : moment of all weights about the origin, round the axis up [N·m]
    back_x : the two back supports, forward [m]
    left_y : left back support, left [m]
    right_y : right back support, left [m]
    pin_x : pin of the axle, forward [m]
    pin_height : pin of the axle above the ground [m]

    Returns
    -------
    ThreeSupports
        pin_base : back supports to the pin [m]
        pin_up : force of the axle on its pin, up [N]
        back_up : force on both back supports, up [N]
        turning_moment : moment of sideways forces about the back supports, that turns the machine in plan [N·m]
        roll_factor : how much the force along the machine stiffens the roll over the pin [-]
        back_roll : moment of the back supports' forces up about the middle [N·m]
        left_up : force on the left back support, up [N]
        right_up : force on the right back support, up [N]
        pin_left : force of the axle on its pin, left [N]
        back_left : force on both back supports, left [N]

    Notes
    -----
    Source: equilibrium of a rigid body.
    Error: exact for wheels that roll freely and a force along the machine shared by the back
    supports as they carry; one of them may hold it all, see `support_force`.
    """
    # distance along the machine
    pin_base = pin_x - back_x
    # moments about the back supports; wheels that roll take no force along the machine
    pin_up = (back_x*force_z + moment_y)/pin_base
    # what is left of the weight
    back_up = -force_z - pin_up
    # moments in plan about the back supports, of the weights alone
    turning_moment = back_x*force_y - moment_z
    # the back support that carries more also holds more along the machine, which turns the nose
    # and so presses sideways on the pin
    roll_factor = 1 + force_x*pin_height/(back_up*pin_base)
    # moments in roll, the pin's sideways force put in
    back_roll = (pin_height*turning_moment/pin_base - moment_x)/roll_factor
    # both give that moment and, together, the force on both
    left_up = (back_roll - back_up*right_y)/(left_y - right_y)
    # the rest
    right_up = back_up - left_up
    # moments in plan about the back supports
    pin_left = (turning_moment - back_roll*force_x/back_up)/pin_base
    # the rest
    back_left = -force_y - pin_left
    return ThreeSupports(pin_base, pin_up, back_up, turning_moment, roll_factor, back_roll, left_up, right_up, pin_left, back_left)


class AxleTyres(NamedTuple):
    """Steps of `axle_tyres`."""

    left_tyre: Real
    right_tyre: Real


def axle_tyres(*, pin_up: Real, pin_left: Real, pin_height: Real, front_track: Real) -> AxleTyres:
    """Tyres of an oscillating axle.

    Parameters
    ----------
    pin_up : force of the axle on its pin, up [N]
    pin_left : force of the axle on its pin, left [N]
    pin_height : pin of the axle above the ground [m]
    front_track : track of the front axle [m]

    Returns
    -------
    AxleTyres
        left_tyre : force on the left tyre of an oscillating axle, up [N]
        right_tyre : force on the right tyre of an oscillating axle, up [N]

    Notes
    -----
    Source: moments about the pin of the axle.
    Error: exact for an axle without weight of its own; a tyre below zero means that the axle
    turns against its stop.
    """
    # half each, less what the sideways force of the ground, below the pin, takes over
    left_tyre = (1/2)*pin_up - pin_height*pin_left/front_track
    # the rest
    right_tyre = pin_up - left_tyre
    return AxleTyres(left_tyre, right_tyre)


class SizedLeg(NamedTuple):
    """Steps of `sized_leg`."""

    single_leg: Real


def sized_leg(*, gear_size: Real, size_rule: Real) -> SizedLeg:
    """Working load limit of one straight leg by its size.

    Parameters
    ----------
    gear_size : diameter of a chain's bar or of a rope [m]
    size_rule : load for a square millimetre of size² [kg/mm²]

    Returns
    -------
    SizedLeg
        single_leg : working load limit of one straight leg [kg]

    Notes
    -----
    Source: Queensland doggers' guide.
    Error: of sound gear, unworn and without kinks or knots; overstates what is left in worn
    gear.
    """
    # strength goes as the section, so as the size in millimetres, squared
    single_leg = 1000000*gear_size**2*size_rule
    return SizedLeg(single_leg)


class SlungLeg(NamedTuple):
    """Steps of `slung_leg`."""

    sling_capacity: Real


def slung_leg(*, single_leg: Real, mode_factor: Real) -> SlungLeg:
    """Load that one sling holds as slung.

    Parameters
    ----------
    single_leg : working load limit of one straight leg [kg]
    mode_factor : share of a straight leg that is left [-]

    Returns
    -------
    SlungLeg
        sling_capacity : load that the sling holds as slung [kg]

    Notes
    -----
    Source: the factor's own source, see rigging.gear.
    Error: of an angle of choke over 120°; overstates a choke that was beaten down.
    """
    # a choke bends and squeezes the sling, so that less of it is left
    sling_capacity = mode_factor*single_leg
    return SlungLeg(sling_capacity)


class Basket(NamedTuple):
    """Steps of `basket`."""

    basket_half_angle: Real
    basket_factor: Real
    basket_capacity: Real


def basket(*, single_leg: Real, sling_length: Real, largest_diameter: Real) -> Basket:
    """Load that one sling holds as a basket under a log.

    Parameters
    ----------
    single_leg : working load limit of one straight leg [kg]
    sling_length : length of the sling or of one leg [m]
    largest_diameter : largest diameter of the log [m]

    Returns
    -------
    Basket
        basket_half_angle : half the angle between the two parts of a basket, from above [rad]
        basket_factor : straight legs that a basket is worth [-]
        basket_capacity : load that a basket holds [kg]

    Notes
    -----
    Source: geometry of a loop round a cylinder that hangs from one point.
    Error: overstates the angle below 60° and is exact there; the load is understated by 4 % for
    a sling of five diameters, by 17 % at most; means something up to 60° only; rope bent round
    a thin log holds less.
    """
    # sling over diameter is 90° + φ + cot φ; φ itself is taken as 60°, which is more
    basket_half_angle = np.arctan2(largest_diameter, sling_length - 5/6*np.pi*largest_diameter)
    # two parts hold, each only with what of it points up
    basket_factor = 2*np.cos(basket_half_angle)
    # each part holds as much as one straight leg
    basket_capacity = basket_factor*single_leg
    return Basket(basket_half_angle, basket_factor, basket_capacity)


class LegShares(NamedTuple):
    """Steps of `leg_shares`."""

    larger_share: Real


def leg_shares(*, leg_spread: Real, balance_miss: Real) -> LegShares:
    """Share of the leg that carries more.

    Parameters
    ----------
    leg_spread : two legs apart along the log [m]
    balance_miss : how far the balance point lies from where it was aimed [m]

    Returns
    -------
    LegShares
        larger_share : share of the leg that carries more [-]

    Notes
    -----
    Source: statics.
    Error: overstates: a log free to tip moves its balance point toward the other leg.
    """
    # moments about the other leg; with the balance point outside both, one carries all
    larger_share = np.minimum(1, balance_miss/leg_spread + 1/2)
    return LegShares(larger_share)


class Legs(NamedTuple):
    """Steps of `legs`."""

    leg_factor: Real


def legs(*, included_angle: Real) -> Legs:
    """Straight legs that two equal legs are worth.

    Parameters
    ----------
    included_angle : angle between two legs [rad]

    Returns
    -------
    Legs
        leg_factor : straight legs that two legs are worth [-]

    Notes
    -----
    Source: geometry; Queensland doggers' guide.
    Error: exact for equal shares; not for use beyond 120°.
    """
    # two legs hold, each only with what of it points up
    leg_factor = 2*np.cos((1/2)*included_angle)
    return Legs(leg_factor)


class TwoLegs(NamedTuple):
    """Steps of `two_legs`."""

    free_leg: Real
    included_angle: Real
    leg_factor: Real
    two_leg_capacity: Real


def two_legs(*, single_leg: Real, mode_factor: Real, sling_length: Real, largest_diameter: Real, leg_spread: Real, larger_share: Real) -> TwoLegs:
    """Load that two legs hold, each choked round the log.

    Parameters
    ----------
    single_leg : working load limit of one straight leg [kg]
    mode_factor : share of a straight leg that is left [-]
    sling_length : length of the sling or of one leg [m]
    largest_diameter : largest diameter of the log [m]
    leg_spread : two legs apart along the log [m]
    larger_share : share of the leg that carries more [-]

    Returns
    -------
    TwoLegs
        free_leg : what a choke leaves of a leg's length [m]
        included_angle : angle between two legs [rad]
        leg_factor : straight legs that two legs are worth [-]
        two_leg_capacity : load that two legs hold [kg]

    Notes
    -----
    Source: geometry; Queensland doggers' guide.
    Error: overstates the angle by taking the thickest part; overstates the tension of the worse
    leg where the log is free to tip; not for use beyond 120°.
    """
    # once round the thickest part of the log goes into the choke
    free_leg = sling_length - np.pi*largest_diameter
    # two equal legs and the log between them
    included_angle = 2*np.arcsin((1/2)*leg_spread/free_leg)
    # two legs hold, each only with what of it points up
    leg_factor = 2*np.cos((1/2)*included_angle)
    # the leg that carries more decides; with equal shares both count in full
    two_leg_capacity = (1/2)*leg_factor*mode_factor*single_leg/larger_share
    return TwoLegs(free_leg, included_angle, leg_factor, two_leg_capacity)


class LegTension(NamedTuple):
    """Steps of `leg_tension`."""

    leg_tension: Real


def leg_tension(*, hung_mass: Real, leg_share: Real, leg_lean: Real) -> LegTension:
    """Tension of a leg that leans.

    Parameters
    ----------
    hung_mass : mass that hangs on the legs [kg]
    leg_share : share of the weight on one leg [-]
    leg_lean : leg off the plumb line [rad]

    Returns
    -------
    LegTension
        leg_tension : tension of a leg, as the mass that it would hold straight [kg]

    Notes
    -----
    Source: statics.
    Error: exact.
    """
    # what points up of the tension carries the leg's share
    leg_tension = hung_mass*leg_share/np.cos(leg_lean)
    return LegTension(leg_tension)


class UnequalLegs(NamedTuple):
    """Steps of `unequal_legs`."""

    first_tension: Real
    second_tension: Real


def unequal_legs(*, hung_mass: Real, first_offset: Real, second_offset: Real, hook_height: Real) -> UnequalLegs:
    """Tension of two legs with the balance point off their middle.

    Parameters
    ----------
    hung_mass : mass that hangs on the legs [kg]
    first_offset : foot of the first leg from the plumb line, along the level [m]
    second_offset : foot of the second leg from the plumb line, along the level [m]
    hook_height : hook above the feet of the legs [m]

    Returns
    -------
    UnequalLegs
        first_tension : tension of the first leg, as the mass that it would hold straight [kg]
        second_tension : tension of the second leg, as the mass that it would hold straight [kg]

    Notes
    -----
    Source: statics.
    Error: exact for a load that hangs level with its balance point under the hook.
    """
    # moments about the second leg's foot, then along the leg
    first_tension = hung_mass*second_offset*np.sqrt(first_offset**2 + hook_height**2)/(hook_height*(first_offset + second_offset))
    # moments about the first leg's foot, then along the leg
    second_tension = first_offset*hung_mass*np.sqrt(hook_height**2 + second_offset**2)/(hook_height*(first_offset + second_offset))
    return UnequalLegs(first_tension, second_tension)


class TwoPointShares(NamedTuple):
    """Steps of `two_point_shares`."""

    mass_on_one: Real
    mass_on_two: Real


def two_point_shares(*, log_mass: Real, balance_from_butt: Real, at_one: Real, at_two: Real) -> TwoPointShares:
    """What each of two carriers of a log holds.

    Parameters
    ----------
    log_mass : mass of the log [kg]
    balance_from_butt : balance point of the log, from butt [m]
    at_one : first carrier, along the log from its butt [m]
    at_two : second carrier, along the log from its butt [m]

    Returns
    -------
    TwoPointShares
        mass_on_one : mass that the first carrier holds [kg]
        mass_on_two : mass that the second carrier holds [kg]

    Notes
    -----
    Source: statics.
    Error: exact for a level log; one that slopes puts more on the lower carrier when held at
    its underside.
    """
    # moments about the second carrier
    mass_on_one = log_mass*(at_two - balance_from_butt)/(at_two - at_one)
    # moments about the first carrier
    mass_on_two = log_mass*(balance_from_butt - at_one)/(at_two - at_one)
    return TwoPointShares(mass_on_one, mass_on_two)


class OffBalance(NamedTuple):
    """Steps of `off_balance`."""

    hang_angle: Real


def off_balance(*, balance_miss: Real, hang_depth: Real) -> OffBalance:
    """Angle at which a log hangs that is slung off its balance point.

    Parameters
    ----------
    balance_miss : how far the balance point lies from where it was aimed [m]
    hang_depth : balance point below the point about which the log turns [m]

    Returns
    -------
    OffBalance
        hang_angle : log off the level as it hangs [rad]

    Notes
    -----
    Source: statics.
    Error: exact for a sling that leaves the top of the log and does not slip.
    """
    # it turns until its balance point is under the sling
    hang_angle = np.arctan2(balance_miss, hang_depth)
    return OffBalance(hang_angle)


class LevelMiss(NamedTuple):
    """Steps of `level_miss`."""

    balance_miss: Real


def level_miss(*, hang_angle: Real, hang_depth: Real) -> LevelMiss:
    """How far from the balance point a log may be slung.

    Parameters
    ----------
    hang_angle : log off the level as it hangs [rad]
    hang_depth : balance point below the point about which the log turns [m]

    Returns
    -------
    LevelMiss
        balance_miss : how far the balance point lies from where it was aimed [m]

    Notes
    -----
    Source: statics.
    Error: exact for a sling that leaves the top of the log and does not slip.
    """
    # the hang angle turned round
    balance_miss = hang_depth*np.tan(hang_angle)
    return LevelMiss(balance_miss)


class TrailedLog(NamedTuple):
    """Steps of `trailed_log`."""

    resting_share: Real
    up_share: Real
    along_share: Real


def trailed_log(*, hook_share: Real, drag_friction: Real, slope: Real, rise_angle: Real) -> TrailedLog:
    """Pull on the hook of a log drawn uphill over the ground.

    Parameters
    ----------
    hook_share : share of the log's weight on the hook [-]
    drag_friction : friction of the log on the ground [-]
    slope : slope of the ground [rad]
    rise_angle : log above the ground as it trails [rad]

    Returns
    -------
    TrailedLog
        resting_share : weight on the ground square to it, share of the log's weight [-]
        up_share : pull on the hook square to the ground, share of the log's weight [-]
        along_share : pull on the hook along the ground, share of the log's weight [-]

    Notes
    -----
    Source: statics of a body on two points; Coulomb friction.
    Error: exact for a thin log at a steady speed; ground that is ploughed up adds to the
    friction.
    """
    # moments about the hook; the drag lifts what lies below a raised hook
    resting_share = (1 - hook_share)*(np.cos(slope) - np.sin(slope)*np.tan(rise_angle))/(drag_friction*np.tan(rise_angle) + 1)
    # the hook carries what the ground does not
    up_share = np.cos(slope) - resting_share
    # friction of what rests, and what the slope asks
    along_share = drag_friction*resting_share + np.sin(slope)
    return TrailedLog(resting_share, up_share, along_share)


class HookPull(NamedTuple):
    """Steps of `hook_pull`."""

    pull_share: Real
    pull_lean: Real


def hook_pull(*, up_share: Real, along_share: Real, breakout_factor: Real) -> HookPull:
    """Size and lean of the pull on the hook.

    Parameters
    ----------
    up_share : pull on the hook square to the ground, share of the log's weight [-]
    along_share : pull on the hook along the ground, share of the log's weight [-]
    breakout_factor : multiplier for a bedded or stuck log, 1 when it lies free [-]

    Returns
    -------
    HookPull
        pull_share : pull on the hook, share of the log's weight [-]
        pull_lean : pull on the hook off the square to the ground [rad]

    Notes
    -----
    Source: statics; no breakout factor is standard.
    Error: exact for the parts given.
    """
    # both parts together, times what frees the log from its bed
    pull_share = breakout_factor*np.sqrt(along_share**2 + up_share**2)
    # its direction
    pull_lean = np.arctan2(along_share, up_share)
    return HookPull(pull_share, pull_lean)


class JawHold(NamedTuple):
    """Steps of `jaw_hold`."""

    grip_hold: Real


def jaw_hold(*, jaw_force: Real, jaw_friction: Real) -> JawHold:
    """What friction between two jaws holds.

    Parameters
    ----------
    jaw_force : force of each jaw on the log [N]
    jaw_friction : friction of jaw and log [-]

    Returns
    -------
    JawHold
        grip_hold : most that friction can hold [N]

    Notes
    -----
    Source: Coulomb friction.
    Error: no edge or tooth is credited; overstates where jaws press on a knot or on loose bark.
    """
    # two sides press, each holds its force times the friction
    grip_hold = 2*jaw_force*jaw_friction
    return JawHold(grip_hold)


class JawLoad(NamedTuple):
    """Steps of `jaw_load`."""

    grip_hold: Real
    held_load: Real


def jaw_load(*, jaw_force: Real, jaw_friction: Real, grip_safety: Real, gripped_share: Real) -> JawLoad:
    """Log that the grip of two jaws may hold.

    Parameters
    ----------
    jaw_force : force of each jaw on the log [N]
    jaw_friction : friction of jaw and log [-]
    grip_safety : hold that is asked, over the need [-]
    gripped_share : share of the weight that only friction holds [-]

    Returns
    -------
    JawLoad
        grip_hold : most that friction can hold [N]
        held_load : log that the grip may hold [kg]

    Notes
    -----
    Source: Coulomb friction; standard gravity, CGPM 1901.
    Error: no edge or tooth is credited; overstates where jaws press on a knot or on loose bark.
    """
    # two sides press, each holds its force times the friction
    grip_hold = 2*jaw_force*jaw_friction
    # a reserve for what shakes, and only the weight that lies on the grip
    held_load = 0.101971621297793*grip_hold/(grip_safety*gripped_share)
    return JawLoad(grip_hold, held_load)


class GripReserve(NamedTuple):
    """Steps of `grip_reserve`."""

    grip_needed: Real
    grip_reserve: Real


def grip_reserve(*, grip_hold: Real, planning_mass: Real, gripped_share: Real) -> GripReserve:
    """Reserve of a grip.

    Parameters
    ----------
    grip_hold : most that friction can hold [N]
    planning_mass : mass to plan the lift on [kg]
    gripped_share : share of the weight that only friction holds [-]

    Returns
    -------
    GripReserve
        grip_needed : weight that friction must hold [N]
        grip_reserve : hold of the grip over what it needs [-]

    Notes
    -----
    Source: definition.
    Error: exact; infinite where nothing lies on the grip.
    """
    # the weight that lies on the grip
    grip_needed = 9.80665*gripped_share*planning_mass
    # hold over need
    grip_reserve = grip_hold/grip_needed
    return GripReserve(grip_needed, grip_reserve)


class SwingFromRest(NamedTuple):
    """Steps of `swing_from_rest`."""

    lean: Real
    peak_swing: Real


def swing_from_rest(*, steady_acceleration: Real) -> SwingFromRest:
    """Swing of a hanging load after a sudden steady acceleration.

    Parameters
    ----------
    steady_acceleration : acceleration of the point that a load hangs from, square to plumb [m/s²]

    Returns
    -------
    SwingFromRest
        lean : lean of a hanging load from plumb [rad]
        peak_swing : farthest lean from plumb, swinging from rest [rad]

    Notes
    -----
    Source: equilibrium and energy of a pendulum, any text on dynamics.
    Error: exact for a pendulum without damping; an acceleration that grows slowly swings less,
    so it overstates; a load that swings already can swing farther.
    """
    # the load would hang still along gravity less the acceleration
    lean = np.arctan(0.101971621297793*steady_acceleration)
    # from rest it swings through that lean, as far again
    peak_swing = 2*lean
    return SwingFromRest(lean, peak_swing)


class Turning(NamedTuple):
    """Steps of `turning`."""

    turn_rate: Real
    turning_acceleration: Real
    planned_turning: Real


def turning(*, speed: Real, turn_radius: Real, rollover_share: Real) -> Turning:
    """Acceleration of a turn.

    Parameters
    ----------
    speed : speed of travel [m/s]
    turn_radius : radius of the turn, at the middle of the rear axle [m]
    rollover_share : real rollover threshold over that of a rigid machine [-]

    Returns
    -------
    Turning
        turn_rate : rate of turn [rad/s]
        turning_acceleration : acceleration toward the inside of the turn [m/s²]
        planned_turning : acceleration that stands for the turn of a rigid machine [m/s²]

    Notes
    -----
    Source: kinematics; the share is vehicle practice.
    Error: exact for a steady turn; overstates for stiff tyres; the outer tyre's turning circle
    in place of the radius at the rear axle understates.
    """
    # the machine turns as fast as it goes round
    turn_rate = speed/turn_radius
    # v²/R, the same along the whole length of the machine
    turning_acceleration = speed*turn_rate
    # tyres and frame give: real machines go over sooner than rigid ones
    planned_turning = turning_acceleration/rollover_share
    return Turning(turn_rate, turning_acceleration, planned_turning)


class TurningAhead(NamedTuple):
    """Steps of `turning_ahead`."""

    rearward_in_turn: Real


def turning_ahead(*, turn_rate: Real, ahead: Real, rollover_share: Real) -> TurningAhead:
    """What a turn pulls forward on a point ahead of the rear axle.

    Parameters
    ----------
    turn_rate : rate of turn [rad/s]
    ahead : point of the machine, ahead of the rear axle [m]
    rollover_share : real rollover threshold over that of a rigid machine [-]

    Returns
    -------
    TurningAhead
        rearward_in_turn : acceleration of that point toward the rear axle while turning [m/s²]

    Notes
    -----
    Source: kinematics of a rigid body.
    Error: exact for a steady turn, but for the share, which overstates.
    """
    # the nose swings round the rear axle; taken larger by the same share as the turn
    rearward_in_turn = ahead*turn_rate**2/rollover_share
    return TurningAhead(rearward_in_turn)


class SpeedAtRollover(NamedTuple):
    """Steps of `speed_at_rollover`."""

    greatest_speed: Real


def speed_at_rollover(*, acceleration_limit: Real, turn_radius: Real, rollover_share: Real) -> SpeedAtRollover:
    """Speed at which a turn takes the machine to its limit.

    Parameters
    ----------
    acceleration_limit : acceleration to the side at which a rigid machine reaches its limit [m/s²]
    turn_radius : radius of the turn, at the middle of the rear axle [m]
    rollover_share : real rollover threshold over that of a rigid machine [-]

    Returns
    -------
    SpeedAtRollover
        greatest_speed : speed at which it gets there [m/s]

    Notes
    -----
    Source: kinematics; the share is vehicle practice.
    Error: understates for stiff tyres; holds for smooth ground, a bump takes the machine over
    sooner.
    """
    # v²/(κR) is the limit
    greatest_speed = np.sqrt(acceleration_limit*rollover_share*turn_radius)
    return SpeedAtRollover(greatest_speed)


class SlewingSwing(NamedTuple):
    """Steps of `slewing_swing`."""

    slewing_acceleration: Real
    start_stop_swing: Real
    outward_lean: Real
    slewing_swing: Real


def slewing_swing(*, hook_reach: Real, slew_speed: Real, slew_stop: Real, swings_added: Real) -> SlewingSwing:
    """Swing of a hanging load when the back end slews.

    Parameters
    ----------
    hook_reach : hook from the slew axis, or ahead of the front axle [m]
    slew_speed : rate of slewing [rad/s]
    slew_stop : time in which slewing starts or stops [s]
    swings_added : 1 when the load hangs quiet before slewing stops, 2 when it still swings from the start [-]

    Returns
    -------
    SlewingSwing
        slewing_acceleration : acceleration of the hook along its circle [m/s²]
        start_stop_swing : swing when slewing starts or stops [rad]
        outward_lean : lean away from the slew axis while slewing [rad]
        slewing_swing : lean to plan slewing on [rad]

    Notes
    -----
    Source: energy of a pendulum; statics of a conical one.
    Error: overstates: the leans along the circle and away from the axis are square to each
    other and are added as if they were not; with 1, a stop while the load still swings from the
    start is understated.
    """
    # the hook gains or loses its speed along the circle in that time
    slewing_acceleration = hook_reach*slew_speed/slew_stop
    # twice the lean, as after any sudden acceleration
    start_stop_swing = 2*np.arctan(0.101971621297793*slewing_acceleration)
    # what turns in a circle is pulled inward only by leaning outward
    outward_lean = np.arctan(0.101971621297793*hook_reach*slew_speed**2)
    # all at once and in one direction
    slewing_swing = outward_lean + start_stop_swing*swings_added
    return SlewingSwing(slewing_acceleration, start_stop_swing, outward_lean, slewing_swing)


class TravelResistance(NamedTuple):
    """Steps of `travel_resistance`."""

    resistance_share: Real
    travel_resistance: Real


def travel_resistance(*, sinkage: Real, grade: Real, travelling_mass: Real) -> TravelResistance:
    """Resistance to travel.

    Parameters
    ----------
    sinkage : how deep the tyres sink [m]
    grade : rise over run of the way uphill [-]
    travelling_mass : machine and all that it carries [kg]

    Returns
    -------
    TravelResistance
        resistance_share : resistance to travel over the weight [-]
        travel_resistance : resistance to travel [N]

    Notes
    -----
    Source: earth-moving handbooks.
    Error: of either sign: an average of pneumatic tyres on earth; on a steep grade the sine is
    less than the grade, which overstates.
    """
    # 2 % rolling, 1.5 % for every inch of sinkage, 1 % for every per cent of grade
    resistance_share = grade + 0.590551181102362*sinkage + 1/50
    # that share of the weight
    travel_resistance = 9.80665*resistance_share*travelling_mass
    return TravelResistance(resistance_share, travel_resistance)


class FarthestPoint(NamedTuple):
    """Steps of `farthest_point`."""

    swung_out: Real
    farthest_point: Real


def farthest_point(*, hook_reach: Real, far_end: Real, hanging_drop: Real, lean: Real) -> FarthestPoint:
    """How far out a swinging log comes.

    Parameters
    ----------
    hook_reach : hook from the slew axis, or ahead of the front axle [m]
    far_end : far end of the log from where it is held [m]
    hanging_drop : middle of the log below the lift point [m]
    lean : lean of a hanging load from plumb [rad]

    Returns
    -------
    FarthestPoint
        swung_out : how far the log swings out sideways [m]
        farthest_point : farthest that any of the log comes, from where reach is measured [m]

    Notes
    -----
    Source: geometry.
    Error: overstates: a log that hangs tipped, or points elsewhere, does not come so far.
    """
    # the log moves out by its drop times the sine of its lean
    swung_out = hanging_drop*np.sin(lean)
    # the log may turn on its sling until it points straight out
    farthest_point = far_end + hook_reach + swung_out
    return FarthestPoint(swung_out, farthest_point)


class ExclusionRadius(NamedTuple):
    """Steps of `exclusion_radius`."""

    swung_out: Real
    exclusion_radius: Real


def exclusion_radius(*, far_end: Real, lowest_height: Real, hanging_drop: Real, lean: Real) -> ExclusionRadius:
    """Circle that people stay out of.

    Parameters
    ----------
    far_end : far end of the log from where it is held [m]
    lowest_height : lowest point of the log above the ground [m]
    hanging_drop : middle of the log below the lift point [m]
    lean : lean of a hanging load from plumb [rad]

    Returns
    -------
    ExclusionRadius
        swung_out : how far the log swings out sideways [m]
        exclusion_radius : radius of the circle, round the point below the hook, that people stay out of [m]

    Notes
    -----
    Source: geometry; the allowance for a fall is common practice, no source.
    Error: overstates on level ground; on a slope a dropped log can roll farther downhill.
    """
    # the log moves out by its drop times the sine of its lean
    swung_out = hanging_drop*np.sin(lean)
    # where the log can swing, and as much farther as it can fall: it topples or rolls
    exclusion_radius = far_end + lowest_height + swung_out
    return ExclusionRadius(swung_out, exclusion_radius)


class CogByWeighing(NamedTuple):
    """Steps of `cog_by_weighing`."""

    cog_ahead: Real
    axle_step: Real
    pitch: Real
    front_ahead: Real
    cog_up: Real


def cog_by_weighing(*, wheelbase: Real, front_radius: Real, rear_radius: Real, raise_height: Real, whole_mass: Real, front_level: Real, front_raised: Real) -> CogByWeighing:
    """Centre of gravity from a level weighing and one with an axle raised.

    Parameters
    ----------
    wheelbase : rear axle to front axle, level [m]
    front_radius : front axle above the ground, level [m]
    rear_radius : rear axle above the ground, level [m]
    raise_height : front tyres raised above the rear tyres; negative when the rear is raised [m]
    whole_mass : mass of the whole machine [kg]
    front_level : mass on the front axle, level [kg]
    front_raised : mass on the front axle with one axle raised [kg]

    Returns
    -------
    CogByWeighing
        cog_ahead : centre of gravity of the whole machine, ahead of the rear axle [m]
        axle_step : front axle above the rear axle, level [m]
        pitch : how far the machine is pitched nose up by raising an axle [rad]
        front_ahead : front axle ahead of the rear axle along the ground, pitched [m]
        cog_up : centre of gravity of the whole machine above the ground, level [m]

    Notes
    -----
    Source: statics of a machine on two axles; the textbook form has tyres of one size.
    Error: exact for tyres that squash alike in both weighings and a machine whose wheels roll
    freely; a tyre that squashes more when the other axle is raised, fuel that runs back, or an
    axle's own springs are not in it.
    """
    # level: moments about the rear axle
    cog_ahead = front_level*wheelbase/whole_mass
    # unequal tyres
    axle_step = front_radius - rear_radius
    # the front axle ends up so high: r_r + L sin θ + (r_f − r_r) cos θ = r_f + H
    pitch = np.arcsin((axle_step + raise_height)/np.sqrt(axle_step**2 + wheelbase**2)) - np.arctan2(axle_step, wheelbase)
    # the line between the axles, pitched
    front_ahead = wheelbase*np.cos(pitch) - axle_step*np.sin(pitch)
    # pitched: moments about the rear tyres, the weight's arm being x_c cos θ − (z_c − r_r) sin
    # θ
    cog_up = rear_radius + (cog_ahead*np.cos(pitch) - front_ahead*front_raised/whole_mass)/np.sin(pitch)
    return CogByWeighing(cog_ahead, axle_step, pitch, front_ahead, cog_up)


class WeighingOfCog(NamedTuple):
    """Steps of `weighing_of_cog`."""

    front_level: Real
    axle_step: Real
    pitch: Real
    front_ahead: Real
    front_raised: Real


def weighing_of_cog(*, wheelbase: Real, front_radius: Real, rear_radius: Real, raise_height: Real, whole_mass: Real, cog_ahead: Real, cog_up: Real) -> WeighingOfCog:
    """What the front axle weighs, level and with an axle raised.

    Parameters
    ----------
    wheelbase : rear axle to front axle, level [m]
    front_radius : front axle above the ground, level [m]
    rear_radius : rear axle above the ground, level [m]
    raise_height : front tyres raised above the rear tyres; negative when the rear is raised [m]
    whole_mass : mass of the whole machine [kg]
    cog_ahead : centre of gravity of the whole machine, ahead of the rear axle [m]
    cog_up : centre of gravity of the whole machine above the ground, level [m]

    Returns
    -------
    WeighingOfCog
        front_level : mass on the front axle, level [kg]
        axle_step : front axle above the rear axle, level [m]
        pitch : how far the machine is pitched nose up by raising an axle [rad]
        front_ahead : front axle ahead of the rear axle along the ground, pitched [m]
        front_raised : mass on the front axle with one axle raised [kg]

    Notes
    -----
    Source: statics of a machine on two axles; the textbook form has tyres of one size.
    Error: exact for tyres that squash alike in both weighings and a machine whose wheels roll
    freely; a tyre that squashes more when the other axle is raised, fuel that runs back, or an
    axle's own springs are not in it.
    """
    # level: moments about the rear axle
    front_level = cog_ahead*whole_mass/wheelbase
    # unequal tyres
    axle_step = front_radius - rear_radius
    # the front axle ends up so high: r_r + L sin θ + (r_f − r_r) cos θ = r_f + H
    pitch = np.arcsin((axle_step + raise_height)/np.sqrt(axle_step**2 + wheelbase**2)) - np.arctan2(axle_step, wheelbase)
    # the line between the axles, pitched
    front_ahead = wheelbase*np.cos(pitch) - axle_step*np.sin(pitch)
    # pitched: moments about the rear tyres
    front_raised = whole_mass*(cog_ahead*np.cos(pitch) - (cog_up - rear_radius)*np.sin(pitch))/front_ahead
    return WeighingOfCog(front_level, axle_step, pitch, front_ahead, front_raised)


class ChassisByWeighing(NamedTuple):
    """Steps of `chassis_by_weighing`."""

    chassis_height: Real


def chassis_by_weighing(*, whole_mass: Real, cog_up: Real, rest_mass: Real, rest_moment: Real) -> ChassisByWeighing:
    """Height of the chassis that makes the whole machine's come out so.

    Parameters
    ----------
    whole_mass : mass of the whole machine [kg]
    cog_up : centre of gravity of the whole machine above the ground, level [m]
    rest_mass : all lumps of the machine but the chassis [kg]
    rest_moment : sum over those lumps of mass times height [kg·m]

    Returns
    -------
    ChassisByWeighing
        chassis_height : centre of gravity of the chassis above the ground [m]

    Notes
    -----
    Source: definition of the centre of gravity.
    Error: exact; carries every error of the other lumps' masses and heights, enlarged by whole
    mass over chassis mass.
    """
    # what the other lumps leave of the whole's moment, over what they leave of its mass
    chassis_height = (cog_up*whole_mass - rest_moment)/(whole_mass - rest_mass)
    return ChassisByWeighing(chassis_height)
