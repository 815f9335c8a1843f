"""Everything for one truck, before any rendering."""
