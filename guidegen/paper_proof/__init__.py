"""Printed matter, read back from its PDF and held against the guide."""
