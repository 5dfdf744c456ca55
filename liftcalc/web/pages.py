"""Every page of the app, in the order in which they are offered."""

from __future__ import annotations

from typing import Any

import streamlit as st

from liftcalc.web import check


def pages() -> list[Any]:
    """The pages; the first is where the app opens."""
    return [st.Page(check.page, title="Check a lift", url_path="check", default=True)]
