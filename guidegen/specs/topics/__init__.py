"""The sections of a spec, one module a topic."""
