"""Sharing with golden beads, worked out: pure, standard library only, knows no lesson and no page."""
