"""The use cases, and the only code below the command line that opens files."""
