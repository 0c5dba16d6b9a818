"""What the terminal says of the packs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.text import Text

from plangen.packs.stated import nameable
from plangen.terminal.console import console, errors, table_of

if TYPE_CHECKING:
    from plangen.packs.library import Library


def say_packs(library: Library) -> None:
    """Print the packs with their editions and what they hold."""
    table = table_of("system", "title", "edition", "rules", "sources", numbers=("rules", "sources"))
    for rules in library.rules:
        model = rules.model
        table.add_row(
            model.pack, Text(model.title), model.edition, str(len(model.checks)), str(len(model.sources))
        )
    console.print(table)
    shares = ("read", "second-hand", "from memory")
    law = table_of("law", "edition", "demands", *shares, numbers=("demands", *shares))
    for pack in library.law:
        entry = pack.model
        known = (f"{share:.0f} %" for share in entry.known_shares)
        law.add_row(entry.jurisdiction, entry.edition, str(len(entry.requires)), *known)
    console.print(law)
    for pack in library.law:
        texts = "; ".join(f"{one.title} ({one.current_to})" for one in pack.model.instruments.values())
        console.print(Text(f"{pack.model.title}: {texts}"), soft_wrap=True)
    stores = table_of("stores", "title", "edition", "items", numbers=("items",))
    for store in library.stores:
        stores.add_row(
            store.model.pack, Text(store.model.title), store.model.edition, str(len(store.model.items))
        )
    console.print(stores)


def say_ids(library: Library, word: str | None) -> bool:
    """Print the ids of rules, readings and requirements in which a word stands; tell whether there were any."""
    named = list(nameable(library, word or ""))
    for one in named:
        head = Text.assemble((one.id, "bold"), f"  {one.title}")
        console.print(head, soft_wrap=True)
        console.print(Text(f"    {one.about}"), soft_wrap=True)
        for reading, stated in one.readings:
            console.print(Text.assemble("    ", (reading, "bold"), f"  {stated}"), soft_wrap=True)
    if not named:
        errors.print(Text(f"nothing that can be named has {word!r} in it"))
    return bool(named)
