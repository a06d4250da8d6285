"""The queen's walk: day by day, how likely she is in each stage from sealed cell to laying."""
