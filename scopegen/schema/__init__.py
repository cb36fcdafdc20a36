"""The contractor's files as JSON Schema, for editors that complete keys and mark slips as they are typed."""

from scopegen.schema.schema import KINDS, schema_of

__all__ = ["KINDS", "schema_of"]
