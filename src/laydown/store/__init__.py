"""The shop's book: what is kept of jobs, plans, sessions and records, in SQLite or PostgreSQL."""
