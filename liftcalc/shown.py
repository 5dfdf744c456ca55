"""How a record shows itself: in one line, and in a notebook whole, with its drawing.

Words and drawings are made far above the rooms that hold the records. They are loaded when somebody
looks, so that a room that computes does not wait for them.
"""

from __future__ import annotations


class Shown:
    """A record that is worth looking at; a dataclass of it says ``repr=False``."""

    __slots__ = ()

    def __repr__(self) -> str:
        """The record in one line."""
        from liftcalc.reports.line import line  # noqa: PLC0415 - see the module

        return f"<{type(self).__name__}: {line(self)}>"

    def _repr_html_(self) -> str | None:
        """What a notebook shows in the place of the line; None leaves it at that."""
        from liftcalc.figures.notebook import card  # noqa: PLC0415 - see the module

        return card(self)
