"""How the work is done, before it is fitted to a truck."""
