"""Reads the published files back and says whether they say what the guides say."""
