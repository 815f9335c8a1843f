"""What is other about a truck for a driver who knows another one."""
