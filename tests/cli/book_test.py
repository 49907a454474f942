"""The book: made, filled from a sheet, corrected, checked, copied; what a dry run leaves alone."""

import program
from program import AS_OF, BOOK, DATA, DONE, FINDING

SHEET = DATA / "larchfield.yaml"


class Filing(program.ProgramTest):
    def counts(self):
        ended = self.done("book", "info", "--book", self.book, "--format", "csv")
        counts = {row["what"]: row["value"] for row in ended.rows()}
        return int(counts["trees"]), int(counts["walk_arounds"])

    def dbh_of(self, tree):
        ended = self.done("triage", "--book", self.book, *AS_OF, "--dry-run", "--format", "csv")
        return next(row["dbh_inches"] for row in ended.rows() if row["tree"] == tree)

    def test_the_same_sheet_twice_changes_nothing_the_second_time(self):
        first = self.done("walk", "--from", SHEET, "--book", self.book, *AS_OF)
        self.assertIn("2 new trees, 2 walk-arounds, 0 corrections", first.out)
        before = self.book.read_bytes()
        again = self.done("walk", "--from", SHEET, "--book", self.book, *AS_OF)
        self.assertIn("0 new trees, 0 walk-arounds, 0 corrections; 2 were there", again.out)
        self.assertEqual(self.book.read_bytes(), before)

    def test_a_correction_on_the_same_day_takes_the_place_of_what_it_corrects(self):
        self.filed_book()
        self.assertEqual(self.dbh_of("F1"), "14.0")
        corrected = self.write("corrected.yaml",
                               SHEET.read_text().replace("stems: 14 in", "stems: 16 in"))
        ended = self.done("walk", "--from", corrected, "--book", self.book, *AS_OF)
        self.assertIn("0 new trees, 0 walk-arounds, 1 corrections; 1 were there", ended.out)
        self.assertEqual(self.dbh_of("F1"), "16.0")
        self.assertEqual(self.counts(), (2, 3))  # what was seen first is kept

    def test_a_later_visit_is_added_and_an_earlier_date_still_sees_the_first(self):
        self.filed_book()
        later = self.write("later.yaml", SHEET.read_text()
                           .replace("stems: 14 in", "stems: 14.5 in")
                           .replace("date: 2026-06-20", "date: 2027-06-20"))
        ended = self.done("walk", "--from", later, "--book", self.book, "--as-of",
                          "2027-06-25")
        self.assertIn("0 new trees, 2 walk-arounds, 0 corrections", ended.out)
        self.assertEqual(self.dbh_of("F1"), "14.0")

    def test_a_tree_that_was_not_walked_round_yet_is_named_beside_the_listing(self):
        self.filed_book()
        for command in ["triage", "flags"]:
            words = [command, "--book", self.book, "--dry-run"]
            ended = self.done(*words, "--as-of", "2026-06-19")  # the day before the walk-arounds
            self.assertIn('19 June 2026: "F1", "F2"', " ".join(ended.err.split()))
            self.assertNotIn("Not listed", self.done(*words, *AS_OF).err)

    def test_a_doubtful_diameter_is_filed_and_questioned(self):
        sheet = self.write("thick.csv", "tree,observer,dbh\nA,Tamsin Hollowbrook,65\n")
        ended = self.done("walk", "--from", sheet, "--site", "Larchfield", "--book", self.book)
        self.assertIn("1 new trees", ended.out)
        self.assertIn("over 60 in", ended.err)
        self.assertIn("20.7 in", ended.err)  # were it a girth: 65 / pi = 20.69

    def test_a_csv_sheet_needs_a_site(self):
        words = ["walk", "--from", DATA / "trees.csv", "--book", self.book, *AS_OF]
        self.refuses(program.BAD_INPUT, *words, says=["--site"])
        self.assertIn("8 new trees", self.done(*words, "--site", "Larchfield").out)

    def test_a_sheet_may_come_on_standard_input(self):
        sheet = (DATA / "trees.csv").read_bytes()
        words = ["walk", "--from", "-", "--site", "Larchfield", "--book", self.book,
                 *AS_OF]
        self.assertIn("8 new trees", self.done(*words, stdin=sheet).out)

    def test_the_book_is_made_in_the_data_folder_when_none_is_named(self):
        self.done("walk", "--from", SHEET, *AS_OF)
        self.assertTrue((self.home / "data" / "ashtriage" / "trees.book").is_file())

    def test_the_environment_may_name_the_book(self):
        self.environment["ASHTRIAGE_BOOK"] = str(self.folder / "named.book")
        self.done("book", "new")
        self.assertTrue((self.folder / "named.book").is_file())

    def test_recommendations_are_added_once(self):
        self.filed_book()
        words = ["triage", "--book", self.book, *AS_OF]
        self.assertIn("2 recommendations added", self.done(*words).err)
        before = self.book.read_bytes()
        self.assertIn("0 recommendations added", self.done(*words).err)
        self.assertEqual(self.book.read_bytes(), before)


class CopiesAndChecks(program.ProgramTest):
    def test_a_backup_restores_what_was_there(self):
        self.filed_book()
        self.done("triage", "--book", self.book, *AS_OF)
        listing = ["triage", *AS_OF, "--dry-run", "--format", "json", "--book"]
        before = self.done(*listing, self.book).out
        self.done("book", "backup", "kept.book", "--book", self.book)
        self.book.unlink()
        self.done("book", "restore", "kept.book", "--book", self.book)
        self.assertEqual(self.done(*listing, self.book).out, before)
        self.assertIn("in order", self.done("book", "check", "--book", self.book).out)

    def test_nothing_is_written_over_unasked(self):
        self.filed_book()
        self.done("book", "backup", "kept.book", "--book", self.book)
        before = self.files()
        self.refuses(BOOK, "book", "backup", "kept.book", "--book", self.book, says=["kept.book"])
        self.refuses(BOOK, "book", "new", "--book", self.book, says=[str(self.book)])
        self.refuses(BOOK, "book", "restore", "kept.book", "--book", self.book, says=["trees.book"])
        self.assertEqual(self.files(), before)
        self.done("book", "restore", "kept.book", "--overwrite", "--book", self.book)

    def test_every_stored_recommendation_comes_out_the_same_again(self):
        self.filed_book()
        self.done("triage", "--book", self.book, *AS_OF)
        self.assertIn("2 recommendations came out the same",
                      self.done("book", "check", "--book", self.book).out)

    def test_damage_is_found(self):
        # A page of 4096 bytes in the middle is overwritten (SQLite's usual page size).
        self.filed_book()
        content = bytearray(self.book.read_bytes())
        middle = len(content) // 2 // 4096 * 4096
        content[middle:middle + 4096] = b"\xA5" * 4096
        self.book.write_bytes(content)
        ended = self.run_program("book", "check", "--book", self.book)
        self.assertIn(ended.code, (FINDING, BOOK), ended)
        self.assertTrue(ended.out + ended.err)
        self.assertNotIn("The book is in order", ended.out)

    def test_a_book_cut_short_is_refused_by_check(self):
        self.filed_book()
        self.book.write_bytes(self.book.read_bytes()[:-5000])
        ended = self.run_program("book", "check", "--book", self.book)
        self.assertIn(ended.code, (FINDING, BOOK), ended)
        self.assertNotIn("The book is in order", ended.out)

    def test_doctor_says_that_all_is_well_or_what_is_not(self):
        ended = self.done("doctor", "--book", self.book)
        for word in ["Program", "SQLite", "Rules", "not there yet"]:
            self.assertIn(word, ended.out)
        self.filed_book()
        self.assertIn("2 trees, 2 walk-arounds; in order",
                      " ".join(self.done("doctor", "--book", self.book).out.split()))
        self.write("letter.book", "Dear client")
        self.assertIn("NOT IN ORDER", self.ends(FINDING, "doctor", "--book", "letter.book").out)


class NoBook(program.ProgramTest):
    COMMANDS = [["triage"], ["flags"], ["explain", "F1"], ["schedule"], ["report"], ["dose", "F1"],
                ["season", "--site", "Larchfield"], ["book", "info"], ["book", "check"],
                ["book", "backup", "copy.book"]]

    def test_where_there_is_none_nothing_is_made(self):
        for words in self.COMMANDS:
            with self.subTest(words=words):
                self.refuses(BOOK, *words, "--book", "none.book", says=["none.book", "no book"])
        self.assertEqual(self.files(), {})

    def test_another_file_is_not_taken_for_one_and_stays_as_it_is(self):
        self.write("letter.txt", "Dear client,\n" * 1000)
        self.write("blank.txt", "")
        self.write("noise.txt", bytes(range(256)) * 64)
        before = self.files()
        for name in ["letter.txt", "noise.txt", "blank.txt"]:
            for words in [*self.COMMANDS, ["walk", "--from", SHEET, *AS_OF]]:
                if name == "blank.txt" and words[0] == "walk":
                    continue  # an empty file may become a book
                with self.subTest(name=name, words=words):
                    self.refuses(BOOK, *words, "--book", name, says=[name])
        self.assertEqual(self.files(), before)

    def test_a_folder_is_no_book(self):
        (self.folder / "folder.book").mkdir()
        self.refuses(BOOK, "triage", "--book", "folder.book", says=["folder.book"])

    def test_a_sheet_needs_no_book_and_makes_none(self):
        for words in [["triage"], ["flags"], ["explain", "F1"]]:
            self.done(*words, "--from", SHEET, *AS_OF, "--book", "none.book")
        self.assertEqual(self.files(), {})


class DryRun(program.ProgramTest):
    def leaves_all_alone(self, *words, stdin=""):
        before = self.files()
        ended = self.ends(DONE, *words, "--dry-run", stdin=stdin)
        self.assertEqual(self.files(), before, words)
        return ended

    def test_with_a_book(self):
        self.filed_book()
        self.done("book", "backup", "kept.book", "--book", self.book)
        book = ["--book", self.book]
        changed = self.write("changed.yaml", SHEET.read_text().replace("14 in", "15 in"))
        ended = self.leaves_all_alone("walk", "--from", changed, *book, *AS_OF)
        self.assertIn("1 corrections", ended.out)
        self.leaves_all_alone("triage", *book, *AS_OF)
        self.leaves_all_alone("report", "-o", "page.html", *book, *AS_OF)
        self.leaves_all_alone("book", "backup", "another.book", *book)
        self.leaves_all_alone("book", "restore", "kept.book", "--overwrite", *book)
        self.leaves_all_alone("book", "new", "--book", "another.book")
        self.leaves_all_alone("demo", "shown")
        self.leaves_all_alone("walk", "--site", "Larchfield", "--tree", "F9", *book,
                              stdin="Tamsin Hollowbrook\nhedge\n12 in\nyes\nstop\n")

    def test_without_a_book_none_is_made(self):
        ended = self.leaves_all_alone("walk", "--from", SHEET, "--book", self.book, *AS_OF)
        self.assertIn("2 new trees", ended.out)
        self.leaves_all_alone("walk", "--from", SHEET, *AS_OF)
        self.leaves_all_alone("walk", "--site", "Larchfield", "--tree", "F1", "--book", self.book,
                              stdin="Ignatius Fernsby\n\n\n\n\n\n\nstop\n")


if __name__ == "__main__":
    program.main()
