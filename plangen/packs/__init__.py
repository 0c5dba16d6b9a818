"""What a rule pack is: models, loading, expressions and static checking."""
