"""What a unit is now, folded from its entries."""
