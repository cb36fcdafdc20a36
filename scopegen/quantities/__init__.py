"""Lengths, areas, volumes, weights, rates, money: parsing, exact units, the one rounding step."""
