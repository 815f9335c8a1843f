"""Which cards were printed for each truck, and which of them are out of date."""
