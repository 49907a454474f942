"""The demonstration: it runs the whole job, leaves its files, and is the same on any day."""

import re

import program
from program import BAD_INPUT

LEFT_BEHIND = ["demo.book", "property.html", "schedule.csv", "trees.csv", "walk-sheet.yaml"]


class Demo(program.ProgramTest):
    def test_leaves_its_files_and_an_orderly_book(self):
        ended = self.done("demo", "shown")
        self.assertEqual(ended.err, "")
        folder = self.folder / "shown"
        self.assertEqual(sorted(path.name for path in folder.iterdir()), LEFT_BEHIND)
        for name in LEFT_BEHIND:
            self.assertIn(name, ended.out)
        self.assertIn("in order", self.done("book", "check", "--book", folder / "demo.book").out)

    def test_the_screen_is_plain_text_of_80_columns(self):
        out = self.done("demo", "shown").out
        self.assert_fits_the_page(out)
        self.assert_no_terminal_codes(out)
        self.assert_never_called_safe(out)

    def test_every_kind_of_answer_is_shown(self):
        self.done("demo", "shown")
        rows = program.read_csv((self.folder / "shown" / "trees.csv").read_bytes().decode())
        answers = {row["recommendation"] for row in rows}
        self.assertLessEqual({"treat", "monitor", "remove"}, answers)
        self.assertEqual({"firm", "close call", "open"}, {row["standing"] for row in rows})
        self.assertTrue(any(row["flags"] for row in rows))

    def test_what_is_left_agrees_with_what_the_program_says_of_it(self):
        self.done("demo", "shown")
        folder = self.folder / "shown"
        as_of = ["--as-of", re.search(r"--as-of (\S+)", self.done("demo", "again").out)[1]]
        listed = self.done("triage", "--book", folder / "demo.book", *as_of, "--dry-run",
                           "--format", "csv")
        self.assertEqual(listed.rows(),
                         program.read_csv((folder / "trees.csv").read_bytes().decode()))
        scheduled = self.done("schedule", "--book", folder / "demo.book", *as_of, "--format", "csv")
        self.assertEqual(scheduled.rows(),
                         program.read_csv((folder / "schedule.csv").read_bytes().decode()))
        sheet = self.done("walk", "--from", folder / "walk-sheet.yaml", "--book",
                          folder / "demo.book", *as_of)
        self.assertIn("Filed: 0 new trees, 0 walk-arounds, 0 corrections", sheet.out)

    def test_is_the_same_every_time(self):
        first, again = self.done("demo", "one/shown"), self.done("demo", "two/shown")
        self.assertEqual(first.out.replace("one/shown", ""), again.out.replace("two/shown", ""))
        for name in ["property.html", "trees.csv", "schedule.csv"]:
            self.assertEqual((self.folder / "one" / "shown" / name).read_bytes(),
                             (self.folder / "two" / "shown" / name).read_bytes(), name)

    def test_a_folder_with_anything_in_it_is_refused_and_left_alone(self):
        (self.folder / "full").mkdir()
        self.write("full/letter.txt", "Dear client")
        before = self.files()
        self.refuses(BAD_INPUT, "demo", "full", says=["full", "not empty", "new folder"])
        self.assertEqual(self.files(), before)

    def test_an_empty_folder_will_do_and_a_file_will_not(self):
        (self.folder / "empty").mkdir()
        self.done("demo", "empty")
        self.write("letter.txt", "Dear client")
        self.refuses(BAD_INPUT, "demo", "letter.txt", says=["letter.txt"])


if __name__ == "__main__":
    program.main()
