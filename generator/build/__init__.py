"""A build from top to bottom (straight_line.py), and all that makes it fast or safe."""
