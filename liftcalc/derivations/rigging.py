"""Everything stated of rigging: slings, logs drawn over the ground, grip."""

from __future__ import annotations

from liftcalc.derivations import rigging_slings, rigging_taken

FORMULAS = (*rigging_slings.FORMULAS, *rigging_taken.FORMULAS)
