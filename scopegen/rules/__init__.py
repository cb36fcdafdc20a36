"""The rules: one module a family, each rule a frozen value in an explicit tuple."""

from scopegen.rules import (
    amounts,
    apart,
    cautions,
    contradictions,
    costs,
    dates,
    depths,
    fitting,
    found,
    measures,
    names,
    paying,
    pricing,
    supply,
    undecided,
    ways,
    wording,
)
from scopegen.rules.rule import Rule

RULES: tuple[Rule, ...] = (
    *undecided.RULES,
    *ways.RULES,
    *names.RULES,
    *measures.RULES,
    *found.RULES,
    *amounts.RULES,
    *contradictions.RULES,
    *cautions.RULES,
    *dates.RULES,
    *depths.RULES,
    *pricing.RULES,
    *fitting.RULES,
    *supply.RULES,
    *apart.RULES,
    *paying.RULES,
    *costs.RULES,
    *wording.RULES,
)

__all__ = ["RULES", "Rule"]
