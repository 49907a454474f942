"""Holds the program against general-purpose rule libraries, over the same rules and trees.

    peers.py check PEERS LIBRARY COUNT    every answer on COUNT trees must be the same
    peers.py speed PEERS                  how many times faster the program is

PEERS is the program built from peers.cpp.
"""

import json
import pathlib
import shutil
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
LIBRARIES = ["json-rules-engine", "json-logic-js"]
SPEED_TREES = "2000"


def require_libraries():
    if shutil.which("node") is None:
        sys.exit("'node' is not installed, and the other libraries need it: install nodejs")
    for library in LIBRARIES:
        if not (HERE / "node_modules" / library).is_dir():
            sys.exit(f"'{library}' is not installed: run \"npm ci\" in {HERE}")


def judged(peers, task, library, count):
    """What judge.mjs prints."""
    with tempfile.NamedTemporaryFile(suffix=".json") as exported:
        subprocess.run([peers, "export", count], stdout=exported, check=True)
        command = ["node", str(HERE / "judge.mjs"), task, library, exported.name]
        return subprocess.run(command, stdout=subprocess.PIPE, check=True, text=True).stdout.strip()


def check(peers, library, count):
    print(f"{library}: {judged(peers, 'check', library, count)}")


def speed(peers):
    ran = subprocess.run([peers, "speed", SPEED_TREES], stdout=subprocess.PIPE, check=True)
    ours = json.loads(ran.stdout)
    print(f"Trees per second, {SPEED_TREES} trees over and over, one core, in this run:")
    print(f"  {'the program':<30}{ours['decide']:>14,.0f}")
    print(f"  {'the program, values cut before':<30}{ours['decide_cut']:>14,.0f}")
    for library in LIBRARIES:
        theirs = float(judged(peers, "speed", library, SPEED_TREES))
        print(f"  {library:<30}{theirs:>14,.0f}   the program is {ours['decide'] / theirs:,.0f} times "
              f"as fast, with values cut before {ours['decide_cut'] / theirs:,.0f} times")


if __name__ == "__main__":
    require_libraries()
    {"check": check, "speed": speed}[sys.argv[1]](*sys.argv[2:])
