"""The Bench: the specimen in front, what is asked of it, and what came in."""
