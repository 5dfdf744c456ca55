"""The drawing that is dragged, without a browser: it is drawn, nothing comes back by itself."""

from __future__ import annotations

import pytest
from streamlit.testing.v1 import AppTest


def script(end: str, view: str) -> None:
    from dataclasses import replace

    import streamlit as st

    from liftcalc.evaluation.check import check
    from liftcalc.requests.demo import DEMO
    from liftcalc.requests.lift import parse_lift, without_sling
    from liftcalc.web.hook_widget import hook_widget
    from liftcalc.web.page_frame import keep

    keep()
    asked = replace(DEMO, end=end)
    if end == "front":
        asked = replace(without_sling(asked), attachment="", reach="", height="1.5 m", slew="")
    lift = parse_lift(asked).lift
    point = hook_widget(lift, check(lift), view=view, key="drawing", moved=st.session_state.update)
    st.text(f"returned: {point}")


@pytest.mark.parametrize("view", ["side", "plan"])
@pytest.mark.parametrize("end", ["back", "front"])
def test_it_is_drawn_and_drawn_again(end: str, view: str) -> None:
    page = AppTest.from_function(script, args=(end, view), default_timeout=30).run()
    for _ in range(2):
        assert not page.exception
        assert [each.value for each in page.text] == ["returned: None"]
        page.run()
