"""One spec per truck in, one proved quick guide per truck out."""

import guidegen.pickling  # noqa: F401  -- whatever is imported of us can then be pickled

__version__ = "26.1.0"
