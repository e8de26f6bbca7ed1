"""From a known output to a dosed reaction: what the ozone does, how long, what comes out."""
