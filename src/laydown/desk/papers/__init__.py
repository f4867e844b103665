"""Jobs, products and sides, as files and in the shop's book."""
