"""Amounts with their measures, exact from the office's keyboard to the printed card."""
