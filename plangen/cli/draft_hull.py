"""The process that drafts one hull of a folder: what is wanted comes in, what became of it goes out."""

from __future__ import annotations

import pickle
import sys
from pathlib import Path

from plangen.cli.draft_folder import Done, Wanted


def main() -> None:
    """Draft the hull that standard input names, and write what became of her to standard output."""
    out = sys.stdout.buffer
    sys.stdout = sys.stderr
    spec, wanted = pickle.load(sys.stdin.buffer)
    out.write(pickle.dumps(draft_hull(spec, wanted)))


def draft_hull(spec: Path, wanted: Wanted) -> Done:
    """Draft one hull into her folder, as `plangen draft SPEC` does."""
    from plangen import api
    from plangen.cli.draft import documents_of
    from plangen.cli.printing import paper_name
    from plangen.folder import folder_of, prepare, write_draft
    from plangen.print.pdf import PrintingUnavailable, write_pdf
    from plangen.print.without_printer import files_without_printer
    from plangen.spec.problems import InputProblems, Mark, Problem

    not_printed = ""
    try:
        boat = api.load_spec(spec, wanted.packs, wanted.house)
        earlier = api.earlier_hulls(boat, wanted.out)
        plan = api.draft(boat, wanted.units, wanted.instead, earlier)
        folder = folder_of(plan, wanted.out)
        prepared = prepare(plan, folder)
        papers = files_without_printer(plan)
        try:
            documents = documents_of(plan, paper_name(wanted.paper, plan)) if wanted.make_pdf else {}
            papers |= {name: write_pdf(document, plan.digest) for name, document in documents.items()}
        except PrintingUnavailable as reason:
            not_printed = str(reason)
        written = write_draft(plan, folder, papers, prepared)
        return Done(spec, plan, folder, written, not_printed=not_printed)
    except InputProblems as faults:
        return Done(spec, problems=faults.problems)
    except OSError as error:
        found = f"{error.filename or 'the system'}: {error.strerror or error}"
        return Done(spec, problems=(Problem(Mark(str(spec)), "", found),))
