"""Gas line: what flows, where the pressure goes, what to change."""
