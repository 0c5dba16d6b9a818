"""The digest by which two papers are told to be of the same plan."""

from __future__ import annotations

import hashlib
import json

from plangen.plan.model import Plan


def with_digest(plan: Plan) -> Plan:
    """Return the plan with the SHA-256 digest, in hexadecimal, of all that stands in it."""
    return plan.model_copy(update={"digest": digest_of(plan)})


def digest_of(plan: Plan) -> str:
    """Return the digest of a plan's content, whatever it was made from."""
    content = {key: value for key, value in plan.plain().items() if key != "digest"}
    text = json.dumps(content, ensure_ascii=False, separators=(",", ":"))
    return hashlib.sha256(text.encode()).hexdigest()
