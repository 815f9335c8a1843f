"""Whether a guide holds a procedure for everything that the law lists."""
