"""What the planner starts from: field, paint, gun settings, weights."""
