"""What each kind of generated page says."""
