"""How the program says things: numbers, pieces, titles, slips."""
