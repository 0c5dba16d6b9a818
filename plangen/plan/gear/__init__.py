"""What the law of her flag and waters demands aboard, merged to one inventory."""
