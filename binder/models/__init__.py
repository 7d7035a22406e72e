"""What people write, and nothing computed."""
