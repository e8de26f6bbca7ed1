"""What gas is made of and how much of it flows."""
