"""Ask a running service for the dose that README shows: one_dose.py URL README. Fails unless the answer is 200."""

import json
import re
import sys
import time
import urllib.request
from pathlib import Path
from urllib.error import HTTPError, URLError

READY_S = 30


def wait_until_ready(url: str) -> None:
    """Ask until the service is up and says that it is ready."""
    deadline = time.monotonic() + READY_S
    while True:
        try:
            with urllib.request.urlopen(f"{url}/readyz", timeout=READY_S):
                return
        except (URLError, ConnectionError):
            if time.monotonic() > deadline:
                raise
            time.sleep(0.2)


def main(url: str, readme: str) -> None:
    """Send the body of README's first curl command to its path."""
    path, body = re.search(r"curl -s http://[^/]+(/\S+) .*?-d '(.*?)'", Path(readme).read_text(), re.DOTALL).groups()
    wait_until_ready(url)
    request = urllib.request.Request(f"{url}{path}", body.encode(), {"Content-Type": "application/json"})
    try:
        with urllib.request.urlopen(request, timeout=READY_S) as answer:
            status, told = answer.status, json.load(answer)
    except HTTPError as error:
        sys.exit(f"{error.code} for {path}: {error.read().decode()}")
    print(f"{status} for {path}: {', '.join(told)}")
    if status != 200 or not told["weigh"]:
        sys.exit(1)


if __name__ == "__main__":
    main(*sys.argv[1:])
