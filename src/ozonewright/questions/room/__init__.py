"""Room: how much ozone people breathe when some of it gets out, and how much oxygen collects."""
