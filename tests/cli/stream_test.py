"""`triage` from a CSV sheet to CSV: any number of rows, in memory that does not grow with them."""

import os
import random
import signal
import subprocess
import sys
import unittest

import program
from program import AS_OF, BAD_INPUT, DATA, DONE

CSV = ["--format", "csv", *AS_OF]

# Raised where the program is built with sanitizers, which keep freed memory for a while.
MEMORY_MEGABYTES = int(os.environ.get("ASHTRIAGE_STREAM_MEMORY_LIMIT_MEGABYTES", "100"))

HEADER = ("tree,dbh,species,standing_dead,leaves,canopy_dieback,canopy_thinning,exit_holes,"
          "exit_hole_shape,woodpecker_damage,owner_value,infestation_distance\n")


def inventory(rows, seed=2002):
    """The text of an invented inventory, a piece at a time."""
    rng = random.Random(seed)
    yield HEADER
    for first in range(0, rows, 1000):
        lines = []
        for number in range(first, min(first + 1000, rows)):
            holes = rng.choice(["", "0", "0", "3"])
            lines.append(",".join([
                f"N{number}", f"{rng.uniform(2, 40):.1f}",
                rng.choice(["green ash", "white_ash", "", "not_ash"]), "no", "in_leaf",
                str(rng.randrange(101)), rng.choice(["", "20-40", str(rng.randrange(101))]), holes,
                "d_shaped" if holes == "3" else "", rng.choice(["none", "light", "could not see"]),
                rng.choice(["low", "middle", "high", ""]), f"{rng.uniform(0, 40):.2f} mi"]))
        yield "\n".join(lines) + "\n"


class Stream(program.ProgramTest):
    def test_gives_the_same_from_a_file_and_from_standard_input(self):
        sheet = DATA / "trees.csv"
        from_file = self.done("triage", "--from", sheet, *CSV)
        piped = self.done("triage", "--from", "-", *CSV, stdin=sheet.read_bytes())
        self.assertEqual(from_file.out, piped.out)
        self.assertEqual([row["tree"] for row in from_file.rows()],
                         [row["tree"] for row in program.read_csv(sheet.read_text())])

    def test_answers_like_the_other_formats(self):
        sheet = self.write("trees.csv", "".join(inventory(300)))
        answers = self.done("triage", "--from", sheet, "--format", "json", *AS_OF).json()
        rows = self.done("triage", "--from", sheet, *CSV).rows()
        self.assertEqual(len(rows), 300)
        for row, answer in zip(rows, answers):
            self.assertEqual(row["tree"], answer["tree"])
            self.assertEqual(float(row["dbh_inches"]), answer["dbh_inches"])
            self.assertEqual(row["standing"], answer["standing"])
            self.assertEqual(row["within_eye_error"].split(), answer["within_eye_error"])
            self.assertEqual(row["evidence"], answer["evidence"] or "")
            self.assertEqual([flag for flag in row["flags"].split("; ") if flag],
                             [flag["flag"].replace("_", " ") for flag in answer["flags"]])
            reason = answer["reasons"][0] if answer["reasons"] else {"rule": "", "because": ""}
            self.assertEqual((row["deciding_rule"], row["because"]),
                             (reason["rule"], reason["because"]))

    def test_leaves_out_bad_rows_tells_of_them_and_ends_with_3(self):
        sheet = self.write("trees.csv", "tree,dbh\nA,14\nB,0\nA,9\nC\nD,20\n")
        ended = self.ends(BAD_INPUT, "triage", "--from", sheet, *CSV)
        self.assertEqual([row["tree"] for row in ended.rows()], ["A", "D"])
        for text in ["trees.csv:3:2", "trees.csv:4:1", "trees.csv:5", "twice",
                     "3 of 5 rows were left out", "--rejects FILE"]:
            self.assertIn(text, ended.err)

    def test_rejected_rows_can_be_mended_and_given_again(self):
        sheet = self.write("trees.csv", "tree,dbh\nA,14\nB,0\nC,20\n")
        first = self.ends(BAD_INPUT, "triage", "--from", sheet, *CSV, "--rejects", "left.csv")
        self.assertIn("left.csv", first.err)
        left = self.folder / "left.csv"
        rows = program.read_csv(left.read_bytes().decode())
        self.assertEqual([row["tree"] for row in rows], ["B"])
        self.assertIn("no size", rows[0]["problem"])
        left.write_bytes(left.read_bytes().replace(b"B,0,", b"B,9,"))
        again = self.done("triage", "--from", left, *CSV, "--rejects", "left.csv")
        self.assertEqual([row["tree"] for row in again.rows()], ["B"])
        self.assertEqual(left.read_bytes(), b"tree,dbh,problem\r\n")

    def test_leaves_no_rejects_behind_when_it_stops(self):
        sheet = self.write("trees.csv", "tree,dbh\nA,14\nB,0\nC,\"never closed\n")
        self.write("left.csv", "what stood there")
        ended = self.ends(BAD_INPUT, "triage", "--from", sheet, *CSV, "--rejects", "left.csv")
        self.assertIn("never closed", ended.err)
        self.assertEqual([row["tree"] for row in ended.rows()], ["A"])
        self.assertEqual((self.folder / "left.csv").read_text(), "what stood there")
        self.assertEqual(sorted(p.name for p in self.folder.iterdir()),
                         ["home", "left.csv", "trees.csv"])

    def test_rejects_go_with_csv_alone(self):
        for words in [["--from", DATA / "trees.csv", *AS_OF], ["--format", "csv"],
                      ["--from", DATA / "larchfield.yaml", *CSV]]:
            self.refuses(BAD_INPUT, "triage", *words, "--rejects", "left.csv",
                         says=["--rejects", "--format csv"])
        self.refuses(BAD_INPUT, "triage", "--from", DATA / "trees.csv", *CSV, "--rejects",
                     "nowhere/left.csv", says=["nowhere/left.csv"])

    def test_a_table_of_another_kind_stops_at_once(self):
        for text in ["", "tree,canopy_diebak\nA,20\n", "name,dbh\nA,14\n", "tree;dbh\nA;14\n"]:
            self.write("trees.csv", text)
            self.refuses(BAD_INPUT, "triage", "--from", "trees.csv", *CSV, says=["trees.csv"])


class ManyLabels(program.ProgramTest):
    def test_beyond_a_million_labels_says_what_was_not_compared(self):
        labels = "\n".join(str(number) for number in range(1_000_000))
        sheet = self.write("trees.csv", f"tree\n{labels}\nagain\nagain\n17\n")
        ended = self.ends(BAD_INPUT, "triage", "--from", sheet, *CSV)
        self.assertEqual(ended.out.count("\r\n"), 1 + 1_000_002)
        self.assertIn('The tree "17" stands here twice', ended.err)
        self.assertIn("1 of 1000003 rows was left out", ended.err)
        self.assertIn("Only the first 1000000 labels were kept", ended.err)

    def test_says_nothing_of_it_while_all_were_compared(self):
        sheet = self.write("trees.csv", "tree\nA\nB\n")
        self.assertEqual(self.done("triage", "--from", sheet, *CSV).err, "")


class OutputThatEnds(program.ProgramTest):
    def test_a_reader_that_stops_reading_ends_it_quietly(self):
        sheet = self.write("trees.csv", "".join(inventory(50_000)))
        running = subprocess.Popen(
            [program.program_path(), "triage", "--from", str(sheet), *CSV],
            stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=self.environment)
        self.assertTrue(running.stdout.readline().startswith(b"tree,"))
        running.stdout.close()
        told = running.stderr.read()
        running.stderr.close()
        self.assertEqual(running.wait(program.LONGEST_RUN_SECONDS), -signal.SIGPIPE)
        self.assertEqual(told, b"")

    @unittest.skipUnless(os.path.exists("/dev/full"), "there is no /dev/full here")
    def test_a_full_disk_is_told(self):
        for rows in [1, 50_000]:
            sheet = self.write("trees.csv", "".join(inventory(rows)))
            with open("/dev/full", "wb") as full:
                ended = subprocess.run(
                    [program.program_path(), "triage", "--from", str(sheet), *CSV], stdout=full,
                    stderr=subprocess.PIPE, env=self.environment, check=False,
                    timeout=program.LONGEST_RUN_SECONDS)
            self.assertEqual(ended.returncode, BAD_INPUT, ended)
            self.assertIn(b"disk full", ended.stderr)


class Memory(program.ProgramTest):
    """The child's own peak, as the system counts it, after rows that were never held anywhere as a
    whole."""

    def peak_megabytes(self, rows):
        script = ("import resource, subprocess, sys\n"
                  "ended = subprocess.run(sys.argv[1:], stdout=subprocess.PIPE)\n"
                  "print(ended.returncode, ended.stdout.count(b'\\n'),\n"
                  "      resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss // 1024)\n")
        counting = subprocess.Popen(
            [sys.executable, "-c", script, program.program_path(), "triage", "--from", "-", *CSV],
            stdin=subprocess.PIPE, stdout=subprocess.PIPE, env=self.environment)
        for piece in inventory(rows):
            counting.stdin.write(piece.encode())
        counting.stdin.close()
        code, lines, megabytes = (int(word) for word in counting.stdout.read().split())
        counting.stdout.close()
        self.assertEqual(counting.wait(program.LONGEST_RUN_SECONDS), 0)
        self.assertEqual(code, DONE)
        self.assertEqual(lines, rows + 1)
        return megabytes

    def test_300000_rows_through_a_pipe(self):
        self.assertLess(self.peak_megabytes(300_000), MEMORY_MEGABYTES)


if __name__ == "__main__":
    program.main()
