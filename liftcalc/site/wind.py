"""What wind pushes the machine and its log with."""

from __future__ import annotations

from liftcalc.physics import formulas
from liftcalc.physics.functions import Real
from liftcalc.physics.worked import work
from liftcalc.physics.wrench import LevelForce

AIR_DENSITY = 1.25
"""Of the air [kg/m³]; ISO 4302 and EN 13001-2, from memory.

Overstates at heights and in warmth: at 20 °C by the sea it is 1.20. Frost makes it 1.4 at −20 °C.
"""
SHAPE = 1.2
"""Force over pressure times area [-]; ISO 4302 and EN 13001-2, from memory.

The most that they have for round sections, and more than for a closed body on the ground (1.1). A
smooth log in a storm has less; bark and stubs make it rough, so that is not counted on.
"""


def wind_on_machine(*, speed: Real, rear: Real, front: Real, top: Real) -> LevelForce:
    """Wind on the machine, both ends with it, as a closed box that stands on the ground.

    Parameters
    ----------
    speed : float or array
        Of the wind [m/s]; of a gust, since nothing is added for gusts.
    rear, front : float or array
        Ends of the box in the machine frame [m].
    top : float or array
        Its height [m]: what no pin of either arm comes above while its own link stands upright.

    Returns
    -------
    LevelForce
        Half way up the box. Overstates: between bonnet, cab and arms most of the box is air, more
        than what of bucket, dipper and attachment stands out of it; from ahead and askew less area
        faces the wind. About a line that rises to the pin of a front axle the foot of the box helps
        by up to 2 %, which is less than that air. Wind on the arms that a ram carries is not in its
        moment, which understates what the ram needs: in 10 m/s by less than 1 %.
    """
    worked = work(
        "wind on the machine",
        formulas.wind_force,
        air_density=AIR_DENSITY,
        wind_speed=speed,
        shape_factor=SHAPE,
        wind_length=front - rear,
        wind_breadth=top,
    )
    return LevelForce(worked, ((front + rear) / 2, 0.0, top / 2))


def wind_on_log(*, speed: Real, length: Real, diameter: Real) -> LevelForce:
    """Wind on the trunk, square to it, as a cylinder of its largest diameter.

    Parameters
    ----------
    speed : float or array
        Of the wind [m/s]; of a gust.
    length, diameter : float or array
        Of the log [m].

    Returns
    -------
    LevelForce
        Where the load acts: there a hanging log pulls, however long its sling. Overstates for a
        trunk. Understates with limbs and a crown, which are not counted, and where gusts come in
        the time of the log's own swing: say a swing as well.
    """
    worked = work(
        "wind on the log",
        formulas.wind_force,
        air_density=AIR_DENSITY,
        wind_speed=speed,
        shape_factor=SHAPE,
        wind_length=length,
        wind_breadth=diameter,
    )
    return LevelForce(worked)
