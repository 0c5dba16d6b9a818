"""Spec and packs become a plan: expansion, expected values, order of work, kit, gear inventory."""
