"""The inputs of the pages, in the order in which a lift is thought of."""

from __future__ import annotations

from itertools import groupby
from pathlib import Path
from typing import Any

import streamlit as st

from liftcalc.errors import InputError
from liftcalc.requests.fields import LiftRequest, fields_of
from liftcalc.requests.fields_of_commands import CompareRequest
from liftcalc.requests.lift import as_lift
from liftcalc.requests.lift_file import SUFFIX, parameters, write
from liftcalc.requests.sections import PLACE
from liftcalc.web import html, state
from liftcalc.web.form import Form
from liftcalc.web.page_frame import PRESSED, save_button


def ask(record: type = LiftRequest, *, place: bool = True, **said: Any) -> Form:
    """Draw the inputs of a record.

    Without ``place`` the page asks for the place itself, as for what it has ``said``.
    """
    form = Form(record=record, said=said)
    st.html(html.INPUTS)
    asked = (row for row in fields_of(record) if row.name not in said)
    for group, some in groupby(asked, key=lambda row: row.section.group):
        rows = list(some)
        if (place or group != PLACE.group) and any(form.applies(row) for row in rows):
            st.subheader(group, anchor=False)
            form.group(rows)
    if place and record is not CompareRequest:
        state.say(as_lift(form.request()))
        keep_lift()
    return form


def keep_lift() -> None:
    """Save the lift, open another, and a link to it."""
    now = state.kept()
    said, turn = now.said, now.generation

    def _written() -> str:
        # When the button is pressed: the hook may have been moved since this was drawn.
        return write(now.said)

    with st.expander("Save, open or link this lift"):
        try:
            write(said)
            name = f"{Path(said.machine).stem or 'my'}{SUFFIX}"
            save_button("Save this lift", _written, name, "save-lift")
        except InputError:
            st.markdown("It cannot be saved: one of its texts is too long.")
        opened = f"{PRESSED}open-lift/{turn}"
        st.file_uploader(
            "Open a lift",
            type="toml",
            key=opened,
            max_upload_size=1,
            on_change=_open,
            args=(opened,),
        )
        try:
            parameters(said)
        except InputError:
            st.markdown("A lift with a machine file of your own cannot be linked: save it.")
        else:
            st.button("Link to this lift", key=f"{PRESSED}link", on_click=_link)
            if state.kept().linked:
                st.markdown("The address of this page holds the lift: copy it.")


def _open(key: str) -> None:
    file = st.session_state[key]
    if file is not None:
        state.open_text(file.getvalue(), file=file.name)


def _link() -> None:
    state.kept().linked = True
