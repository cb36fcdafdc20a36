"""From shares and the price chart to lines, offers and totals."""

from scopegen.price.job import price
from scopegen.price.values import (
    Line,
    Offer,
    PaymentLine,
    Pays,
    Priced,
    SiteShare,
    SpoilTotal,
    Step,
    Supply,
    TaxLine,
)

__all__ = [
    "Line", "Offer", "PaymentLine", "Pays", "Priced", "SiteShare", "SpoilTotal", "Step", "Supply", "TaxLine",
    "price",
]  # fmt: skip
