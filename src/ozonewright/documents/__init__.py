"""What a person writes down: text on one side, validated records on the other."""
