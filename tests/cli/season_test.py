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


def station_file(first, count, low, high, latitude, longitude):
    """The wide public layout, 700 feet up, in F."""
    begin = datetime.date.fromisoformat(first)
    return "STATION,DATE,LATITUDE,LONGITUDE,ELEVATION,TMAX,TMIN\n" + "".join(
        f"X1,{begin + datetime.timedelta(i)},{latitude},{longitude},213.4,{high},{low}\n"
        for i in range(count))


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

    def test_names_how_far_the_law_was_off_inland(self):
        text = " ".join(self.done("season", "--as-of", "2026-03-01", *PLACE, "--shore", "no").out
                        .split())
        self.assertIn("right within 3 days at five inland stations", text)

    def test_says_where_there_is_hardly_any_ash(self):
        text = " ".join(self.done("season", "--as-of", "2026-03-01", "--latitude", "64",
                                  "--longitude", "-147").out.split())
        self.assertIn("hardly any ash", text)

    # --- windows that are over, weather that is old ----------------------------------------------

    def test_shows_the_dates_of_a_window_that_has_passed(self):
        text = " ".join(self.done("season", "soil_drench_imidacloprid", *self.chicago("2014-08-01"),
                                  *PLACE).out.split())
        self.assertRegex(text, r"This year's window has passed: \d+ April 2014 to \d+ May 2014")
        by_calendar = " ".join(self.done("season", "soil_drench_imidacloprid", "--as-of",
                                         "2026-08-01", *PLACE).out.split())
        self.assertIn("This year's window has passed: 15 April 2026 to 15 May 2026", by_calendar)
        row = self.windows("--as-of", "2026-08-01", *PLACE)["soil_drench_imidacloprid"]
        self.assertEqual((row["this_year_opens"], row["this_year_closes"], row["opens"]),
                         ("2026-04-15", "2026-05-15", "2027-04-15"))
        self.assertEqual(self.windows("--as-of", "2026-04-20", *PLACE)["soil_drench_imidacloprid"]
                         ["this_year_opens"], "")

    def test_says_that_a_close_was_projected_and_how_old_the_weather_is(self):
        lines = CHICAGO.read_text().splitlines(True)
        weather = self.write("old.csv", "".join(
            line for line in lines if line.startswith("date") or line[:10] <= "2016-04-30"))
        text = " ".join(self.done("season", "soil_drench_imidacloprid", "--weather", weather,
                                  "--as-of", "2016-07-15", *PLACE).out.split())
        self.assertIn("The weather ends on 30 April 2016, 76 days before 15 July 2016", text)
        self.assertIn("should have passed, by a projection and not by what was measured", text)
        fresh = self.done("season", "--weather", weather, "--as-of", "2016-05-07", *PLACE).out
        self.assertNotIn("The weather ends on", fresh)

    def test_names_the_year_of_which_nothing_is_known_and_says_it_once(self):
        text = " ".join(self.done("season", "soil_drench_imidacloprid", *self.steady(), "--as-of",
                                  "2024-10-01", *PLACE).out.split())
        self.assertEqual(text.count("since nothing is known of the weather of 2025"), 1, text)
        self.assertNotIn("100 degree days are not reached", text)

    def test_leads_into_the_reason_with_the_times_of_the_year(self):
        text = " ".join(self.done("season", "--as-of", "2026-03-01", "--autumn").out.split())
        self.assertIn("Never in autumn or winter: No adults fly then", text)
        self.assertIn("Never in winter: The soil is frozen then", text)
        self.assertNotIn("winter: Never", text)

    def test_says_plainly_when_larger_stems_should_have_been_done_before(self):
        # 100 on 22 April, 450 on 27 May: six weeks before that is 15 April.
        weather = self.write("weather.csv", days("2024-01-01", 103, 30, 45) +
                             days("2024-04-13", 150, 50, 70).split("\n", 1)[1])
        text = " ".join(self.done("season", "soil_drench_imidacloprid", "--weather", weather,
                                  "--as-of", "2024-06-01", *PLACE, "--format", "json").json()[0]
                        ["this_year_passed"]["larger_stems"]["by"].split())
        self.assertEqual(text, "100 degree days")
        told = " ".join(self.done("season", "soil_drench_imidacloprid", "--weather", weather,
                                  "--as-of", "2024-05-01", *PLACE, "--past",
                                  self.write("past.csv", days("2021-01-01", 1095, 50, 70)),
                                  "--unit-checked").out.split())
        self.assertIn("For stems over 12 in the better part would end on", told)
        self.assertNotIn("was or will be before", told)

    # --- where the weather was measured -------------------------------------------------------

    def test_takes_the_place_of_the_station_where_none_is_given_and_says_so(self):
        weather = self.write("station.csv", station_file("2024-01-01", 60, 20, 40, 47.0, -88.0))
        words = ["season", "--weather", weather, "--temperature-unit", "F", "--as-of", "2024-03-01"]
        text = " ".join(self.done(*words).out.split())
        self.assertIn("that of the station was taken: latitude 47, longitude -88", text)
        self.assertNotIn("northern Illinois. Further north", text)
        row = self.done(*words, "--format", "csv").rows()[0]
        self.assertEqual(row["opens"], "2024-06-05")  # 21 days after 15 May
        self.assertEqual((row["station"], row["as_of"]), ("X1", "2024-03-01"))
        self.assertIn("single sine, base 50 F", row["degree_days_method"])
        self.assertEqual((row["latitude"], row["longitude"]), ("47", "-88"))

    def test_warns_of_weather_from_elsewhere_with_the_days_it_makes(self):
        weather = self.write("station.csv", station_file("2024-01-01", 60, 20, 40, 42.0, -92.0))
        words = ["--weather", weather, "--temperature-unit", "F", "--as-of", "2024-03-01"]
        far = ["--latitude", "47", "--longitude", "-92", "--elevation", "700 ft"]
        for command in (["season"], ["season", "calendar"]):
            text = " ".join(self.done(*command, *words, *far).out.split())
            self.assertIn("X1 lies 5.0 degrees of latitude south of them", text)
            self.assertIn("about 20 days later at the trees", text)
        near = ["--latitude", "42.4", "--longitude", "-92", "--elevation", "700 ft"]
        self.assertNotIn("far from the trees", " ".join(
            self.done("season", *words, *near).out.split()))

    def test_refuses_weather_of_the_southern_half(self):
        weather = self.write("south.csv", station_file("2024-01-01", 60, 55, 75, -37.8, 145.0))
        words = ["--weather", weather, "--temperature-unit", "F", "--as-of", "2024-03-01"]
        for command in (["season"], ["season", "calendar"]):
            self.refuses(BAD_INPUT, *command, *words, says=["latitude -37.8", "season heat"])
        self.refuses(BAD_INPUT, "season", "heat", *words, says=["--from", "1 July"])
        self.done("season", "heat", *words, "--from", "1 January")

    def test_takes_one_file_of_past_years_each_time_and_then_the_method(self):
        past = self.write("past.csv", days("2021-01-01", 3 * 365, 50, 70))
        rows = self.done("season", *self.steady(), "--as-of", "2024-02-01", "--past", past,
                         "soil_drench_imidacloprid", "--format", "csv").rows()
        self.assertEqual([row["method"] for row in rows], ["soil_drench_imidacloprid"])

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
        for words, says in [
            (["--locust-bloom", "2016-02-28"],
             ["--locust-bloom", "28 February 2016 cannot be", "471 to 548", "--seen-checked"]),
            (["--leaf-out", "2016-03-08"], ["--leaf-out", "8 March 2016 cannot be"]),
        ]:
            with self.subTest(words=words):
                self.refuses(BAD_INPUT, "season", *words, *self.chicago("2016-06-01"), says=says)
                self.done("season", *words, "--seen-checked", *self.chicago("2016-06-01"))
        self.refuses(BAD_INPUT, "season", "--locust-bloom", "2026-02-28", *as_of, *PLACE,
                     says=["--locust-bloom", "in a usual year"])
        celsius = self.write("celsius.csv", days("2026-05-01", 25, 8, 19))
        self.refuses(BAD_INPUT, "season", "--weather", celsius, *as_of, says=["celsius.csv"])

    def test_refuses_what_a_command_below_does_not_hear(self):
        self.refuses(USAGE, "season", "heat", "--latitude", "42", *self.steady(),
                     says=["--latitude", "season heat"])
        self.refuses(USAGE, "season", "--autumn", "calendar", says=["--autumn"])


if __name__ == "__main__":
    program.main()
