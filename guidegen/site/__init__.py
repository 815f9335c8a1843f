"""From guides to the pages of the fleet's site, as values; no files, no site engine."""
