"""What a function gave for a machine, remembered by which machine it is."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache, wraps
from typing import Any

import numpy as np

from liftcalc.machines.schema import Table


class ByIdentity:
    """Lets a table of a machine stand in a cache by identity: tables do not hash quickly."""

    __slots__ = ("table",)

    def __init__(self, table: Table) -> None:
        self.table = table

    def __hash__(self) -> int:
        return id(self.table)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, ByIdentity) and other.table is self.table


def remembered(maxsize: int) -> Callable[[Callable[..., Any]], Callable[..., Any]]:
    """Remember what a function gave for machine tables, by their identity, and other values."""

    def decorate(function: Callable[..., Any]) -> Callable[..., Any]:
        @lru_cache(maxsize=maxsize)
        def kept(*keys: Any, **named: Any) -> Any:
            return function(*map(_table, keys), **{n: _table(k) for n, k in named.items()})

        @wraps(function)
        def call(*given: Any, **named: Any) -> Any:
            for each in (*given, *named.values()):
                if each.__class__ is np.ndarray:  # arrays are not remembered
                    return function(*given, **named)
            return kept(*map(_key, given), **{name: _key(each) for name, each in named.items()})

        return call

    return decorate


def _key(given: Any) -> Any:
    if given.__class__ is tuple:
        return tuple(map(_key, given))
    return ByIdentity(given) if isinstance(given, Table) else given


def _table(key: Any) -> Any:
    if key.__class__ is tuple:
        return tuple(map(_table, key))
    return key.table if key.__class__ is ByIdentity else key
