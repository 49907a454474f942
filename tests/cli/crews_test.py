"""The crews' season from a book: who treats which tree when, what cannot be done, and what a lost day
moves."""

import datetime
import json
import re

import program
from program import BAD_INPUT, DATA, DONE, FINDING

OWN = ["--rules", DATA / "own_rules"]
SPRING = ["--as-of", "2027-04-10"]


class Crews(program.ProgramTest):
    def setUp(self):
        super().setUp()
        self.filed_book()
        text = self.done("schedule", "crews", "--example").out
        # The example is of 2026, and stands where the test data do not.
        self.crews = self.write("crews.yaml", text.replace("2026-", "2027-"))
        self.words = ["schedule", "crews", "--crews", self.crews, "--book", self.book, *OWN]

    def plan(self, *more):
        return self.run_program(*self.words, *SPRING, *more)

    def rows(self, *more):
        return self.plan(*more, "--format", "csv").rows()

    def planned(self, *more):
        return [row for row in self.rows(*more) if row["date"]]

    def test_the_example_file_reads_as_it_is(self):
        ended = self.plan()
        self.assertIn(ended.code, (DONE, FINDING), ended)
        self.assertIn("example figures", ended.out)
        self.assert_fits_the_page(ended.out)
        self.assert_never_called_safe(ended.out)

    def test_every_tree_is_planned_once_and_within_its_window(self):
        rows = self.planned()
        self.assertTrue(rows)
        self.assertEqual(len({row["tree"] for row in rows}), len(rows))
        for row in rows:
            self.assertLessEqual(row["window_opens"], row["date"])
            self.assertLessEqual(row["date"], row["window_closes"])
            self.assertLessEqual(row["window_opens"], row["best_until"])
            self.assertLessEqual(row["best_until"], row["window_closes"])
            self.assertLess(datetime.date.fromisoformat(row["date"]).weekday(), 5)  # days off

    def test_a_lost_day_moves_its_trees_and_says_so(self):
        day = self.planned()[0]["date"]
        ended = self.plan("--lost", day)
        self.assertIn("Moved for the lost day", ended.out)
        self.assertRegex(ended.out, r"from \d+ \w+ 2027, Crew")
        for row in self.planned("--lost", day):
            self.assertNotEqual(row["date"], day)
            self.assertLessEqual(row["date"], row["window_closes"])

    def test_a_lost_day_tells_other_programs_what_it_moved(self):
        before = {row["tree"]: row["date"] for row in self.planned()}
        day = min(before.values())
        data = self.plan("--lost", day, "--format", "json").json()
        [lost] = data["lost_days"]
        self.assertTrue(lost["moved"])
        for move in lost["moved"]:
            self.assertEqual(move["from"]["date"], before[move["tree"]])
            self.assertNotEqual(move["to"]["date"], day)
        after = {row["tree"]: row["date"] for row in self.planned("--lost", day)}
        self.assertEqual({move["tree"]: move["to"]["date"] for move in lost["moved"]},
                         {tree: on for tree, on in after.items() if on != before.get(tree)})
        self.assertEqual(self.plan("--format", "json").json()["lost_days"], [])

    # The site of the test data has a place, of which nobody said whether it lies by a shore.
    def test_says_what_the_dates_hang_on(self):
        self.assertIn("--shore", self.plan().out)

    def test_a_place_by_a_shore_is_told_once_for_the_plan(self):
        told = " ".join(self.plan("--shore", "no").out.split())
        self.assertNotIn("Say whether it is so here", told)
        self.assertIn("do not rely on these dates", " ".join(self.plan("--shore", "yes").out.split()))

    def test_a_crew_whose_time_is_over_is_named(self):
        text = self.crews.read_text()
        self.crews.write_text(text.replace("first_day: 2027-04-13", "first_day: 2025-04-13")
                              .replace("last_day: 2027-09-11", "last_day: 2025-09-11"))
        self.assertIn("Crew one has no day of work from 10 April 2027 on",
                      " ".join(self.plan().out.split()))

    def test_a_tree_whose_last_treatment_nobody_recorded_is_not_planned(self):
        sheet = (DATA / "larchfield.yaml").read_text()
        self.assertIn("treatment_history: never", sheet)
        other = self.folder / "other.book"
        self.done("walk", "--from", self.write("s.yaml", sheet.replace(
            "treatment_history: never", "treatment_history: longer_ago")), "--book", other,
            "--as-of", "2026-06-20")
        words = ["schedule", "crews", "--crews", self.crews, "--book", other, *OWN, *SPRING]
        told = " ".join(self.run_program(*words).out.split())
        self.assertIn("find the record first", told)
        self.assertNotIn("look at each of them again", told)
        self.assertIn("look at each of them again", " ".join(self.plan().out.split()))

    def test_a_day_on_which_nobody_works_cannot_be_lost(self):
        self.refuses(BAD_INPUT, *self.words, *SPRING, "--lost", "2027-05-01", says=["--lost"])
        self.refuses(BAD_INPUT, *self.words, *SPRING, "--lost", "2027-05-20 Crew three",
                     says=["Crew three"])

    def test_what_is_treated_is_not_planned_again_before_it_is_due(self):
        tree = self.planned()[0]["tree"]
        sheet = self.done("record", "new", tree, "--card", "own-injection", "--certified", "--book",
                          self.book, *OWN, "--as-of", "2026-06-25").out
        sheet = sheet.replace("    product: ", '    product: "20 mL" #')
        file = self.write("sheet.yaml", sheet)
        self.run_program("record", "add", file, "--book", self.book, *OWN, "--as-of", "2026-06-25")
        # An injection lasts for two years where the wave of borers is at hand, and three behind it.
        for wave, due in (("here", 2028), ("past", 2029)):
            again = [row for row in self.rows("--wave", wave) if row["tree"] == tree][0]
            self.assertEqual(again["date"], "")
            self.assertIn(f"treated on 25 June 2026, due in {due}", self.plan("--wave", wave).out)

    def test_the_leaves_of_the_year_set_the_days(self):
        usual = {row["tree"]: row["window_opens"] for row in self.planned()}
        ended = self.run_program(*self.words, "--as-of", "2027-06-05", "--leaf-out", "2027-06-01",
                                 "--format", "csv")
        self.assertIn("taken for every place alike", " ".join(ended.err.split()))
        known = {row["tree"]: row["window_opens"] for row in ended.rows() if row["date"]}
        self.assertTrue(usual)
        self.assertEqual(set(known.values()), {"2027-06-05"})
        early = self.run_program(*self.words, "--as-of", "2027-05-12", "--leaf-out", "2027-05-12",
                                 "--format", "csv")
        self.assertEqual({row["window_opens"] for row in early.rows() if row["date"]},
                         {"2027-05-12"})

    def test_the_page_and_the_calendar_hold_the_same_visits(self):
        rows = self.planned()
        page, calendar = self.folder / "season.html", self.folder / "season.ics"
        self.plan("--page", page, "--calendar", calendar)
        text = page.read_text()
        self.assertIn("<svg", text)
        self.assertNotIn("{{", text)
        self.assertNotIn("http", text)
        visits = {(row["date"], row["arrives"]) for row in rows}
        events = re.findall(r"DTSTART:(\d{8})T(\d{4})00", calendar.read_bytes().decode())
        self.assertEqual({(f"{d[:4]}-{d[4:6]}-{d[6:]}", f"{t[:2]}:{t[2:]}") for d, t in events},
                         visits)

    def test_what_cannot_be_scheduled_has_its_method_window_and_priority(self):
        # The label limits what an acre may take, and nobody has written down how large the site is.
        sheet = (DATA / "larchfield.yaml").read_text().replace("  area: 1.5 acres\n", "")
        book = self.folder / "another.db"
        self.done("walk", "--from", self.write("sheet.yaml", sheet), "--book", book, "--as-of",
                  "2026-06-20")
        calendar = self.folder / "season.ics"
        words = ["schedule", "crews", "--crews", self.crews, "--book", book, *OWN, *SPRING,
                 "--calendar", calendar, "--format"]
        row, = [row for row in self.run_program(*words, "csv").rows() if row["tree"] == "F1"]
        planned = self.planned()[0]
        self.assertEqual(row["date"], "")
        self.assertIn("area of the site", row["left_out_because"])
        for column in ("method", "priority", "window_opens", "best_until", "window_closes"):
            self.assertEqual(row[column], planned[column])
        told, = [each for each in json.loads(self.run_program(*words, "json").out)["not_scheduled"]
                 if each["tree"] == "F1"]
        self.assertEqual(told["method"], planned["method"])
        self.assertEqual(told["window_closes"], planned["window_closes"])
        to_dos = calendar.read_bytes().decode().replace("\r\n ", "")
        self.assertEqual(to_dos.count("BEGIN:VTODO"), 1)
        self.assertIn("SUMMARY:Tree F1 at Larchfield: trunk injection emamectin", to_dos)
        self.assertIn("area of the site is not known", to_dos)

    # The file as if the plan before had had a second visit to the site, and one to another site.
    def calendar_with_more_visits(self):
        calendar = self.folder / "season.ics"
        calendar.unlink(missing_ok=True)
        self.plan("--calendar", calendar)
        text = calendar.read_bytes().decode()
        begin = text.index("BEGIN:VEVENT")
        end = text.index("END:VEVENT\r\n") + len("END:VEVENT\r\n")
        event = text[begin:end]
        self.assertIn("UID:visit-2027-Larchfield-1\r\n", event)
        more = [event.replace("Larchfield-1\r\n", uid + "\r\n")
                for uid in ("Larchfield-9", "Elsewhere-1")]
        calendar.write_bytes((text[:end] + "".join(more) + text[end:]).encode())
        return calendar

    def events(self, calendar):
        text = calendar.read_bytes().decode()
        found = {}
        for event in re.findall(r"BEGIN:VEVENT.*?END:VEVENT", text, re.DOTALL):
            lines = dict(line.split(":", 1) for line in event.split("\r\n") if ":" in line)
            self.assertNotIn(lines["UID"], found)
            found[lines["UID"].removeprefix("visit-2027-")] = lines
        return found

    def test_a_calendar_written_in_the_place_of_another_cancels_what_is_gone(self):
        calendar = self.calendar_with_more_visits()
        before = self.events(calendar)
        self.plan("--calendar", calendar)
        after = self.events(calendar)
        self.assertEqual(set(after), set(before))
        for uid, event in after.items():
            gone = uid in ("Larchfield-9", "Elsewhere-1")
            self.assertEqual(event["STATUS"], "CANCELLED" if gone else "CONFIRMED")
            self.assertEqual(int(event["SEQUENCE"]), int(before[uid]["SEQUENCE"]) + gone)
        self.plan("--calendar", calendar)
        self.assertEqual(self.events(calendar), after)

    def test_a_calendar_of_one_site_cancels_nothing_at_others_and_none_what_is_over(self):
        calendar = self.calendar_with_more_visits()
        self.plan("--calendar", calendar, "--site", "Larchfield")
        self.assertEqual(self.events(calendar)["Larchfield-9"]["STATUS"], "CANCELLED")
        self.assertNotIn("Elsewhere-1", self.events(calendar))
        calendar = self.calendar_with_more_visits()
        self.run_program(*self.words, "--as-of", "2027-12-01", "--calendar", calendar)
        self.assertNotIn("Larchfield-9", self.events(calendar))

    def test_a_file_that_is_no_calendar_of_ours_is_left_alone(self):
        other = self.write("other.ics", "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//a//b//EN\r\n"
                                        "END:VCALENDAR\r\n")
        kept = other.read_bytes()
        self.refuses(BAD_INPUT, *self.words, *SPRING, "--calendar", other,
                     says=["other.ics", "choose another name"])
        self.assertEqual(other.read_bytes(), kept)

    def test_visits_that_were_made_keep_their_numbers(self):
        calendar = self.folder / "season.ics"
        self.plan("--calendar", calendar)
        self.assertIn("visit-2027-Larchfield-1\r\n", calendar.read_bytes().decode())
        # Another tree was treated there already in this year.
        sheet = (DATA / "larchfield.yaml").read_text()
        first = sheet.index("  - tree: F1")
        end = sheet.find("  - tree: ", first + 1)
        one_more = sheet[first:end if end > 0 else None].replace("tree: F1", "tree: F9")
        self.done("walk", "--from", self.write("sheet.yaml", sheet.replace("2026-06-20", "2027-05-17")
                                               + one_more), "--book", self.book, "--as-of",
                  "2027-05-17")
        record = self.done("record", "new", "F9", "--card", "own-injection", "--certified", "--book",
                           self.book, *OWN, "--as-of", "2027-05-17").out
        record = self.write("record.yaml", record.replace("    product: ", '    product: "20 mL" #'))
        self.run_program("record", "add", record, "--book", self.book, *OWN, "--as-of",
                         "2027-05-17")
        self.run_program(*self.words, "--as-of", "2027-05-18", "--calendar", calendar)
        events = calendar.read_bytes().decode()
        self.assertIn("visit-2027-Larchfield-2\r\n", events)
        self.assertNotIn("visit-2027-Larchfield-1\r\n", events)

    def test_a_dry_run_writes_nothing(self):
        before = self.files()
        self.plan("--page", self.folder / "season.html", "--dry-run")
        self.assertEqual(self.files(), before)

    def test_the_mix_of_a_day_goes_with_the_day(self):
        ended = self.plan("--mix")
        self.assertIn("AT THE TREE", ended.out)
        self.assertIn("Invented 4 % injectable liquid", ended.out)
        self.assert_fits_the_page(ended.out)

    def test_crews_that_cannot_be_are_refused_at_their_line(self):
        text = self.crews.read_text()
        for old, new, says in (("hours_per_day: 8\n", "hours_per_day: 25\n", "hours_per_day"),
                               ("first_day: 2027-04-13", "first_day: 2027-12-13", "before its first"),
                               ("certified_applicator: yes", "certified: yes", "certified"),
                               ("latitude: 41.80", "latitude: 141.80", "latitude")):
            self.assertIn(old, text)
            file = self.write("bad.yaml", text.replace(old, new, 1))
            self.refuses(BAD_INPUT, "schedule", "crews", "--crews", file, "--book", self.book,
                         *SPRING, says=["bad.yaml:", says])
        self.refuses(BAD_INPUT, "schedule", "crews", "--book", self.book, says=["--example"])


if __name__ == "__main__":
    program.main()
