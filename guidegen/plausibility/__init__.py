"""Whether what is stated of a truck can be true of a truck."""
