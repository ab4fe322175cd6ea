"""The Shelf place: every line-up that was ever planned, and the ways to begin."""
