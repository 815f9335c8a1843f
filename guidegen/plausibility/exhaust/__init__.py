"""What holds of DEF and regeneration."""
