"""The shape of a job description."""

from scopegen.job.bed import Bed, EveryBed, FoundPart
from scopegen.job.decisions import BED_DECISIONS, DECISIONS, SITE_DECISIONS, WAYS, MaterialPart, Part
from scopegen.job.job import Billed, Customer, Job, OnHand, Payment, Site, Visit
from scopegen.job.shape import NamedShape

__all__ = [
    "BED_DECISIONS", "DECISIONS", "SITE_DECISIONS", "WAYS",
    "Bed", "Billed", "Customer", "EveryBed", "FoundPart", "Job", "MaterialPart", "NamedShape", "OnHand",
    "Part", "Payment", "Site", "Visit",
]  # fmt: skip
