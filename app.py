"""The app: its pages and nothing else."""

import streamlit as st

from liftcalc.web.pages import pages

st.navigation(pages()).run()
