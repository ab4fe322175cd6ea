"""From findings and figures to scores and awards, by fixed rules."""
