"""Long work in steps: how far it is, and a button that stops it between two of them.

While a page works, pressing a button makes it start anew at its next step; a page that was stopped
then says so and waits. What was found is kept until something else is asked.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import streamlit as st

from liftcalc.web.page_frame import PRESSED


class Work:
    """The steps of one question.

    ``name`` tells one page's work from another's, ``sign`` one question from the next; ``steps``
    is how many there are. Drawn where it is made; nothing is left of it when it is ``done``.
    """

    def __init__(self, name: str, sign: object, *, steps: int) -> None:
        self.name, self.sign, self.steps, self.step = name, repr(sign), steps, 0
        self.place: Any = st.empty()
        self.bar: Any = None
        kept = st.session_state.get(f"{PRESSED}found/{name}")
        self.found: dict[str, Any] = kept[1] if kept is not None and kept[0] == self.sign else {}
        st.session_state[f"{PRESSED}found/{name}"] = (self.sign, self.found)

    def stopped(self) -> bool:
        """Whether it was stopped; a button to go on is drawn then."""
        stop = f"{PRESSED}stopped/{self.name}"
        if st.session_state.get(stop) != self.sign:
            return False
        with self.place.container():
            st.html('<p class="lc-fault" role="status">Stopped: there is no answer.</p>')
            st.button("Go on", key=f"{PRESSED}go-on/{self.name}", on_click=_forget, args=(stop,))
        return True

    def do(self, words: str, step: Callable[[], Any]) -> Any:
        """Take a step, unless what it gives is known; words say what is being done."""
        if words not in self.found:
            self._show(words)
            try:
                self.found[words] = step()
            except BaseException:
                self.place.empty()
                raise
        self.step += 1
        return self.found[words]

    def _show(self, words: str) -> None:
        share = min(self.step / self.steps, 1.0)
        if self.bar is None:
            with self.place.container():
                self.bar = st.progress(share, text=words)
                stop = f"{PRESSED}stopped/{self.name}"
                st.button(
                    "Stop this work",
                    key=f"{PRESSED}stop/{self.name}",
                    on_click=_stop,
                    args=(stop, self.sign),
                )
        self.bar.progress(share, text=words)

    def done(self) -> None:
        """All steps are taken."""
        self.place.empty()


def _stop(key: str, sign: object) -> None:
    st.session_state[key] = sign


def _forget(key: str) -> None:
    del st.session_state[key]
