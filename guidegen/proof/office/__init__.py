"""The proof of the pages for the office."""
