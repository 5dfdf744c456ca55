"""Tipping and hydraulic lifting calculator for loader-backhoes that move timber.

What ``__all__`` names is one dot away and loaded when it is first used; ``import liftcalc`` by
itself loads nothing. ``docs/python.md`` shows what can be done with it.
"""

TYPE_CHECKING = False  # true to type checkers; typing, which has it, takes time to load
if TYPE_CHECKING:
    from liftcalc.api import ask, check, compare, demo, limits, load_machine, sweep, weigh_log
    from liftcalc.errors import Fault, InputError, LiftcalcError, PoseError
    from liftcalc.evaluation.answer import Answer
    from liftcalc.evaluation.sweep import Sweep
    from liftcalc.factors import CAUTION
    from liftcalc.machines.files import shipped_names as machines
    from liftcalc.machines.schema import Machine
    from liftcalc.maps.limits import BackLimits, FrontLimits
    from liftcalc.questions.compare import Comparison
    from liftcalc.questions.registry import QuestionAnswer
    from liftcalc.questions.search import InverseAnswer
    from liftcalc.timber.log import LogEstimate

__version__ = "0.1.0"
__all__ = [
    "CAUTION",
    "Answer",
    "BackLimits",
    "Comparison",
    "Fault",
    "FrontLimits",
    "InputError",
    "InverseAnswer",
    "LiftcalcError",
    "LogEstimate",
    "Machine",
    "PoseError",
    "QuestionAnswer",
    "Sweep",
    "__version__",
    "ask",
    "check",
    "compare",
    "demo",
    "limits",
    "load_machine",
    "machines",
    "sweep",
    "weigh_log",
]
_HOMES = {
    "CAUTION": "factors",
    "Answer": "evaluation.answer",
    "BackLimits": "maps.limits",
    "Comparison": "questions.compare",
    "Fault": "errors",
    "FrontLimits": "maps.limits",
    "InputError": "errors",
    "InverseAnswer": "questions.search",
    "LiftcalcError": "errors",
    "LogEstimate": "timber.log",
    "Machine": "machines.schema",
    "PoseError": "errors",
    "QuestionAnswer": "questions.registry",
    "Sweep": "evaluation.sweep",
}
"""Where a name lives that is no function of ``api``."""


if not TYPE_CHECKING:  # who misspells a name is to hear of it

    def __getattr__(name: str) -> object:
        if name not in __all__:
            raise AttributeError(f"module 'liftcalc' has no attribute {name!r}")
        from importlib import import_module  # noqa: PLC0415 - who only imports waits for nothing

        if name == "machines":
            return import_module("liftcalc.machines")  # a room that answers for itself
        return getattr(import_module(f"liftcalc.{_HOMES.get(name, 'api')}"), name)


def __dir__() -> list[str]:
    return sorted({*globals(), *__all__})
