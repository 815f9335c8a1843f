"""What holds between the things that a truck has."""
