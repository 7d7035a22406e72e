"""Topic."""
