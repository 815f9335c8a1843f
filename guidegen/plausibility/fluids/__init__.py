"""What holds of oils, coolants and brake fluids."""
