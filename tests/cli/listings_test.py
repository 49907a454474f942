"""Every listing as text, CSV and JSON: it parses, fits the page, and carries no terminal codes."""

import subprocess

import program
from program import AS_OF, DATA

SHEET = ["--from", DATA / "trees.csv", *AS_OF]

# The outcomes and standings that a recommendation can have, by README and field guide.
STANDINGS = {"firm", "close call", "open"}


OWN = ["--rules", DATA / "own_rules"]


class Listings(program.ProgramTest):
    def listings(self):
        book = ["--book", self.filed_book()]
        return [
            ["triage", *SHEET], ["triage", *book, *AS_OF], ["flags", *SHEET],
            ["flags", *book, *AS_OF], ["explain", "A2", *SHEET], ["methods", *SHEET],
            ["methods", *book, *AS_OF], ["schedule", *book, *AS_OF],
            ["season", *AS_OF], ["season", *AS_OF, "--latitude", "42", "--longitude", "-88"],
            ["risk", "--failure", "possible", "--impact", "high", "--consequences", "severe"],
            ["measure", "10 in + 8 in"], ["rules", "facts"], ["rules", "presets"],
            ["rules", "test"], ["rules", "test", "--coverage"], ["labels", "list"],
            ["book", "info", *book],
            ["dose", "--dbh", "12 in", "--card", "own-injection", *OWN, *AS_OF],
            ["dose", "F1", *book, *AS_OF, *OWN],
        ]

    def test_csv_has_a_heading_and_rows_as_wide_as_it(self):
        for words in self.listings():
            with self.subTest(words=words):
                ended = self.done(*words, "--format", "csv")
                rows = ended.rows()
                self.assertGreater(len(rows), 0, ended)
                self.assertTrue(all(name.strip() for name in rows[0]), ended)
                # RFC 4180, section 2: records end with CRLF.
                self.assertTrue(ended.out.endswith("\r\n"), ended)
                self.assert_no_terminal_codes(ended.out)

    def test_json_is_one_strict_document(self):
        for words in self.listings():
            with self.subTest(words=words):
                ended = self.done(*words, "--format", "json")
                self.assertTrue(ended.json(), ended)
                self.assert_no_terminal_codes(ended.out)

    def test_text_fits_the_page_and_has_no_terminal_codes(self):
        for words in self.listings():
            with self.subTest(words=words):
                ended = self.done(*words)
                self.assertTrue(ended.out.strip(), ended)
                self.assert_fits_the_page(ended.out)
                self.assert_no_terminal_codes(ended.out + ended.err)
                self.assert_never_called_safe(ended.out)

    def test_the_same_trees_in_all_three_forms(self):
        text = self.done("triage", *SHEET).out
        rows = self.done("triage", *SHEET, "--format", "csv").rows()
        objects = self.done("triage", *SHEET, "--format", "json").json()
        labels = [f"A{number}" for number in range(1, 9)]
        self.assertEqual([row["tree"] for row in rows], labels)
        self.assertEqual([item["tree"] for item in objects], labels)
        for label, row in zip(labels, rows):
            self.assertIn(row["standing"], STANDINGS)
            line = next(line for line in text.splitlines() if line.startswith(label + " "))
            self.assertIn(row["recommendation"], line)
            self.assertIn(row["standing"], line)

    def test_a_piped_run_says_the_same_every_time(self):
        first = self.done("triage", *SHEET, "--format", "json")
        again = self.done("triage", *SHEET, "--format", "json")
        self.assertEqual(first.out, again.out)

    def test_what_a_spreadsheet_would_take_for_a_formula_is_guarded(self):
        sheet = self.write("formula.csv", 'tree,place,standing_dead\n=2+3,"+1,x",yes\n')
        for row in self.done("flags", "--from", sheet, "--format", "csv").rows():
            self.assertEqual((row["tree"], row["place"]), ("'=2+3", "'+1,x"))

    def test_output_that_cannot_be_written_is_not_passed_over(self):
        # Every write to this device fails as on a full disk: full(4).
        with open("/dev/full", "wb") as full_disk:
            ended = subprocess.run([program.program_path(), "triage", *map(str, SHEET)],
                                   stdout=full_disk, stderr=subprocess.PIPE, check=False,
                                   env=self.environment, timeout=program.LONGEST_RUN_SECONDS)
        self.assertEqual(ended.returncode, program.BAD_INPUT)
        self.assertIn(b"could not be written", ended.stderr)

    def test_terminal_codes_in_a_note_do_not_reach_the_terminal(self):
        sheet = self.write("note.csv", "tree,standing_dead,notes\nA,yes,\x1b[31mlook \x07up\n")
        told = self.done("explain", "A", "--from", sheet).out
        self.assertIn("look up", told)
        self.assert_no_terminal_codes(told)


if __name__ == "__main__":
    program.main()
