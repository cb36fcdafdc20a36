"""The papers: each module composes one kind of paper as a document value."""
