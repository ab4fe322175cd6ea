"""The Line-up place: who stands in it, and what will be asked."""
