"""One spec per truck in, one proved quick guide per truck out."""

__version__ = "26.1.0"
