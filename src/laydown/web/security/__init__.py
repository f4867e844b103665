"""Keys, certificates, passwords, and what is refused at the door."""
