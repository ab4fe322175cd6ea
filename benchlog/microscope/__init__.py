"""Pictures in, quantities out."""
