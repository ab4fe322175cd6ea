"""The Verdict place: scores, awards, sums and readings, worked out and shown."""
