"""What holds of tires and axles."""
