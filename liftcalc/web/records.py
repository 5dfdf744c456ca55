"""Records of practice on a page: opened from the reader's own file, shown, saved again.

Nothing of them is kept on the server: a file's content lives as long as the visit.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from html import escape

from liftcalc.errors import InputError, printable
from liftcalc.files import LARGEST
from liftcalc.school.practice import BOX_DAYS, Judgement
from liftcalc.school.record import Attempt, Kept, lines, read
from liftcalc.web import html

TOLD, LETTERS, MOST_SKILLS = 10, 40, 60
"""Most unread lines, letters of a name and skills that are shown."""
FAR = math.log(2.0)
"""End of the line of bias: half, and twice [-]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened:
    """A record as it was opened: the name and content of its file, and what was read of it."""

    name: str
    content: bytes
    kept: Kept

    def with_more(self, attempts: Iterable[Attempt]) -> bytes:
        """Its content with attempts added; what could not be read stays as it is."""
        start = self.content
        if start and not start.endswith(b"\n"):
            start += b"\n"
        return start + lines(attempts).encode()


def open_record(name: str, content: bytes) -> Opened:
    """A record from a file.

    Raises ``InputError`` when nothing in it is an attempt.
    """
    shown = printable(name, LETTERS)
    if len(content) > LARGEST:
        raise _refused(shown, f"{len(content)} bytes")
    kept = read(content)
    if not kept.attempts:
        raise _refused(
            shown, printable(kept.unread[0], LETTERS) if kept.unread else "an empty file"
        )
    return Opened(name=name, content=content, kept=kept)


def _refused(name: str, understood: str) -> InputError:
    return InputError.of(
        field="record",
        given=f'"{name}"',
        understood=understood,
        wanted="a record that these pages or the command line have saved",
        fix="choose another file",
    )


def unread_block(kept: Kept) -> str:
    """The lines of a file that could not be read."""
    if not kept.unread:
        return ""
    some = [printable(each, 120) for each in kept.unread[:TOLD]]
    if len(kept.unread) > TOLD:
        some.append(f"and {len(kept.unread) - TOLD} more")
    return f'<p class="lc-fault">Not all of that file could be read.</p>{html.bullets(some)}'


def judgement_table(judged: Sequence[Judgement], *, now: datetime) -> str:
    """Every skill: where guesses lie about the truth, how many erred on the unsafe side."""
    rows = "".join(_row(each, now) for each in judged[:MOST_SKILLS])
    skill = "Skill, and where guesses lie: half … true … twice"
    return html.table((skill, "On the unsafe side"), rows)


def _row(each: Judgement, now: datetime) -> str:
    wrong = round(each.unsafe * each.attempts)
    shown = f"{wrong} of {each.attempts}"
    unsafe = f'<span class="lc-unsafe">{shown}</span>' if wrong else shown
    due = "due now" if each.due <= now else f"due {each.due.date().isoformat()}"
    return (
        f'<tr><th scope="row">{escape(printable(each.skill, LETTERS))}'
        f"<small>{escape(each.said[:200])} Box {each.box} of {len(BOX_DAYS)}, {due}.</small>"
        f"{_bias(each)}</th><td>{unsafe}</td></tr>"
    )


def _bias(each: Judgement) -> str:
    """The mean as a dot on a line from half to twice, its mean size as a bar."""
    if each.bias is None or each.spread is None:
        return ""

    def place(value: float) -> float:
        return 50 + 50 * min(max(value / FAR, -1.0), 1.0)

    low, high = place(each.bias - each.spread), place(each.bias + each.spread)
    return (
        f'<span class="lc-bias" aria-hidden="true"><i style="left:{low:.1f}%;'
        f'width:{high - low:.1f}%"></i><b style="left:{place(each.bias):.1f}%"></b></span>'
    )
