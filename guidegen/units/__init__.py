"""Trucks with every value resolved, each with where it came from."""
