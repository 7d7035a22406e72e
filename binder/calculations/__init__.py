"""Pure functions by topic: quantities in, quantities out."""
