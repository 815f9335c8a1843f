"""What was released of each truck's guide, when, by whom, and what had changed."""
