"""The figures of members, by the names of their parameters, from variates and back to them."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from liftcalc.family.kind import MachineKind
from liftcalc.family.parameters import COMMON, STANDARD_MASS, parameters, size_of
from liftcalc.physics.functions import Real

Floats = NDArray[np.float64]
Figures = Mapping[str, Real]


def figures(kind: MachineKind, latent: Floats) -> dict[str, Real]:
    """Figures of members, all in SI, and ``size``.

    Parameters
    ----------
    kind : MachineKind
    latent : (N, k) array
        Standard normal variates: those that are common, then one for each parameter [-].

    Returns
    -------
    dict
        An (N,) array for each parameter.
    """
    common = dict(zip(COMMON, latent.T, strict=False))
    size = size_of(kind, common["size"])
    found: dict[str, Real] = {"size": np.exp(size)}
    for each, own in zip(parameters(kind), latent.T[len(COMMON) :], strict=True):
        shared = common[each.group] if each.group else 0.0
        found[each.key] = each.value(size=size, latent=own, shared=shared)
    return found


def latents(kind: MachineKind, known: Figures) -> Floats:
    """Variates of a machine with these figures, of the size that its mass has [-]."""
    size = np.log(known["total"] / STANDARD_MASS) / 3.0
    first = (3.0 * size - np.log(kind.of.mass / STANDARD_MASS)) / kind.of.spread
    own = [each.latent(known[each.key], size=size) for each in parameters(kind)]
    return np.array([first, 0.0, 0.0, *own])
