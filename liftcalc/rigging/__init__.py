"""Slings, chains, grips, and how much of a log hangs on them."""
