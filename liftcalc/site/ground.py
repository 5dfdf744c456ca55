"""What pressure named ground may be given, and the quick rule for the worst pad."""

from __future__ import annotations

from dataclasses import dataclass

from liftcalc.errors import InputError, did_you_mean
from liftcalc.remarks import Figure, Remark, near
from liftcalc.sources import Source

CAREFUL = Source(
    citation="presumed ground pressures of a Canadian table for plan sets", standing="seen"
)
FOUNDATIONS = Source(
    citation="BS 8004, presumed bearing values, and IBC section 1806.2: for footings in the "
    "ground; a pad on the surface has less",
    standing="seen",
)
PAD_RULE = Source(
    citation="quick rule of the Crane Industry Council of Australia and of the Queensland Mobile "
    "Crane Code of Practice 2006",
    standing="seen",
)
PAD_SHARE = 0.65
"""Share of machine and load that the worst pad is taken to carry [-]; source: ``PAD_RULE``."""


SOFTEST = 40e3
"""Of the softest ground that a table presumes anything of [Pa]; source: ``CAREFUL``."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """Ground by name, with what two kinds of table presume of it.

    ``careful`` is the careful table's pressure [Pa], ``least`` the least that a foundation table
    gives [Pa] where it gives one, ``tables`` what those say. None in ``careful``: nothing
    may be presumed.
    """

    name: str
    careful: float | None
    tables: tuple[Remark, ...]
    least: float | None = None

    @property
    def allowed(self) -> float | None:
        """Pressure to plan with [Pa]: the least of all tables; None where none may be presumed.

        Understates what most ground of the name can carry; ground that was dug, is wet or near an
        edge carries less than any table.
        """
        if self.careful is None or self.least is None:
            return self.careful
        return min(self.careful, self.least)

    @property
    def at_most(self) -> float:
        """Pressure that it surely does not exceed [Pa]: ``allowed``, or the softest ground's.

        Nothing is granted by it: it only keeps worse ground from answering better.
        """
        return SOFTEST if self.allowed is None else self.allowed


def _kpa(value: float) -> Figure:
    return near(1e3 * value, "bearing")


GROUNDS: tuple[Ground, ...] = (
    *(Ground(name=each, careful=None, tables=()) for each in ("unknown", "peat", "fill", "mud")),
    Ground(name="soft clay", careful=SOFTEST, tables=(Remark("bs_below", most=_kpa(75)),)),
    Ground(name="loose sand or gravel", careful=50e3, tables=(Remark("bs_below", most=_kpa(100)),)),
    Ground(
        name="firm clay",
        careful=75e3,
        least=71.8e3,
        tables=(Remark("bs_between", least=_kpa(75), most=_kpa(150)), Remark("ibc", at=_kpa(71.8))),
    ),
    Ground(
        name="stiff clay",
        careful=150e3,
        least=150e3,
        tables=(Remark("bs_between", least=_kpa(150), most=_kpa(300)),),
    ),
    Ground(
        name="dense sand", careful=150e3, least=300e3, tables=(Remark("bs_above", least=_kpa(300)),)
    ),
    Ground(
        name="dense gravel",
        careful=150e3,
        least=600e3,
        tables=(Remark("bs_above", least=_kpa(600)),),
    ),
    Ground(
        name="rock",
        careful=500e3,
        least=192e3,
        tables=(Remark("ibc_between", least=_kpa(192), most=_kpa(575)),),
    ),
)
"""Sources: ``CAREFUL`` and ``FOUNDATIONS``."""


def ground(name: str) -> Ground:
    """Ground by name.

    Raises ``InputError`` when the table has no such ground.
    """
    plain = " ".join(name.lower().replace("-", " ").split())
    known = {each.name: each for each in GROUNDS}
    if plain in known:
        return known[plain]
    raise InputError.of(
        field="ground",
        given=f'"{name}"' if name.strip() else "nothing",
        wanted=f"one of {', '.join(known)}",
        fix=did_you_mean(plain, known) or 'if in doubt, "unknown"',
    )


def worst_pad(*, machine: float, load: float) -> float:
    """Mass on the worst pad by the quick rule [kg].

    Parameters
    ----------
    machine, load : float
        Masses [kg].

    Notes
    -----
    Source: ``PAD_RULE``. Meant for cranes on four outriggers with the load at working reach. Two
    stabilisers under a back end that hangs far out to one side can carry more than this share, so
    it may understate the worst pad. Only to compare: answers take the reactions themselves.
    """
    return PAD_SHARE * (machine + load)
