"""The page "Instructor": records of practice, side by side; no marks, no certificate."""

from __future__ import annotations

from datetime import UTC, datetime
from html import escape

import streamlit as st

from liftcalc.errors import InputError, printable
from liftcalc.reports.school_text import NO_CERTIFICATE
from liftcalc.school.lesson import CAUTION
from liftcalc.school.practice import judgement, next_drill
from liftcalc.school.record import csv_of
from liftcalc.web import html
from liftcalc.web.lesson import STYLE, plainly
from liftcalc.web.page_frame import PRESSED, opened, save_button
from liftcalc.web.records import LETTERS, Opened, judgement_table, open_record, unread_block

MOST = 60
"""Records that are opened at once at most."""


def page() -> None:
    """Draw the page."""
    opened("Instructor", "")
    st.html(STYLE)
    plainly(_records)


def _records() -> None:
    st.html(f'<p class="lc-question">{escape(NO_CERTIFICATE)}</p>')
    st.html(f'<p class="lc-caution">{escape(CAUTION)}</p>')
    given = st.file_uploader(
        "Records of practice", accept_multiple_files=True, key=f"{PRESSED}records"
    )
    st.html(
        '<p class="lc-help">Files that learners saved themselves. They are read for this visit '
        "only; nothing is kept, nothing is sent anywhere.</p>"
    )
    records = _opened([(each.name, each.getvalue()) for each in given[:MOST]])
    if records:
        show_records(records)


def _opened(files: list[tuple[str, bytes]]) -> list[Opened]:
    """Those that are records; of the others it is said why not."""
    found = []
    for name, content in files:
        try:
            found.append(open_record(name, content))
        except InputError as error:
            st.html("".join(html.fault_line(each) for each in error.faults))
    return found


def show_records(records: list[Opened]) -> None:
    """All records in a table, and one of them in full."""
    rows = "".join(_row(each) for each in records)
    st.html(html.table(("Record", "Attempts", "On the unsafe side"), rows))
    # Two files may have one name.
    number = st.selectbox(
        "Record to look at",
        range(len(records)),
        key=f"{PRESSED}record",
        format_func=lambda place: f"{place + 1}: {printable(records[place].name, LETTERS)}",
    )
    _one(records[number])


def _row(each: Opened) -> str:
    attempts = each.kept.attempts
    unsafe = sum(one.unsafe for one in attempts)
    span = f"{attempts[0].at.date()} to {attempts[-1].at.date()}"
    return (
        f'<tr><th scope="row">{escape(printable(each.name, LETTERS))}<small>{span}</small></th>'
        f"<td>{len(attempts)}</td><td>{unsafe}</td></tr>"
    )


def _one(record: Opened) -> None:
    attempts, now = record.kept.attempts, datetime.now(UTC)
    drill = next_drill(attempts, now=now, seed=0)
    table = judgement_table(judgement(attempts), now=now)
    following = f"<p>Next: {escape(drill.lesson.title)}. {escape(drill.why)}</p>"
    st.html(unread_block(record.kept) + html.part("Where judgement stands", following + table))
    with st.container(horizontal=True):
        save_button("Save all attempts (CSV)", csv_of(attempts), "practice.csv", "record/csv")
        wanted = st.button("Make a one-page summary", key=f"{PRESSED}record/page")
    if wanted:
        from liftcalc.figures.saving import picture  # noqa: PLC0415 - slow to load, rarely wanted
        from liftcalc.figures.school_summary import summary_page  # noqa: PLC0415

        with st.spinner("Drawing the page …"):
            made = picture(summary_page(attempts, now=now, record=record.name), "pdf")
        save_button("Save the summary (PDF)", made, "practice.pdf", "record/pdf")
