"""The fleet's site on this machine while its files are being edited."""
