"""How a shelf's file came to have its tables, one small step a file."""
