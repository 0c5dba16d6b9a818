"""What every part of the plan is built from."""

from __future__ import annotations

from pydantic import BaseModel, ConfigDict


class PlanModel(BaseModel):
    """A part of the plan."""

    model_config = ConfigDict(extra="forbid", frozen=True, defer_build=True)
