"""A checked or priced job for the office: as JSON for other programs, and as text for a terminal."""
