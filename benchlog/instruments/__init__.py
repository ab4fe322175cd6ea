"""Bench devices: bytes in, readings or faults out."""
