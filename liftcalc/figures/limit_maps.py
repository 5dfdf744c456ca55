"""Where the back end can lift: the map from the side, the map from above, or both on one sheet."""

from __future__ import annotations

from itertools import chain

from matplotlib.figure import Figure

from liftcalc.evaluation.answer import Answer
from liftcalc.figures.envelope import side_map
from liftcalc.figures.sheet import heading, sheet
from liftcalc.figures.slew_map import plan_map
from liftcalc.figures.text import notes
from liftcalc.maps.limits import BackLimits
from liftcalc.reports.map_words import map_heading
from liftcalc.reports.text import log_words, machine_words
from liftcalc.units import System

ACROSS = 0.179
"""Width of a room on the sheet [m]."""


def limit_maps(
    limits: BackLimits, answer: Answer, *, view: str = "", system: System = "metric"
) -> Figure:
    """The maps of the back end, to scale: the one of a ``view``, or all of them.

    The machine is drawn in the pose of ``answer``, which is that to ``limits.lift``.
    """
    maps = [each for each in limits.maps if view in ("", each.view)]
    makers = {"side": side_map, "plan": plan_map}
    drawings = [makers[each.view](limits, answer, system) for each in maps]
    # One tone for one load all over the sheet.
    lows, highs = zip(*(each.field.span for each in drawings), strict=True)
    span = min(lows), max(highs)
    log = log_words(limits.lift, system, for_log=limits.for_log)
    page = sheet(
        title="Where it can lift with the back end",
        about=f"{machine_words(limits.lift, system)}. {log}",
        notes=[*chain.from_iterable(each.notes for each in drawings), *notes(*maps, system=system)],
        heights=[ACROSS * each.height for each in drawings],
        extra=0.009 if limits.for_log else 0.006,
    )
    for axes, made, drawing in zip(page.rooms, maps, drawings, strict=True):
        heading(axes, map_heading(made, system))
        drawing.draw(axes, system, span=span)
    return page.figure
