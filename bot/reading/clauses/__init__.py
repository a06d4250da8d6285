"""The clauses: elements grouped into units and what is said of them, with their yard and day."""
