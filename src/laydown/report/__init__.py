"""Pictures and paper; a picture never computes."""
