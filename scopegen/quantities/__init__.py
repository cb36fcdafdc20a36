"""Lengths, areas, volumes, weights, rates, money, percentages: parsing, exact units, the one rounding step."""
