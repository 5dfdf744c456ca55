"""A record of practice on one sheet of A4: where judgement errs, and what comes next.

It is no certificate: it names nobody and grants nothing, and says so.
"""

from __future__ import annotations

import math
import textwrap
from collections.abc import Sequence
from datetime import datetime

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from liftcalc.errors import printable
from liftcalc.figures.sheet import FAINT, INK, SOFT
from liftcalc.reports.school_text import NO_CERTIFICATE
from liftcalc.school.lesson import CAUTION
from liftcalc.school.practice import BOX_DAYS, Judgement, judgement, next_drill, span
from liftcalc.school.record import Attempt
from liftcalc.units import INCH

WIDE, TALL, EDGE = 0.210, 0.297, 0.014
"""A4 and its free edge [m]."""
ROWS = 26
"""Skills on the sheet; those beyond need practice least and are only counted."""
ROW = 0.0076
"""Height of a row [m]."""
FAR = math.log(2.0)
"""End of the axis of bias: half, and twice [-]."""
WARN = "#a3260f"


def summary_page(attempts: Sequence[Attempt], *, now: datetime, record: str = "") -> Figure:
    """A record of one attempt or more on one sheet.

    ``now``, with its time zone, decides what is due; ``record`` is the name of the file, as a
    heading: no path and no person.
    """
    judged = judgement(attempts)
    figure = Figure(figsize=(WIDE / INCH, TALL / INCH))
    figure.set_facecolor("#ffffff")
    unsafe = sum(each.unsafe for each in attempts)
    _put(figure, EDGE, TALL - 0.02, "Where judgement stands", size=17, bold=True)
    _put(figure, EDGE, TALL - 0.0275, NO_CERTIFICATE, size=9.5, bold=True)
    about = f"{span(attempts)}, {unsafe} on the unsafe side; {len(judged)} skills. "
    about += f"Record: {printable(record, 60)}." if record else ""
    _put(figure, EDGE, TALL - 0.0335, about, size=8.5, tone=SOFT)
    shown = judged[:ROWS]
    top = TALL - 0.047
    _table(figure, shown, top)
    below = top - ROW * (len(shown) + 0.6) - 0.005
    for text, bold in _words(judged, attempts, now):
        for line in textwrap.wrap(text, 118 if not bold else 106):
            _put(figure, EDGE, below, line, size=8.2, bold=bold, tone=INK)
            below -= 0.0042
        below -= 0.0016
    return figure


def _put(
    figure: Figure,
    left: float,
    up: float,
    text: str,
    *,
    size: float,
    bold: bool = False,
    tone: str = INK,
    align: str = "left",
) -> None:
    figure.text(
        left / WIDE,
        up / TALL,
        text.replace("$", r"\$"),
        fontsize=size,
        color=tone,
        ha=align,
        va="baseline",
        fontweight="bold" if bold else "normal",
    )


COLUMNS = (
    (0.014, "skill", "left"), (0.066, "tries", "right"), (0.078, "score", "right"),
    (0.1085, "guesses: half … true … twice", "center"), (0.150, "unsafe", "right"),
    (0.154, "trend", "left"), (0.169, "box, due", "left"),
)  # fmt: skip
AXIS = (0.083, 0.134)
"""Left and right end of the axis of bias on the sheet [m]."""


def _table(figure: Figure, judged: Sequence[Judgement], top: float) -> None:
    for left, head, align in COLUMNS:
        _put(figure, left, top, head, size=7.6, bold=True, tone=SOFT, align=align)
    high = top - 0.35 * ROW
    low = high - ROW * len(judged)
    axes = figure.add_axes(
        (AXIS[0] / WIDE, low / TALL, (AXIS[1] - AXIS[0]) / WIDE, (high - low) / TALL)
    )
    axes.set_xlim(-FAR, FAR)
    axes.set_ylim(len(judged), 0)
    axes.set_axis_off()
    for at, wide in ((-FAR, 0.5), (0.0, 1.1), (FAR, 0.5)):
        axes.plot([at, at], [0, len(judged)], color=INK if at == 0 else FAINT, linewidth=wide)
    for number, each in enumerate(judged):
        up = high - ROW * (number + 0.64)
        _row(figure, each, up)
        _dot(axes, each, number + 0.5)


def _row(figure: Figure, each: Judgement, up: float) -> None:
    trend = "–"
    if each.trend is not None:
        steady = abs(each.trend) < 0.05
        trend = "steady" if steady else "better" if each.trend > 0 else "worse"
    wrong = round(each.unsafe * each.attempts)
    told = (
        printable(each.skill, 28),
        str(each.attempts),
        f"{each.score:.2f}",
        "" if each.bias is not None else "no number",
        f"{wrong} of {each.attempts}",
        trend,
        f"{each.box} of {len(BOX_DAYS)}, {each.due.date()}",
    )
    for (at, _, align), text in zip(COLUMNS, told, strict=True):
        warn = text == told[4] and wrong > 0
        left = AXIS[0] + 0.009 if align == "center" else at  # beside the middle line
        _put(
            figure,
            left,
            up,
            text,
            size=7.4 if align != "center" else 6.6,
            align=align,
            tone=WARN if warn else INK,
            bold=warn,
        )


def _dot(axes: Axes, each: Judgement, at: float) -> None:
    """Mean of the guesses as a dot, their mean size of error as a bar to both sides of it."""
    if each.bias is None or each.spread is None:
        return
    bias = min(max(each.bias, -FAR), FAR)
    low, high = (min(max(bias + sign * each.spread, -FAR), FAR) for sign in (-1, 1))
    axes.plot([low, high], [at, at], color=SOFT, linewidth=2.2, solid_capstyle="butt")
    beyond = abs(each.bias) > FAR
    axes.plot(
        [bias],
        [at],
        marker=("<" if bias < 0 else ">") if beyond else "o",
        markersize=5,
        color=INK,
        clip_on=False,
    )


def _words(
    judged: Sequence[Judgement], attempts: Sequence[Attempt], now: datetime
) -> list[tuple[str, bool]]:
    drill = next_drill(attempts, now=now, seed=0)
    said = [(f"Next: {drill.lesson.title}. {drill.why}", True)]
    due = [each.skill for each in judged if each.due <= now]
    if due:
        named = ", ".join(printable(each, 28) for each in due[:8])
        said.append((f"Due now: {named}{' and more' if len(due) > 8 else ''}.", False))
    if len(judged) > ROWS:
        said.append(
            (f"{len(judged) - ROWS} more skills, which need it least, are not shown.", False)
        )
    said += [
        (
            "The dot is the mean of ln(guess/true), the bar to both sides its mean size: right of "
            "the middle line guesses are high. Unsafe: a capacity guessed too high or a load too "
            "low, by more than the tolerance; or a lift let go that may not.",
            False,
        ),
        (
            "Spaced by boxes after S. Leitner: what is known rests longer, what is missed, or errs "
            "on the unsafe side, goes back to the first box. Scores are a scale of this course.",
            False,
        ),
        (CAUTION, True),
    ]
    return said
