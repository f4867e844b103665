"""Sides of vehicles: shapes, panels, features, how far each layer reaches."""
