"""How an answer is drawn."""
