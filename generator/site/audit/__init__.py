"""What would fail in front of a reader, found in the finished pages."""
