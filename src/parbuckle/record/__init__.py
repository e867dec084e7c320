"""What happened: dives as they were logged, read from open formats and from a slate, and held against their limits."""
