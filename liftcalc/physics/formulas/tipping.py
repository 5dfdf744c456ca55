"""Effective gravity, moments about tipping lines, tipping loads, and what a log uses of a load."""

from __future__ import annotations

from collections import namedtuple

from liftcalc.physics.formula import formula, step
from liftcalc.physics.functions import Real, cos, sin, sqrt
from liftcalc.units import G0

EffectiveGravity = namedtuple("EffectiveGravity", "gravity_x gravity_y gravity_z")
LineMoment = namedtuple("LineMoment", "line_length unit_moment")
TippingLoad = namedtuple("TippingLoad", "tipping_load")
AllowedLoad = namedtuple("AllowedLoad", "allowed")
Utilisation = namedtuple("Utilisation", "left_for_log heaviest_log utilisation")


@formula(
    source="d'Alembert's principle; standard gravity, CGPM 1901",
    error="exact for a steady acceleration; a sudden one swings a hanging load twice as far",
)
def effective_gravity(
    *, slope: Real, heading: Real, acceleration_x: Real, acceleration_y: Real, acceleration_z: Real
) -> EffectiveGravity:
    """Effective gravity in the machine frame."""
    gravity_x = step(
        -G0 * sin(slope) * cos(heading) - acceleration_x,
        "gravity along the machine, less its own acceleration",
    )
    gravity_y = step(
        -G0 * sin(slope) * sin(heading) - acceleration_y,
        "gravity across the machine, less its own acceleration",
    )
    gravity_z = step(
        -G0 * cos(slope) - acceleration_z, "gravity square to the ground, less its own acceleration"
    )
    return EffectiveGravity(gravity_x, gravity_y, gravity_z)


@formula(
    source="moment of a force about a line, any text on statics",
    error="exact for a rigid machine on unyielding ground; measured tip angles are 1 to 4 % "
    "smaller (Majdan et al. 2021), so it overstates stability by that much",
)
def line_moment(
    *,
    point_x: Real,
    point_y: Real,
    point_z: Real,
    start_x: Real,
    start_y: Real,
    start_z: Real,
    end_x: Real,
    end_y: Real,
    end_z: Real,
    gravity_x: Real,
    gravity_y: Real,
    gravity_z: Real,
) -> LineMoment:
    """Moment of one kilogram about a tipping line."""
    e_x, e_y, e_z = end_x - start_x, end_y - start_y, end_z - start_z
    r_x, r_y, r_z = point_x - start_x, point_y - start_y, point_z - start_z
    line_length = step(
        sqrt(e_x**2 + e_y**2 + e_z**2), "length of the line from its start to its end"
    )
    unit_moment = step(
        (
            e_x * (r_y * gravity_z - r_z * gravity_y)
            + e_y * (r_z * gravity_x - r_x * gravity_z)
            + e_z * (r_x * gravity_y - r_y * gravity_x)
        )
        / line_length,
        "(r − P) × g along the line; with the supports to its right it holds down when positive",
    )
    return LineMoment(line_length, unit_moment)


@formula(
    source="equilibrium of moments",
    error="exact for a rigid machine; means something only where M₀ > 0 and k < 0, see "
    "`physics.tipping.load_at_tipping`",
)
def tipping_load(*, holding_moment: Real, load_unit_moment: Real) -> TippingLoad:
    """Tipping load of one line."""
    load = step(
        holding_moment / -load_unit_moment,
        "the load whose moment equals that of the machine: M₀ + m·k = 0",
    )
    return TippingLoad(load)


@formula(source="the share's own source, see factors", error="exact")
def allowed_load(*, capacity: Real, share: Real) -> AllowedLoad:
    """Allowed load of a criterion."""
    return AllowedLoad(step(share * capacity, "only a share of the capacity may be used"))


@formula(source="definition", error="the load factor is on the log only, the rigging is light")
def utilisation(
    *, allowed: Real, rigging_mass: Real, load_factor: Real, planning_mass: Real
) -> Utilisation:
    """Utilisation of a criterion."""
    left_for_log = step(allowed - rigging_mass, "the rigging hangs on the lift point too")
    heaviest_log = step(
        left_for_log / load_factor, "the log pulls harder than it weighs when it is moved"
    )
    used = step(
        load_factor * planning_mass / left_for_log, "what the log asks, over what is left for it"
    )
    return Utilisation(left_for_log, heaviest_log, used)
