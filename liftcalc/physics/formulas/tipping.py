"""Effective gravity, wind, moments about tipping lines, tipping loads, what a log uses of them."""

from __future__ import annotations

from collections import namedtuple

from liftcalc.physics.formula import formula, step
from liftcalc.physics.functions import Real, cos, sin
from liftcalc.units import G0

EffectiveGravity = namedtuple("EffectiveGravity", "gravity_x gravity_y gravity_z")
WindForce = namedtuple("WindForce", "wind_pressure wind_area wind_force")
TippingLoad = namedtuple("TippingLoad", "tipping_load")
AllowedLoad = namedtuple("AllowedLoad", "usable_capacity allowed")
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
    source="ISO 4302, cranes, wind load assessment, and EN 13001-2: F = q·c·A, from memory",
    error="by the area and factor given; a gust that comes and goes in a hanging load's own time "
    "moves it more, so it understates there",
)
def wind_force(
    *,
    air_density: Real,
    wind_speed: Real,
    shape_factor: Real,
    wind_length: Real,
    wind_breadth: Real,
) -> WindForce:
    """Force of wind."""
    pressure = step(
        air_density * wind_speed**2 / 2, "what the air's motion presses with where it is stopped"
    )
    area = step(wind_length * wind_breadth, "seen from the side, as a rectangle")
    force = step(pressure * shape_factor * area, "on the area that faces the wind, by its shape")
    return WindForce(pressure, area, force)


@formula(
    source="equilibrium of moments",
    error="exact for a rigid machine; means something only where M₀ > 0 and k < 0, see "
    "`physics.wrench.load_at_tipping`",
)
def tipping_load(*, holding_moment: Real, load_unit_moment: Real) -> TippingLoad:
    """Tipping load of one line."""
    load = step(
        holding_moment / -load_unit_moment,
        "the load whose moment equals that of the machine: M₀ + m·k = 0",
    )
    return TippingLoad(load)


@formula(source="the share's own source, see factors", error="exact")
def allowed_load(
    *, capacity: Real, share: Real, tolerance_share: Real, load_factor: Real
) -> AllowedLoad:
    """Allowed load of a criterion."""
    usable_capacity = step(
        share * tolerance_share * capacity,
        "only a share may be used of what tolerances of figures leave of the capacity",
    )
    allowed = step(
        usable_capacity / load_factor, "what hangs pulls harder than it weighs when it is moved"
    )
    return AllowedLoad(usable_capacity, allowed)


@formula(source="definition", error="exact")
def utilisation(
    *, allowed: Real, rigging_mass: Real, pull_share: Real, planning_mass: Real
) -> Utilisation:
    """Utilisation of a criterion."""
    left_for_log = step(allowed - rigging_mass, "the rigging hangs on the lift point too")
    heaviest_log = step(
        left_for_log / pull_share, "the hook bears this share of what the log weighs"
    )
    used = step(
        pull_share * planning_mass / left_for_log, "what the log asks, over what is left for it"
    )
    return Utilisation(left_for_log, heaviest_log, used)
