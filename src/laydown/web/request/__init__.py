"""Who calls, what a form says, and how an answer is rendered."""
