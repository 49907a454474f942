"""Calendar files (RFC 5545) as other programs read them: by two readers that know nothing of ours,
python3-icalendar and python3-vobject, and by rules of the format checked here byte by byte.

Run as `python3 calendar_test.py SAMPLE`, SAMPLE being the program that prints calendar files."""

import datetime
import re
import subprocess
import sys
import unittest

import icalendar
import vobject

SAMPLE = sys.argv.pop(1) if len(sys.argv) > 1 else None
LONGEST_LINE_OCTETS = 75  # RFC 5545, section 3.1, without the line break


def calendar_file(which):
    return subprocess.run([SAMPLE, which], capture_output=True, check=True, timeout=300).stdout


def unfolded(data):
    return data.decode().replace("\r\n ", "").replace("\r\n\t", "").split("\r\n")[:-1]


def components(data, name):
    return list(icalendar.Calendar.from_ical(data.decode()).walk(name))


class CalendarTest(unittest.TestCase):
    maxDiff = None

    @classmethod
    def setUpClass(cls):
        cls.plan = calendar_file("plan")
        cls.later = calendar_file("later")
        cls.replanned = calendar_file("replanned")
        cls.another = calendar_file("another")
        cls.visited = calendar_file("visited")
        cls.not_scheduled = calendar_file("not_scheduled")
        cls.all = [cls.plan, cls.later, cls.replanned, cls.another, cls.visited, cls.not_scheduled]

    # --- the form, checked here -----------------------------------------------------------------

    def test_every_line_ends_with_carriage_return_and_line_feed(self):
        for data in self.all:
            self.assertTrue(data.endswith(b"\r\n"))
            self.assertEqual(data.count(b"\n"), data.count(b"\r\n"))
            self.assertEqual(data.count(b"\r"), data.count(b"\r\n"))

    def test_no_line_is_longer_than_75_octets_and_none_splits_a_character(self):
        folded = 0
        for data in self.all:
            for line in data.split(b"\r\n"):
                self.assertLessEqual(len(line), LONGEST_LINE_OCTETS, line)
                line.decode()
                folded += line.startswith(b" ")
        self.assertGreater(folded, 10)

    def test_every_line_is_a_name_and_a_value_without_control_characters(self):
        for data in self.all:
            for line in unfolded(data):
                self.assertRegex(line, r"^[A-Z-]+(;[A-Z-]+=[^:;]+)*:")
                self.assertNotRegex(line, r"[\x00-\x08\x0a-\x1f\x7f]")

    def test_commas_semicolons_and_backslashes_of_texts_are_escaped(self):
        seen = 0
        for data in self.all:
            for line in unfolded(data):
                if not re.match(r"(SUMMARY|DESCRIPTION|LOCATION):", line):
                    continue
                value = line.split(":", 1)[1]
                self.assertEqual(re.sub(r"\\[\\;,nN]", "", value).count("\\"), 0, value)
                self.assertNotRegex(re.sub(r"\\[\\;,nN]", "", value), r"[,;]")
                seen += value.count("\\;")
        self.assertGreater(seen, 5)

    def test_nothing_is_random_and_no_host_is_named(self):
        self.assertEqual(calendar_file("plan"), self.plan)
        self.assertNotIn(b"@", self.plan)

    # --- as others read it ----------------------------------------------------------------------

    def test_two_readers_find_the_same_visits_and_trees(self):
        for data in self.all:
            other = vobject.readOne(data.decode())
            for name, theirs in (("VEVENT", other.vevent_list), ("VTODO", other.vtodo_list)):
                ours = components(data, name)
                self.assertEqual(len(ours), len(theirs))
                for one, two in zip(ours, theirs):
                    self.assertEqual(str(one["UID"]), two.uid.value)
                    self.assertEqual(str(one["SUMMARY"]), two.summary.value)
                    self.assertEqual(str(one["DESCRIPTION"]), two.description.value)
                    self.assertEqual(str(one["LOCATION"]), two.location.value)

    def test_names_come_back_as_they_were(self):
        sites = {str(each["LOCATION"]) for each in components(self.plan, "VTODO")}
        self.assertEqual(sites, {
            "Elm Court", "Elm-Court",
            "Aesculus Cottages, Flöhe & Söhne; the long drive behind the water tower\\mill, "
            "Übergrößenträgerstraße № 7 — ヤチダモ並木"})
        summaries = " ".join(str(each["SUMMARY"]) for each in components(self.plan, "VTODO"))
        self.assertIn("Tree B;2\\m at Elm Court", summaries)

    def test_visits_have_times_of_the_place_within_the_crew_s_day(self):
        visits = components(self.plan, "VEVENT")
        self.assertGreaterEqual(len(visits), 3)
        for visit in visits:
            start, end = visit["DTSTART"].dt, visit["DTEND"].dt
            self.assertIsNone(start.tzinfo)
            self.assertIsNone(end.tzinfo)
            self.assertLess(start, end)
            self.assertGreaterEqual(start.time(), datetime.time(7, 30))
            self.assertLessEqual(end.time(), datetime.time(11, 30))
            self.assertEqual(visit["DTSTAMP"].dt.tzinfo.utcoffset(None), datetime.timedelta(0))

    def test_every_tree_due_is_a_to_do_planned_or_not(self):
        to_dos = components(self.plan, "VTODO")
        self.assertEqual(len(to_dos), 9)
        visits = {str(each["UID"]) for each in components(self.plan, "VEVENT")}
        for to_do in to_dos:
            self.assertIsNotNone(to_do.get("DUE"))
            if "DTSTART" in to_do:
                self.assertLess(to_do["DTSTART"].dt, to_do["DUE"].dt)
            planned = "RELATED-TO" in to_do
            self.assertEqual(planned, "Not planned." not in str(to_do["DESCRIPTION"]))
            if planned:
                self.assertIn(str(to_do["RELATED-TO"]), visits)
            self.assertIn("label in force", str(to_do["DESCRIPTION"]))

    def test_no_identity_is_there_twice(self):
        for data in self.all:
            uids = [str(each["UID"]) for each in components(data, "VEVENT")
                    + components(data, "VTODO")]
            self.assertEqual(len(uids), len(set(uids)))

    def test_a_later_file_of_the_same_plan_has_the_same_identities_and_a_higher_sequence(self):
        for name in ("VEVENT", "VTODO"):
            before = {str(each["UID"]): each for each in components(self.plan, name)}
            after = {str(each["UID"]): each for each in components(self.later, name)}
            self.assertEqual(before.keys(), after.keys())
            for uid, each in before.items():
                self.assertLess(each["SEQUENCE"], after[uid]["SEQUENCE"])
                self.assertLess(each["LAST-MODIFIED"].dt, after[uid]["LAST-MODIFIED"].dt)

    def test_one_more_tree_of_a_site_leaves_no_visit_behind(self):
        before = {str(each["UID"]) for each in components(self.plan, "VEVENT")}
        after = {str(each["UID"]) for each in components(self.another, "VEVENT")}
        self.assertEqual(len(components(self.another, "VTODO")), 10)
        self.assertLessEqual(before, after)

    def test_visits_are_numbered_after_those_already_made(self):
        def numbers(data):
            found = {}
            for each in components(data, "VEVENT"):
                site, number = str(each["UID"]).rsplit("-", 1)
                found.setdefault(site, []).append(int(number))
            return found

        before, after = numbers(self.plan), numbers(self.visited)
        self.assertEqual(len(before), 3)
        self.assertEqual(before.keys(), after.keys())
        for site, of_site in before.items():
            self.assertEqual(of_site, list(range(1, len(of_site) + 1)))
            self.assertEqual(after[site], [number + 1 for number in of_site])

    def test_what_is_due_and_cannot_be_scheduled_is_a_to_do_with_the_reason(self):
        planned = {str(each["UID"]) for each in components(self.plan, "VTODO")}
        others = {str(each["SUMMARY"]): each for each in components(self.not_scheduled, "VTODO")
                  if str(each["UID"]) not in planned}
        self.assertEqual(sorted(others), ["Tree C1 at Elm Court: soil drench imidacloprid",
                                          "Tree C2 at Elm Court: soil drench imidacloprid"])
        with_window, without = (others[name] for name in sorted(others))
        self.assertEqual(with_window["DTSTART"].dt, datetime.date(2026, 5, 15))
        self.assertEqual(with_window["DUE"].dt, datetime.date(2026, 6, 15))
        self.assertEqual(with_window["PRIORITY"], 2)
        self.assertIn("Not planned: the label stops it. Window: 15 May 2026 to 15 June 2026",
                      str(with_window["DESCRIPTION"]))
        self.assertNotIn("DUE", without)
        self.assertNotIn("Window", str(without["DESCRIPTION"]))

    def test_after_a_lost_day_every_earlier_visit_is_moved_kept_or_cancelled(self):
        before = {str(each["UID"]): each for each in components(self.plan, "VEVENT")}
        after = {str(each["UID"]): each for each in components(self.replanned, "VEVENT")}
        self.assertLessEqual(before.keys(), after.keys())
        lost = datetime.date(2026, 5, 19)
        moved = 0
        for uid, each in before.items():
            if each["DTSTART"].dt.date() != lost:
                continue
            self.assertLess(each["SEQUENCE"], after[uid]["SEQUENCE"])
            self.assertTrue(after[uid]["DTSTART"].dt.date() > lost
                            or str(after[uid]["STATUS"]) == "CANCELLED")
            moved += 1
        self.assertGreater(moved, 0)
        to_dos = [str(each["UID"]) for each in components(self.plan, "VTODO")]
        self.assertEqual([str(each["UID"]) for each in components(self.replanned, "VTODO")],
                         to_dos)


if __name__ == "__main__":
    unittest.main()
