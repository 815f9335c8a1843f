"""What the office and the makers state about trucks, as stated."""
