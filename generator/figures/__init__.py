"""Pictures of sharing: what to draw is worked out from the engine (spec), how it is drawn is draw's affair alone."""
