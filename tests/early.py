"""What is settled before pytest reads its plugins (`-p` in `pyproject.toml`)."""

import os
import sys

# What is imported is compiled once: else every kernel and every server would do it anew,
# wherever somebody has told Python to keep nothing.
sys.dont_write_bytecode = False
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)

# As `kit.launch` does: a reader of addresses in all alphabets, a second in every process.
sys.modules.setdefault("rfc3987_syntax", None)
