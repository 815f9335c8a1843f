"""Drawings of a truck's own gauges, marks and wheels."""
