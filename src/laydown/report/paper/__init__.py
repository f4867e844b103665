"""What is printed: the booth card and the let-down sheet."""
