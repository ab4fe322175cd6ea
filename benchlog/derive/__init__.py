"""Numbers from numbers; each can show its sum."""
