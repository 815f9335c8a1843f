"""What nobody has on record of a truck, and what that holds back."""
