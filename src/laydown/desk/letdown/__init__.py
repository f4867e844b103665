"""The let-down panel of a job: its sheet, what was ticked and measured."""
