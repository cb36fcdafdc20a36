"""From shares and the price chart to lines, offers and totals."""

from scopegen.price.job import price
from scopegen.price.values import Line, Offer, PaymentLine, Priced, SpoilTotal, Step, TaxLine

__all__ = ["Line", "Offer", "PaymentLine", "Priced", "SpoilTotal", "Step", "TaxLine", "price"]
