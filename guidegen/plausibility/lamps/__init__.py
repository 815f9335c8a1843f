"""What holds between warning lamps and what they warn of."""
