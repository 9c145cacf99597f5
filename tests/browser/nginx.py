"""The real nginx, on the configuration that the build wrote, under the path for which the site was built."""

import re
import shutil
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from generator.site import servers
from tests.waiting import free_port, is_answered, until

SERVER = """
user root;
pid {work}/nginx.pid;
error_log {work}/error.log;
events {{}}
http {{
    access_log off;
    client_body_temp_path {work}/body; proxy_temp_path {work}/proxy; fastcgi_temp_path {work}/fastcgi;
    uwsgi_temp_path {work}/uwsgi; scgi_temp_path {work}/scgi;
    server {{
        listen 127.0.0.1:{port};
        include {work}/handbook.conf;
    }}
}}
"""


def nginx_path() -> str | None:
    return shutil.which("nginx") or shutil.which("nginx", path="/usr/sbin")


def sub_path_of(site: Path) -> str:
    """The path under which the site was built to stand, as its configuration says."""
    found = re.search(r"location \^~ (\S+) \{", (site / servers.FOLDER / "nginx.conf").read_text("utf-8"))
    assert found
    return found[1]


@contextmanager
def serving(site: Path, program: str, work: Path) -> Iterator[str]:
    """The address of a copy of the site in the empty folder `work`, with a slash at its end.

    In the configuration one thing is changed, the one that a technician changes: where the files are.
    """
    work.chmod(0o755)
    shutil.copytree(site, work / "copy")
    config = (work / "copy" / servers.FOLDER / "nginx.conf").read_text("utf-8")
    (work / "handbook.conf").write_text(config.replace(servers.PLACE, str(work / "copy")), "utf-8")
    port = free_port()
    (work / "nginx.conf").write_text(SERVER.format(work=work, port=port), "utf-8")
    process = subprocess.Popen([program, "-p", str(work), "-c", "nginx.conf", "-g", "daemon off;"])
    try:
        until(lambda: is_answered(port))
        yield f"http://127.0.0.1:{port}{sub_path_of(site)}"
    finally:
        process.terminate()
        process.wait()
