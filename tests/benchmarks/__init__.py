"""How long the program takes and how much memory, beside what it cannot do without."""
