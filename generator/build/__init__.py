"""The straight line of a build, and beside it all that makes it fast or safe."""
