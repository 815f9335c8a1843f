"""What holds of the block heater."""
