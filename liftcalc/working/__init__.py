"""How an answer's working reads."""
