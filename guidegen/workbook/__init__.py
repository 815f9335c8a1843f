"""The fleet's specs as a workbook that the office's clerk fills in."""
