"""What can be typed after ``guidegen``, by what it is about."""
