"""One question, one module, one frozen answer."""
