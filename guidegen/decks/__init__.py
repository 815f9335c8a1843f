"""What stands on each card of a truck, whatever it is printed with."""
