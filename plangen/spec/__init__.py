"""What a vessel is: models, units, loading with line numbers, starter specs, open questions."""
