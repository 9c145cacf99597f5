"""Hold the sites that two commits build against each other, byte by byte: `python -m tests.same_site OLD NEW`.

Moves and renamings must leave every file as it was. Ends with 1 and lists the files that differ if they do not.
"""

import os
import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

from generator import PROJECT

_DATE = "1795000000"  # seconds since 1970; any fixed moment will do


def site_of(commit: str, folder: Path) -> dict[str, bytes]:
    """Build a commit in a folder of its own with today's packages; every file of its site by path."""
    copy, site = folder / commit.replace("/", "-"), folder / f"site-{commit.replace('/', '-')}"
    subprocess.run(["git", "worktree", "add", "--quiet", "--detach", copy, commit], cwd=PROJECT, check=True)
    try:
        order = [sys.executable, "-m", "generator", "build", "--quiet", "--out", str(site)]
        environment = {**os.environ, "SOURCE_DATE_EPOCH": _DATE}
        subprocess.run(order, cwd=copy, env=environment, check=True, stdout=subprocess.DEVNULL)
    finally:
        subprocess.run(["git", "worktree", "remove", "--force", copy], cwd=PROJECT, check=True)
    files = (file for file in site.rglob("*") if file.is_file())
    return {file.relative_to(site).as_posix(): file.read_bytes() for file in files}


def main(old: str, new: str) -> int:
    with TemporaryDirectory() as folder:
        before, after = site_of(old, Path(folder)), site_of(new, Path(folder))
    different = sorted(path for path in before.keys() | after.keys() if before.get(path) != after.get(path))
    print(*different, f"{len(different)} of {len(before.keys() | after.keys())} files differ", sep="\n")
    return bool(different)


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
