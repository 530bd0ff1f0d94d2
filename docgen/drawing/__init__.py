"""Paper space as frozen records: pens, text, dimensions, leaders, views, tiles."""
