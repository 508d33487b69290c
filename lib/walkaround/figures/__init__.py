"""Pictures of results: matplotlib only, no widgets, no files."""
