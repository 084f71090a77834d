"""Hostile pictures: read within two seconds and 300 MB, or refused in one sentence."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import photographs
import pytest
from photographs import READ, READERS, REFUSED
from test_files import WAIT, faults, linux

pytestmark = pytest.mark.gate

HERE = Path(__file__).parent


@pytest.fixture(scope="module", name="album")
def fixture_album(tmp_path_factory):
    """Make the pictures in a process of its own: some take much memory to make."""
    folder = tmp_path_factory.mktemp("album")
    code = "import sys, pathlib, photographs; photographs.make(pathlib.Path(sys.argv[1]))"
    command = [sys.executable, "-c", code, str(folder / "pictures")]
    subprocess.run(command, cwd=HERE, check=True, timeout=WAIT)
    return folder


@linux
@pytest.mark.parametrize("reader", READERS)
def test_a_strangers_picture_is_read_in_bounds_or_refused(reader, album):
    tripwire = album / "tripwire"
    tripwire.write_bytes(b"untouched")
    before = sorted((path.name, path.stat().st_size) for path in album.rglob("*"))
    run = subprocess.run(
        [sys.executable, photographs.__file__, reader, str(album / "pictures")],
        capture_output=True, text=True, check=False, timeout=WAIT, cwd=album,
    )  # fmt: skip
    found = {one["what"]: one for one in map(json.loads, run.stdout.splitlines())}
    assert set(found) == set(REFUSED | READ), run.stderr[-2000:]
    wrong = faults(found, set(READ))
    assert not wrong, "\n".join(wrong)
    assert tripwire.read_bytes() == b"untouched"
    assert sorted((path.name, path.stat().st_size) for path in album.rglob("*")) == before
