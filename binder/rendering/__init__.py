"""Text in, bytes out."""
