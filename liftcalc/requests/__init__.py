"""Typed words in, a lift out."""
