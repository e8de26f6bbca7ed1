"""Agreement of this program with figures that others have published."""
