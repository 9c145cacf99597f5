"""Pictures of sharing: what to draw is worked out from the engine, how it is drawn is the affair of draw.py alone."""
