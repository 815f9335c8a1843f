"""What holds of the pressures of an air brake system."""
