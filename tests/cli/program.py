"""What every test of the program shares: a scratch folder, an environment of its own in which
nothing reaches the home folder, and one way to run the program and look at how it ended."""

import csv
import io
import json
import os
import pathlib
import re
import subprocess
import sys
import tempfile
import unittest

DATA = pathlib.Path(__file__).resolve().parent / "data"

# The day that the test data are looked back upon, soon after its walk-arounds.
AS_OF = ["--as-of", "2026-06-25"]

# How the program ends, as the README gives it.
DONE, FINDING, USAGE, BAD_INPUT, BOOK = 0, 1, 2, 3, 4

# Generous: under the sanitizers, on a busy machine, a run can take many times its usual time.
LONGEST_RUN_SECONDS = 300

WIDEST_LINE = 80


class Ended:
    """How one run of the program ended."""

    def __init__(self, words, code, out, err):
        self.words = words
        self.code = code
        self.out = out
        self.err = err

    def __str__(self):
        return (f"{self.words}\nexit code {self.code}\n"
                f"--- output\n{self.out}\n--- errors\n{self.err}")

    def rows(self):
        """The output read as a CSV table: one dictionary a row."""
        return read_csv(self.out)

    def json(self):
        def refuse(word):
            raise ValueError(f"{word} is no number in JSON (RFC 8259, section 6)")

        return json.loads(self.out, parse_constant=refuse)


def read_csv(text):
    """Rows as dictionaries; fails for a row that is not as wide as the first (RFC 4180)."""
    rows = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    header = rows[0]
    for row in rows:
        if len(row) != len(header):
            raise ValueError(f"{len(row)} fields under {len(header)} columns: {row}")
    return [dict(zip(header, row)) for row in rows[1:]]


def program_path():
    return os.environ["ASHTRIAGE_PROGRAM"]


class ProgramTest(unittest.TestCase):
    maxDiff = None

    def setUp(self):
        scratch = tempfile.TemporaryDirectory(prefix="ashtriage-test-")
        self.addCleanup(scratch.cleanup)
        self.folder = pathlib.Path(scratch.name)
        self.home = self.folder / "home"
        self.home.mkdir()
        self.environment = {
            "PATH": os.environ["PATH"],
            "HOME": str(self.home),
            "XDG_DATA_HOME": str(self.home / "data"),
            "TERM": "xterm-256color",
            "LC_ALL": "C.UTF-8",
        }
        self.book = self.folder / "trees.book"

    # --- running ------------------------------------------------------------------------------

    def run_program(self, *words, stdin=""):
        words = [str(word) for word in words]
        ended = subprocess.run(
            [program_path(), *words],
            input=stdin if isinstance(stdin, bytes) else stdin.encode(),
            capture_output=True,
            cwd=self.folder,
            env=self.environment,
            timeout=LONGEST_RUN_SECONDS,
            check=False,
        )
        return Ended(words, ended.returncode, ended.stdout.decode(), ended.stderr.decode())

    def ends(self, code, *words, stdin=""):
        ended = self.run_program(*words, stdin=stdin)
        self.assertEqual(ended.code, code, ended)
        return ended

    def done(self, *words, stdin=""):
        return self.ends(DONE, *words, stdin=stdin)

    def refuses(self, code, *words, says, stdin=""):
        """Ends with `code`, prints nothing but a complaint that says all of `says`, ended by a line
        break."""
        ended = self.ends(code, *words, stdin=stdin)
        self.assertEqual(ended.out, "", ended)
        self.assertTrue(ended.err.endswith("\n"), ended)
        for text in says:
            self.assertIn(text, ended.err, ended)
        return ended

    # --- what there is to work with -----------------------------------------------------------

    def write(self, name, content):
        path = self.folder / name
        path.write_bytes(content if isinstance(content, bytes) else content.encode())
        return path

    def filed_book(self):
        """A book that holds the YAML sheet of the test data."""
        self.done("walk", "--from", DATA / "larchfield.yaml", "--book", self.book, *AS_OF)
        return self.book

    def files(self):
        """Every file in the scratch folder, with its bytes."""
        return {
            str(path.relative_to(self.folder)): path.read_bytes()
            for path in sorted(self.folder.rglob("*"))
            if path.is_file()
        }

    # --- what holds for any text that people read ---------------------------------------------

    def assert_fits_the_page(self, text):
        for line in text.splitlines():
            self.assertLessEqual(len(line), WIDEST_LINE, repr(line))

    def assert_no_terminal_codes(self, text):
        self.assertNotRegex(text, r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]")

    def assert_never_called_safe(self, text):
        """The program never says that a tree is safe."""
        self.assertIsNone(re.search(r"\bsafe\b", text, re.IGNORECASE), text)


def main():
    """Run as `python3 a_test.py PROGRAM`, PROGRAM being the built program."""
    if len(sys.argv) > 1 and pathlib.Path(sys.argv[1]).is_file():
        os.environ["ASHTRIAGE_PROGRAM"] = str(pathlib.Path(sys.argv.pop(1)).resolve())
    unittest.main()
