"""What holds of tanks and amounts."""
