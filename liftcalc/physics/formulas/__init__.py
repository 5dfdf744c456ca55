"""Every formula of the model: call sites read ``formulas.ram_force(...)``."""

from liftcalc.physics.formulas.bearing import *
from liftcalc.physics.formulas.ground import *
from liftcalc.physics.formulas.journey import *
from liftcalc.physics.formulas.linkages import *
from liftcalc.physics.formulas.skidding import *
from liftcalc.physics.formulas.slings import *
from liftcalc.physics.formulas.timber_density import *
from liftcalc.physics.formulas.timber_mass import *
from liftcalc.physics.formulas.timber_shape import *
from liftcalc.physics.formulas.tipping import *
from liftcalc.physics.formulas.weighing import *
