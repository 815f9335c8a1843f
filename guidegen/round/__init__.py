"""The inspection round: one order of the checks that can be walked, and why."""
