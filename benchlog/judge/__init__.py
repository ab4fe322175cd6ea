"""From findings and figures to scores and awards, by locked rules."""
