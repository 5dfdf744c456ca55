"""Every formula of the model: call sites read ``formulas.ram_force(...)``."""

from liftcalc.physics.written import *  # noqa: F403
