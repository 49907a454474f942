"""season and season calendar: windows by degree days, leaf-out and plants in bloom; the chart and
the page."""

import datetime
import html.parser
import pathlib
import re

import program
from program import BAD_INPUT, USAGE

CHICAGO = (pathlib.Path(__file__).resolve().parents[1] / "weather" / "data" /
           "chicago-daily-2001-2016.csv")
PLACE = ["--latitude", "41.8", "--longitude", "-88", "--elevation", "700 ft"]


def days(first, count, low, high):
    begin = datetime.date.fromisoformat(first)
    return "date,tmin_f,tmax_f\n" + "".join(
        f"{begin + datetime.timedelta(i)},{low},{high}\n" for i in range(count))


class OpenTags(html.parser.HTMLParser):
    """What loads from elsewhere, and whether every tag that needs it is closed."""

    VOID = {"meta", "br", "hr", "img", "link", "input"}

    def __init__(self):
        super().__init__()
        self.open, self.outside, self.tags = [], [], []

    def handle_starttag(self, tag, attrs):
        self.tags.append(tag)
        self.outside += [value for name, value in attrs if name in ("src", "href")]
        if tag not in self.VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.tags.append(tag)

    def handle_endtag(self, tag):
        assert self.open and self.open[-1] == tag, (tag, self.open)
        self.open.pop()


class Season(program.ProgramTest):
    def steady(self):
        """Ten degree days a day from 1 January: day n of the year has 10 n."""
        return ["--weather", self.write("weather.csv", days("2024-01-01", 300, 50, 70))]

    def windows(self, *words):
        return {row["method"]: row for row in self.done("season", *words, "--format", "csv").rows()}

    def chicago(self, day):
        return ["--weather", CHICAGO, "--station", "Chicago", "--as-of", day]

    # --- windows ------------------------------------------------------------------------------

    def test_without_weather_goes_by_the_calendar(self):
        rows = self.windows("--as-of", "2026-03-01", *PLACE)
        self.assertEqual(len(rows), 7)
        for name, row in rows.items():
            self.assertIn("calendar", row["opens_by"], name)
            self.assertEqual(row["opens_give_or_take_days"], "10", name)
        self.assertEqual(rows["soil_drench_imidacloprid"]["opens"], "2026-04-15")

    def test_of_a_year_too_warm_for_a_method_says_why(self):
        rows = self.windows(*self.steady(), "--as-of", "2024-10-01", "--past",
                            self.write("past.csv", days("2021-01-01", 3 * 365, 50, 70)))
        # The drench of that year would lie in January and February, when it is never done.
        self.assertEqual(rows["soil_drench_imidacloprid"]["state"], "none_here")
        self.assertIn("wholly beyond 1 March 2024", rows["soil_drench_imidacloprid"]["why_none"])

    def test_of_a_real_spring(self):
        # The same series by season heat: what the windows say must be the days of its totals.
        def day_of(total):
            found = self.done("season", "heat", "--weather", CHICAGO, "--station", "Chicago",
                              "--from", "2012-01-01", "--total", total, "--format", "json")
            return found.json()["asked"]["date"]

        rows = self.windows(*self.chicago("2012-03-10"))
        self.assertIn("projected", rows["soil_drench_imidacloprid"]["opens_by"])
        rows = self.windows(*self.chicago("2012-03-20"))
        self.assertEqual(rows["soil_drench_imidacloprid"]["opens"], day_of(100))
        self.assertIn("100 degree days", rows["soil_drench_imidacloprid"]["opens_by"])
        self.assertNotIn("projected", rows["soil_drench_imidacloprid"]["opens_by"])
        rows = self.windows(*self.chicago("2012-05-06"))
        spray = rows["cover_spray"]
        self.assertEqual(spray["opens"], day_of(450))
        self.assertEqual(spray["best_until"], day_of(500))
        self.assertEqual(
            datetime.date.fromisoformat(spray["second_time"]),
            datetime.date.fromisoformat(spray["opens"]) + datetime.timedelta(28))
        # On the day of 450 itself the drench is too late.
        drench = self.windows(*self.chicago(day_of(450)))["soil_drench_imidacloprid"]
        self.assertEqual(drench["state"], "passed_so_next_year")
        before = datetime.date.fromisoformat(day_of(450)) - datetime.timedelta(1)
        drench = self.windows(*self.chicago(str(before)))["soil_drench_imidacloprid"]
        self.assertEqual(drench["state"], "open_now")

    def test_believes_what_was_seen(self):
        seen = ["--leaf-out", "2014-05-09", "--locust-bloom", "2014-05-19"]
        rows = self.windows(*self.chicago("2014-05-20"), *seen)
        self.assertEqual(rows["trunk_injection_emamectin"]["opens"], "2014-05-09")
        self.assertEqual(rows["trunk_injection_emamectin"]["opens_by"], "full leaf-out")
        self.assertEqual(rows["cover_spray"]["opens"], "2014-05-19")
        self.assertEqual(rows["cover_spray"]["opens_by"], "Black locust in full bloom")
        text = self.done("season", *self.chicago("2014-05-20"), *seen).out
        self.assertIn("by full leaf-out", text)
        self.assertNotIn("Leaf-out: not told", text)

    def test_says_why_a_window_closes_before_it_opens(self):
        row = self.windows("--as-of", "2026-06-30", "--leaf-out", "2026-06-30",
                           *PLACE)["basal_spray_dinotefuran"]
        self.assertEqual(row["state"], "passed_so_next_year")
        self.assertIn("close on 15 June 2026", row["why_none"])
        self.assertEqual(row["opens"], "2027-05-15")
        text = " ".join(self.done("season", "basal_spray_dinotefuran", "--as-of", "2026-06-30",
                                  "--leaf-out", "2026-06-30", *PLACE).out.split())
        self.assertIn("before it opens on 30 June 2026 (by full leaf-out)", text)

    def test_shows_autumn_only_when_it_is_asked_for(self):
        self.assertNotIn("soil_drench_imidacloprid_autumn", self.windows("--as-of", "2026-03-01"))
        self.assertIn("Not offered: Soil drench of imidacloprid in autumn",
                      " ".join(self.done("season", "--as-of", "2026-03-01").out.split()))
        row = self.windows("--as-of", "2026-03-01",
                           "--autumn")["soil_drench_imidacloprid_autumn"]
        self.assertEqual((row["opens"], row["closes"]), ("2026-10-15", "2026-11-15"))
        text = " ".join(self.done("season", "--as-of", "2026-03-01", "--autumn").out.split())
        self.assertIn("Shown since you asked for it", text)
        self.assertIn("Sources disagree", text)

    def test_goes_back_to_the_calendar_without_enough_past_seasons(self):
        weather = self.write("short.csv", days("2024-01-01", 40, 50, 60))
        text = self.done("season", "soil_drench_imidacloprid", "--weather", weather, "--as-of",
                         "2024-02-09", *PLACE).out
        self.assertIn("a projection needs 3 complete past seasons", " ".join(text.split()))

    def test_warns_of_shores_by_what_the_user_says(self):
        def said(*words):
            return " ".join(self.done("season", "--as-of", "2026-03-01", *PLACE, *words).out.split())

        self.assertIn("can be weeks later", said())
        self.assertIn("24 days too early at the shore of Lake Superior", said("--shore", "yes"))
        self.assertNotIn("lake", said("--shore", "no"))
        self.refuses(BAD_INPUT, "season", "--shore", "yes", says=["--shore"])

    # --- the calendar -------------------------------------------------------------------------

    def test_calendar_gives_figures_sources_and_the_error(self):
        text = self.done("season", "calendar", "--as-of", "2026-03-01").out
        flat = " ".join(text.split())
        for part in ("First adult borers, 450 to 550", "Peak of adult borers, 1000",
                     "Egg hatch can begin, 850 to 1100", "Full bloom only",
                     "450 to 500 [illinois-2014]", "[barker-2023]", "is asked and never reckoned",
                     "No weather was given"):
            self.assertIn(part, flat)

    def test_calendar_dates_are_those_of_the_totals(self):
        words = [*self.steady(), "--as-of", "2024-10-01"]
        rows = {row["event"]: row for row in
                self.done("season", "calendar", *words, "--format", "csv").rows()}
        self.assertEqual(rows["first_adults"]["from_date"], "2024-02-14")  # day 45
        self.assertEqual(rows["first_adults"]["to_date"], "2024-02-24")
        self.assertEqual(rows["peak"]["from_date"], "2024-04-09")  # day 100 of a leap year
        self.assertEqual({row["give_or_take_days"] for row in rows.values()}, {"7"})
        found = self.done("season", "calendar", *words, "--leaf-out", "2024-05-01", "--format",
                          "json").json()
        self.assertEqual(found["leaf_out"], "2024-05-01")
        self.assertEqual(found["unit"], "degree days F")

    # --- text, chart, page --------------------------------------------------------------------

    def test_fits_the_page_and_calls_nothing_safe(self):
        for words in (["season", *self.chicago("2014-05-20")],
                      ["season", "--autumn", *self.chicago("2014-05-20"), *PLACE],
                      ["season", "calendar", *self.chicago("2014-05-20")],
                      ["season", "calendar", "--as-of", "2026-03-01"]):
            with self.subTest(words=words):
                text = self.done(*words).out
                self.assert_fits_the_page(text)
                self.assert_no_terminal_codes(text)
                self.assert_never_called_safe(text)

    def test_the_text_chart_rises_from_left_to_right(self):
        text = self.done("season", "calendar", *self.steady(), "--as-of", "2024-10-01").out
        rows = [line.split("|", 1)[1] for line in text.splitlines() if re.match(r"^[ \d]{5} \|", line)]
        self.assertEqual(len(rows), 32)
        firsts = [row.index("#") for row in reversed(rows) if "#" in row]
        self.assertGreater(len(firsts), 15)
        self.assertEqual(firsts, sorted(firsts))

    def test_the_page_stands_alone(self):
        page = self.folder / "season.html"
        self.done("season", *self.chicago("2014-05-20"), "--page", page)
        text = page.read_text()
        parsed = OpenTags()
        parsed.feed(text)
        self.assertEqual(parsed.open, [])
        self.assertEqual(parsed.outside, [])
        self.assertNotIn("script", parsed.tags)
        self.assertEqual(parsed.tags.count("svg"), 1)
        # 2002 to 2013, the projection, and the year itself.
        self.assertEqual(parsed.tags.count("polyline"), 12 + 1 + 1)
        self.assertIn("First adult borers", text)
        self.assertIn("width=device-width", text)
        self.assert_never_called_safe(text)

    def test_the_page_escapes_what_the_user_names(self):
        page = self.folder / "season.html"
        self.done("season", "calendar", *self.steady(), "--station", "<script>", "--as-of",
                  "2024-10-01", "--page", page)
        self.assertNotIn("<script>", page.read_text())
        self.assertIn("&lt;script&gt;", page.read_text())

    def test_a_dry_run_writes_no_page(self):
        self.done("season", "--as-of", "2026-03-01", "--page", self.folder / "no.html", "--dry-run")
        self.assertFalse((self.folder / "no.html").exists())

    # --- refusals -----------------------------------------------------------------------------

    def test_refuses_what_cannot_be(self):
        as_of = ["--as-of", "2026-06-01"]
        for words, says in [
            (["--leaf-out", "2026-06-02"], ["--leaf-out", "later than 2026-06-01"]),
            (["--leaf-out", "2025-05-02"], ["--leaf-out", "another year"]),
            (["--locust-bloom", "May"], ["--locust-bloom"]),
            (["--past", "old.csv"], ["--past", "--weather"]),
            (["--weather", "missing.csv"], ["missing.csv"]),
            (["moon_phase"], ["moon_phase"]),
        ]:
            with self.subTest(words=words):
                self.refuses(BAD_INPUT, "season", *words, *as_of, says=says)
        celsius = self.write("celsius.csv", days("2026-05-01", 25, 8, 19))
        self.refuses(BAD_INPUT, "season", "--weather", celsius, *as_of, says=["celsius.csv"])

    def test_refuses_what_a_command_below_does_not_hear(self):
        self.refuses(USAGE, "season", "heat", "--latitude", "42", *self.steady(),
                     says=["--latitude", "season heat"])
        self.refuses(USAGE, "season", "--autumn", "calendar", says=["--autumn"])


if __name__ == "__main__":
    program.main()
