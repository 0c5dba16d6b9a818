"""What a cell of a table holds, and what makes it a formula."""

from __future__ import annotations

import datetime
import re
from decimal import Decimal

Value = str | int | float | Decimal | datetime.date | None

#: A cell that begins so is a formula to some spreadsheet.
FORMULA = re.compile(r"^(?=[=+\-@\t\r\n\uff1d\uff0b\uff0d\uff20])")
