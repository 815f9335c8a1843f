"""What holds of year, height and weight ratings."""
