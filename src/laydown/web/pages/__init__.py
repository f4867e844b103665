"""One module for each group of pages; each lists its doors."""
