"""What is weighed: recipes, batches, paint classes, pouring."""
