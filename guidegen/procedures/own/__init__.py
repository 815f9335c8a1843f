"""A fleet's own procedures and steps, beside those of the library and in the place of some."""
