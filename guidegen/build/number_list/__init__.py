"""Every number that comes from the library and not from a fleet's specs, for a reviewer."""
