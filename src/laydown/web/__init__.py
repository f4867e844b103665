"""The pages: what the desk can do, in a browser on the shop floor."""
