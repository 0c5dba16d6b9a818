"""What a vessel is: the models of every key of the spec."""

from plangen.spec.model.base import Equipment, Item, OfKind, RefersTo, Singular, SpecModel
from plangen.spec.model.spec import Spec

__all__ = ["Equipment", "Item", "OfKind", "RefersTo", "Singular", "Spec", "SpecModel"]
