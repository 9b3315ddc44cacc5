"""The register numbers of manuals and the addresses on the wire."""

from __future__ import annotations

from typing import Literal

Table = Literal["coil", "discrete", "holding", "input"]
Numbering = Literal["from-0", "from-1", "prefixed"]
