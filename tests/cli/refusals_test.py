"""Input that cannot be used is refused with its place and a remedy, and nothing is written."""

import os
import pwd
import random
import subprocess
import sys
import time

import program
from program import AS_OF, BAD_INPUT, DATA

# What a row of a sheet cannot say: the file, then what the complaint must contain.
BAD_CSV = {
    "an unknown column": ("tree,dhb\nA,14\n", ["bad.csv", "'dhb'", "did you mean 'dbh'"]),
    "no column for the label": ("dbh\n14\n", ["bad.csv", "'tree' is missing"]),
    "a column twice": ("tree,dbh,DBH\nA,1,1\n", ["bad.csv", "'DBH' stands twice"]),
    "a column without a name": ("tree,\nA,1\n", ["bad.csv", "column 2 has no name"]),
    "semicolons": ("tree;dbh\nA;14\n", ["bad.csv", "not separated by commas"]),
    "an empty file": ("", ["bad.csv", "empty"]),
    "a row too wide": ("tree,dbh\nA,14,3\n", ["bad.csv:2", "3 fields", "2 columns"]),
    "a quotation never closed": ('tree,dbh\nA,"14\n', ["bad.csv:2", "never closed"]),
    "a byte 0": (b"tree,dbh\nA,1\x004\n", ["bad.csv", "not a text file"]),
    "bytes that are no UTF-8": (b"tree,place\nA,\xff\xfe\n", ["bad.csv:2", "UTF-8"]),
    "a tree without a label": ("tree,dbh\n,14\n", ["bad.csv:2", "no label"]),
    "a tree twice": ("tree,dbh\nA,14\nA,15\n", ["bad.csv:3", '"A" stands here twice']),
    "a DBH of 0": ("tree,dbh\nA,0\n", ["bad.csv:2:2", "no size", "Leave the cell empty"]),
    "a negative DBH": ("tree,dbh\nA,-3\n", ["bad.csv:2:2", "-3", "less than zero"]),
    "a DBH that is no number": ("tree,dbh\nA,nan\n", ["bad.csv:2:2", "'nan'", "such as 14 in"]),
    "an infinite girth": ("tree,girth\nA,inf\n", ["bad.csv:2:2", "'inf'"]),
    "a DBH no tree has": ("tree,dbh\nA,500\n", ["bad.csv:2", "500.0 in", "girth"]),
    "ounces of what": ("tree,dbh\nA,14 oz\n", ["bad.csv:2:2", "fluid ounces", "weight"]),
    "an unknown unit": ("tree,dbh\nA,14 feeet\n", ["bad.csv:2:2", "'feeet'", "'feet'"]),
    "a decimal comma": ('tree,dbh\nA,"14,5"\n', ["bad.csv:2:2", "14,5"]),
    "stems twice": ("tree,dbh,girth\nA,14,44\n", ["bad.csv:2:3", "another column"]),
    "101 percent": ("tree,canopy_dieback\nA,101 %\n", ["bad.csv:2:2", "'101 %'", "0 to 100 %"]),
    "a negative percentage": ("tree,canopy_dieback\nA,-1\n", ["bad.csv:2:2", "0 to 100 %"]),
    "a percentage NaN": ("tree,canopy_dieback\nA,NaN\n", ["bad.csv:2:2", "'NaN'"]),
    "a range upside down": ("tree,canopy_dieback\nA,60-20\n",
                            ["bad.csv:2:2", "smaller number first"]),
    "an unknown level": ("tree,woodpecker_damage\nA,hevy\n", ["bad.csv:2:2", "'hevy'", "'heavy'"]),
    "part of a hole": ("tree,exit_holes\nA,2.5\n", ["bad.csv:2:2", "2.5", "whole number"]),
    "a day to come": ("tree,date\nA,2062-06-20\n", ["bad.csv:2", '"A"', "2062-06-20", "--as-of"]),
    "an escape sequence": ("tree,place\n\x1b[31mA,x\n", ["bad.csv:2", "control character"]),
    "an escape sequence in a heading": ("tree,\x1b[31mdbh\nA,14\n", ["bad.csv", "column 2"]),
    "30 February": ("tree,date\nA,2026-02-30\n", ["bad.csv:2:2", "2026-02-30", "28 days"]),
    "a date written otherwise": ("tree,date\nA,6/20/2026\n", ["bad.csv:2:2", "2026-05-18"]),
    "half a position": ("tree,latitude\nA,41\n", ["bad.csv:2", "go together"]),
    "a latitude beyond the pole": ("tree,latitude,longitude\nA,95,3\n", ["bad.csv:2:2", "95"]),
}

BAD_YAML = {
    "no YAML": ("trees: [\n", ["bad.yaml"]),
    "a list alone": ("- tree: A\n", ["bad.yaml:1"]),
    "an unknown entry": ("trees:\n  - tree: A\n    stms: 14 in\n", ["bad.yaml:3", "stms", "stems"]),
    "an unknown fact": ("trees:\n  - tree: A\n    facts: {bark_split: few}\n",
                        ["bad.yaml:3", "bark_split", "bark_splits"]),
    "an unknown level": ("trees:\n  - tree: A\n    facts: {species: gren_ash}\n",
                         ["bad.yaml:3", "gren_ash", "green ash"]),
    "101 percent": ("trees:\n  - tree: A\n    facts: {canopy_thinning: 101 %}\n",
                    ["bad.yaml:3", "101 %"]),
    "a DBH of 0": ("trees:\n  - tree: A\n    stems: 0 in\n", ["bad.yaml:3"]),
    "30 February": ("date: 2026-02-30\ntrees:\n  - tree: A\n", ["bad.yaml:1", "28 days"]),
    "a day to come": ("date: 2062-06-20\ntrees:\n  - tree: A\n", ["bad.yaml:3", "2062-06-20"]),
    "an escape sequence": ('trees:\n  - tree: "\\e[31mA"\n', ["bad.yaml:2", "control character"]),
    "a tree twice": ("trees:\n  - tree: A\n  - tree: A\n", ["bad.yaml:3", '"A"', "twice"]),
    "an entry twice": ("trees:\n  - tree: A\n    tree: B\n", ["bad.yaml:3", "tree"]),
    "an anchor": ("trees: &a\n  - tree: A\n", ["bad.yaml:1"]),
    "an alias that refers to itself": ("trees: &a [*a]\n", ["bad.yaml:1"]),
    "a second document": ("trees:\n  - tree: A\n---\ntrees: []\n", ["bad.yaml"]),
    "no text": (b"\x00\x01\x02\xff" * 100, ["bad.yaml:1", "not a text file"]),
    "depth without end": ("[" * 5000, ["bad.yaml"]),
}

LIMIT_SECONDS = 60  # a run takes well under one; this only tells 'soon' from 'never'


class SheetsRefused(program.ProgramTest):
    def refused_by_both(self, name, content, says):
        """Neither triage nor walk takes the sheet, and the book stays as it is to the byte."""
        self.write(name, content)
        before = self.files()
        for command in [["triage"], ["walk", "--site", "Larchfield", "--book", self.book]]:
            ended = self.refuses(BAD_INPUT, *command, "--from", name, *AS_OF, says=says)
            self.assert_no_terminal_codes(ended.err)
        self.assertEqual(self.files(), before)

    def test_csv(self):
        self.filed_book()
        for what, (content, says) in BAD_CSV.items():
            with self.subTest(what=what):
                self.refused_by_both("bad.csv", content, says)

    def test_yaml(self):
        self.filed_book()
        for what, (content, says) in BAD_YAML.items():
            with self.subTest(what=what):
                self.refused_by_both("bad.yaml", content, says)

    def test_one_bad_row_among_good_ones_keeps_all_out(self):
        self.filed_book()
        good = (DATA / "trees.csv").read_text()
        width = good.splitlines()[0].count(",")
        bad = good + "A9,hedge,2026-13-01" + "," * (width - 2) + "\n"
        self.refused_by_both("bad.csv", bad, ["bad.csv:10:3", "2026-13-01"])

    def test_every_problem_of_a_file_is_shown_at_once(self):
        self.write("bad.csv", "tree,canopy_dieback,dbh\nA,101,0\nB,nan,-1\nC,50,x\n")
        ended = self.refuses(BAD_INPUT, "triage", "--from", "bad.csv", says=[])
        for place in ["2:2", "2:3", "3:2", "3:3", "4:3"]:
            self.assertIn(f"bad.csv:{place}:", ended.err)

    def test_a_file_that_is_not_there_or_no_file(self):
        self.refuses(BAD_INPUT, "triage", "--from", "none.csv", says=["none.csv", "no such file"])
        (self.folder / "sheets").mkdir()
        self.refuses(BAD_INPUT, "triage", "--from", "sheets", says=["sheets", "folder"])
        (self.folder / "sheets.yaml").mkdir()
        self.refuses(BAD_INPUT, "triage", "--from", "sheets.yaml", says=["sheets.yaml", "folder"])

    def test_standard_input_is_named(self):
        self.refuses(BAD_INPUT, "triage", "--from", "-", stdin="tree,dbh\nA,0\n",
                     says=["standard input:2:2"])

    def test_random_bytes(self):
        noise = random.Random(1854).randbytes(100_000)
        for name in ["noise.csv", "noise.yaml"]:
            self.refused_by_both(name, noise, [name])

    def test_a_file_that_may_not_be_read(self):
        sheet = self.write("secret.csv", "tree\nA\n")
        sheet.chmod(0)
        self.folder.chmod(0o755)
        nobody = pwd.getpwnam("nobody").pw_uid if os.getuid() == 0 else None
        ended = subprocess.run([program.program_path(), "triage", "--from", str(sheet)],
                               capture_output=True, env=self.environment, user=nobody, check=False,
                               text=True, timeout=program.LONGEST_RUN_SECONDS)
        self.assertEqual(ended.returncode, BAD_INPUT, ended)
        self.assertIn("secret.csv", ended.stderr)


class SheetsCutShort(program.ProgramTest):
    """A sheet cut off at any byte is read up to a whole row or refused; never a crash, never more
    than was written."""

    def test_csv_cut_short(self):
        whole = (DATA / "trees.csv").read_bytes()
        labels = [row["tree"] for row in program.read_csv(whole.decode())]
        rng = random.Random(1730)
        for length in sorted(rng.sample(range(len(whole)), 25)):
            self.write("cut.csv", whole[:length])
            ended = self.run_program("flags", "--from", "cut.csv", *AS_OF, "--format",
                                     "csv")
            with self.subTest(length=length):
                self.assertIn(ended.code, (program.DONE, BAD_INPUT), ended)
                if ended.code == program.DONE:
                    shown = {row["tree"] for row in ended.rows()} if ended.out.strip() else set()
                    self.assertLessEqual(shown, set(labels))
                else:
                    self.assertIn("cut.csv", ended.err)

    def test_yaml_cut_short(self):
        whole = (DATA / "larchfield.yaml").read_bytes()
        rng = random.Random(1859)
        for length in sorted(rng.sample(range(len(whole)), 25)):
            self.write("cut.yaml", whole[:length])
            ended = self.run_program("flags", "--from", "cut.yaml", *AS_OF)
            with self.subTest(length=length):
                self.assertIn(ended.code, (program.DONE, BAD_INPUT), ended)


class HugeFiles(program.ProgramTest):
    """A line of 100 MB is refused soon, and without taking its own size several times in memory."""

    LENGTH = 100_000_000

    # Raised where the program is built with sanitizers, which keep freed memory for a while.
    MEMORY_MEGABYTES = int(os.environ.get("ASHTRIAGE_MEMORY_LIMIT_MEGABYTES", "300"))

    def write_long_line(self, name, before, after):
        with open(self.folder / name, "wb") as file:
            file.write(before)
            block = b"7" * 1_000_000
            for _ in range(self.LENGTH // len(block)):
                file.write(block)
            file.write(after)

    def refused_soon(self, name):
        begin = time.monotonic()
        # Through a process of its own, so that the memory of this child alone is reported.
        script = ("import resource, subprocess, sys\n"
                  "ended = subprocess.run(sys.argv[1:], capture_output=True, text=True)\n"
                  "print(ended.returncode)\n"
                  "print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss // 1024)\n"
                  "print(len(ended.stdout), len(ended.stderr))\n"
                  "print(ended.stderr[:400])\n")
        told = subprocess.run(
            [sys.executable, "-c", script, program.program_path(), "triage", "--from", name],
            capture_output=True, text=True, cwd=self.folder, env=self.environment,
            timeout=program.LONGEST_RUN_SECONDS, check=True).stdout.splitlines()
        code, megabytes = int(told[0]), int(told[1])
        printed, complained = (int(word) for word in told[2].split())
        self.assertEqual(code, BAD_INPUT, told)
        self.assertLess(megabytes, self.MEMORY_MEGABYTES)
        self.assertLess(time.monotonic() - begin, LIMIT_SECONDS)
        self.assertEqual(printed, 0)
        self.assertLess(complained, 1000)  # the line itself is not shown
        self.assertIn(name, told[3])

    def test_csv(self):
        self.write_long_line("long.csv", b"tree,dbh\nA,", b"\n")
        self.refused_soon("long.csv")

    def test_csv_heading(self):
        self.write_long_line("long.csv", b"tree,", b"\nA,14\n")
        self.refused_soon("long.csv")

    def test_yaml(self):
        self.write_long_line("long.yaml", b"trees:\n  - tree: ", b"\n")
        self.refused_soon("long.yaml")


class OtherInputRefused(program.ProgramTest):
    def test_words_on_the_command_line(self):
        self.filed_book()
        book = ["--book", self.book]
        sheet = ["--from", DATA / "trees.csv"]
        card = ["--card", "example-emamectin-trunk-injection"]
        for words, says in [
            (["triage", *sheet, "--as-of", "2026-02-30"], ["--as-of", "2026-02-30", "28 days"]),
            (["rules", "facts", "--as-of", "tomorrow"], ["--as-of", "tomorrow"]),
            (["triage", *sheet, "--preset", "strickt"], ["strickt", "strict"]),
            (["triage", *sheet, "--rules", "nowhere"], ["nowhere"]),
            (["triage", *book, "--site", "Larchfeld"], ["--site", "Did you mean \"Larchfield\""]),
            (["explain", "F3", *book], ["\"F3\"", "Larchfield"]),
            (["explain", "A10", *sheet, *AS_OF], ["\"A10\"", "trees.csv"]),
            (["schedule", "--site", "Elsewhere", *book], ["Elsewhere", "Larchfield"]),
            (["dose", "--dbh", "0 in", *card], ["--dbh"]),
            (["dose", "--dbh", "12 oz", *card], ["oz"]),
            (["dose", "--dbh", "12 in", "--card", "example-emamectin-trunk-injektion"],
             ["--card", "Did you mean \"example-emamectin-trunk-injection\""]),
            (["dose", "--dbh", "12 in"], ["--card"]),
            (["labels", "show", "own"], ["\"own\"", "labels list"]),
            (["labels", "new", "My Card"], ["My Card", "lower-case"]),
            (["measure", "nan"], ["nan"]),
            (["measure", "14 in", "--last-visit", "-2"], ["--last-visit", "-2"]),
            (["risk", "--failure", "sure", "--impact", "high", "--consequences", "severe"],
             ["--failure", "sure", "imminent"]),
            (["season", "trunk_injection"], ["trunk_injection", "trunk_injection_emamectin"]),
            (["season", "--latitude", "42"], ["--longitude"]),
            (["season", "--latitude", "142", "--longitude", "-88"], ["--latitude", "142"]),
            (["season", "--latitude", "42", "--longitude", "-88", "--elevation", "high"],
             ["--elevation", "high"]),
            (["photo", DATA / "trees.csv"], ["trees.csv", "JPEG"]),
            (["photo", "none.jpg"], ["none.jpg"]),
            (["walk"], ["site", "tree"]),
        ]:
            with self.subTest(words=words):
                before = self.files()
                self.refuses(BAD_INPUT, *words, says=says)
                self.assertEqual(self.files(), before)

    def test_a_rules_folder_with_a_fault(self):
        rules = self.folder / "rules"
        rules.mkdir()
        (rules / "triage.yaml").write_text("pack: triage\nedition: 2026.1\ntabels: []\n")
        self.refuses(BAD_INPUT, "rules", "facts", "--rules", "rules",
                     says=["triage.yaml:3", "tabels", "tables"])

    def test_a_rule_file_with_a_misspelt_name(self):
        rules = self.folder / "rules"
        rules.mkdir()
        (rules / "trige.yaml").write_text("pack: triage\n")
        self.refuses(BAD_INPUT, "rules", "facts", "--rules", "rules", says=["trige.yaml", "triage"])


if __name__ == "__main__":
    program.main()
