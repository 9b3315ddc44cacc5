"""Tests of windows run without a screen unless they are given one."""

from __future__ import annotations

import os
import sys

if sys.platform == "linux" and not (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")):
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
