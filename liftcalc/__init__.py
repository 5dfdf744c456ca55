"""Tipping and hydraulic lifting calculator for loader-backhoes that move timber.

The front door: everything here is one dot away and loaded when it is first used, so that
``import liftcalc`` itself costs nothing. See ``docs/python.md``.
"""

TYPE_CHECKING = False  # a type checker takes it for true; the module that says so takes time
if TYPE_CHECKING:
    from liftcalc.api import ask as ask
    from liftcalc.api import check as check
    from liftcalc.api import compare as compare
    from liftcalc.api import demo as demo
    from liftcalc.api import limits as limits
    from liftcalc.api import load_machine as load_machine
    from liftcalc.api import machines as machines
    from liftcalc.api import sweep as sweep
    from liftcalc.api import weigh_log as weigh_log

__version__ = "0.1.0"
