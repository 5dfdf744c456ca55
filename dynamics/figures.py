"""What the engine takes that no machine file says, each with its source or "judgement"."""

import math

STEP = 0.002
"""Time step [s]; the fastest spring here swings at some 150 rad/s."""
SOFT = 0.005
"""Impedance of every contact [-]; see ``model``. A contact adds this share of the body's mass."""
PLANE = [500.0, 500.0, 1.0]
BALL = 0.02
"""Radius of a pad's foot [m]."""
FRONT_TYRE, REAR_TYRE = 50.0, 56.0
"""Stiffness of one tyre for each kilogram of the machine [N/m]: 400 and 450 kN/m for 8 t. From
memory: industrial tractor tyres for such a load have 300 to 500 kN/m at their usual pressures,
those of lighter machines less, so that all sink by some 3 to 5 cm."""
ENVELOPING = 0.65
"""Stiffness of a tyre on something narrow over that on the flat [-], since it wraps round it. From
memory: tyres pressed on a cleat have 0.5 to 0.7."""
TYRE_DAMPING = 0.07
"""Share of critical damping of half an axle's mass on its tyre [-]. From memory: 0.05 to 0.1."""
PAD = 5e6
"""Stiffness of ground and leg under one pad [N/m]. Judgement: E·B/(1 − ν²) with 20 MPa and 0.4 m
is 9 MN/m for firm ground, in series with a leg of about 12."""
PAD_DAMPING = 0.2
AXLE_STOP = math.radians(10)
"""Play of the front axle to either side [rad]. Judgement: such axles have 8° to 12°."""
AXLE_DAMPING = 200.0
"""Of the axle's pin [N·m·s/rad]; judgement, little."""
OIL = 1.0e9
"""Bulk modulus of oil with its hoses [Pa]. From memory: oil alone 1.4 to 1.7e9, less with hoses."""
SERVO_DAMPING = 0.15
"""Share of critical damping of a held joint [-]; judgement."""
SLEW = 3e6
"""Stiffness of the slew drive [N·m/rad]; judgement: rams at 0.2 m of arm."""
BRAKE_GAIN = 2e6
"""Torque of a brake or motor for a difference in speed, up to its limit [N·m·s/rad]."""
WHEEL_SHARES = (("axle", 0.03), ("front", 0.0125), ("rear", 0.0275))
"""Masses of the axle's beam and of one wheel, as shares of the machine's [-]; judgement: 240, 100
and 220 kg of 8 t."""
BLINK = 0.3
"""A wheel or pad off the ground, or a ram above its relief, no longer than this is let pass [s]."""
OVER = math.radians(20)
"""A machine that leans so far from where it stood is going over [rad]."""
