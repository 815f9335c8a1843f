"""How procedures are written, so that a driver understands them at the truck."""
