"""Pages and notes that people wrote: filled in by the engine, and held against what a page may hold."""
