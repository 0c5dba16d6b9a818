"""A process that is killed while it writes leaves the old file or the new one, whole."""

from __future__ import annotations

import random
import signal
import subprocess
import sys
import time
from pathlib import Path

SIZE = 3_000_000
WRITER = f"""
import sys
from pathlib import Path
from plangen.files import write_whole
path = Path(sys.argv[1])
print("ready", flush=True)
while True:
    for letter in (b"a", b"b"):
        write_whole(path, letter * {SIZE})
"""


def test_killed_at_random_moments(tmp_path: Path) -> None:
    path = tmp_path / "findings.yaml"
    path.write_bytes(b"a" * SIZE)
    moments = random.Random(5)
    seen = set()
    for attempt in range(200):
        if attempt >= 8 and len(seen) == 2:
            break
        process = subprocess.Popen(
            [sys.executable, "-c", WRITER, str(path)], stdout=subprocess.PIPE, text=True
        )
        assert process.stdout is not None
        assert process.stdout.readline() == "ready\n"
        time.sleep(moments.uniform(0, 0.03 + 0.005 * attempt))
        process.send_signal(signal.SIGKILL)
        process.wait()
        process.stdout.close()
        content = path.read_bytes()
        assert content in (b"a" * SIZE, b"b" * SIZE)
        seen.add(content[:1])
    assert seen == {b"a", b"b"}
