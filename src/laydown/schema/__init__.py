"""The nouns: what a job, a product, a side and a plan are. Frozen, without arithmetic."""
