"""season heat: degree days from a file of daily weather, and the files it refuses."""

import datetime

import program
from program import BAD_INPUT, USAGE


def days(first, count, low, high, header="date,tmin_f,tmax_f"):
    begin = datetime.date.fromisoformat(first)
    return header + "\n" + "".join(
        f"{begin + datetime.timedelta(i)},{low},{high}\n" for i in range(count))


def without(text, *dates):
    return "".join(line for line in text.splitlines(True) if line[:10] not in dates)


class Heat(program.ProgramTest):
    def heat(self, *words):
        return self.done("season", "heat", *words)

    def weather(self, text):
        return ["--weather", self.write("weather.csv", text)]

    # --- answers ------------------------------------------------------------------------------

    def test_of_a_day_and_of_a_total(self):
        # Ten degree days a day: 45 days make 450.
        weather = self.weather(days("2024-01-01", 100, 50, 70))
        self.assertIn("450.0 degree days F are reached on 14 February 2024",
                      self.heat(*weather, "--total", 450).out)
        self.assertIn("450.0 degree days F on 14 February 2024",
                      self.heat(*weather, "--to", "2024-02-14").out)
        self.assertIn("1000.0 degree days F on 9 April 2024", self.heat(*weather).out)

    def test_names_method_base_start_unit_and_station_wherever_totals_stand(self):
        weather = self.weather(days("2024-01-01", 100, 10, 20, "date,tmin_c,tmax_c"))
        words = [*weather, "--station", "By the barn", "--base", "10C", "--method", "double-sine",
                 "--from", "1 March", "--upper", "30 C", "--cutoff", "vertical"]
        text = self.heat(*words).out
        for part in ("By the barn", "degree days C", "double sine", "base 10 C", "from 1 March",
                     "vertical cutoff at 30 C"):
            self.assertIn(part, text)
        for row in self.heat(*words, "--format", "csv").rows():
            self.assertEqual(
                [row[name] for name in ("unit", "method", "base", "start", "cutoff", "upper",
                                        "station", "basis")],
                ["degree days C", "double-sine", "10 C", "2024-03-01", "vertical", "30 C",
                 "By the barn", "measured"])
        found = self.heat(*words, "--format", "json").json()
        self.assertEqual([found[name] for name in ("unit", "method", "base", "start", "station")],
                         ["degree days C", "double-sine", "10 C", "2024-03-01", "By the barn"])

    def test_fits_the_page_and_calls_nothing_safe(self):
        weather = self.weather(days("2020-01-01", 1600, 50, 70))
        for words in ([], ["--total", 450], ["--total", 3000], ["--to", "2024-12-24"],
                      ["--total", 99999]):
            with self.subTest(words=words):
                text = self.heat(*weather, *words).out
                self.assert_fits_the_page(text)
                self.assert_no_terminal_codes(text)
                self.assert_never_called_safe(text)

    def test_answers_for_the_date_that_is_asked(self):
        weather = self.weather(days("2024-01-01", 100, 50, 70))
        self.assertIn("310.0 degree days F on 31 January 2024",
                      self.heat(*weather, "--as-of", "2024-01-31").out)

    def test_of_a_season_from_one_year_into_the_next(self):
        weather = self.weather(days("2023-01-01", 600, 50, 70))
        found = self.heat(*weather, "--from", "1 July", "--to", "2024-02-29", "--format",
                          "json").json()
        self.assertEqual(found["start"], "2023-07-01")
        self.assertAlmostEqual(found["asked"]["total"], 2440.0)  # 244 days

    # --- gaps ---------------------------------------------------------------------------------

    def test_goes_no_further_than_a_gap_unless_it_is_filled(self):
        text = without(days("2024-01-01", 100, 50, 70), "2024-02-01", "2024-02-02")
        weather = self.weather(text)
        ended = self.ends(BAD_INPUT, "season", "heat", *weather, "--total", 450)
        self.assertIn("No temperatures from 2024-02-01 to 2024-02-02", ended.out)
        self.assertIn("are not reached in what is known", ended.out)
        self.assertNotIn("2024-02-14", ended.out)
        self.assertIn("310.0 degree days F are reached on 31 January",
                      self.heat(*weather, "--total", 310).out)

        filled = self.heat(*weather, "--total", 450, "--fill", 2)
        self.assertIn("are reached on 14 February 2024", filled.out)
        self.assertIn("2 days were interpolated", filled.out)
        basis = {row["date"]: row["basis"] for row in
                 self.heat(*weather, "--fill", 2, "--format", "csv").rows()}
        self.assertEqual([basis[f"2024-02-0{day}"] for day in (1, 2, 3)],
                         ["filled", "filled", "measured"])
        self.ends(BAD_INPUT, "season", "heat", *weather, "--total", 450, "--fill", 1)

    def test_gives_no_date_beyond_a_month_with_five_missing_days_filled_or_not(self):
        missing = ["2024-02-01", "2024-02-05", "2024-02-09", "2024-02-15", "2024-02-20"]
        whole = days("2024-01-01", 100, 50, 70)
        ended = self.ends(BAD_INPUT, "season", "heat", *self.weather(without(whole, *missing)),
                          "--total", 450, "--fill", 3)
        self.assertIn("5 days of that month were not measured", " ".join(ended.out.split()))
        self.heat(*self.weather(without(whole, *missing[:4])), "--total", 450, "--fill", 3)

    # --- projections and estimates ------------------------------------------------------------

    def test_projects_from_three_past_seasons_of_the_same_place(self):
        now = self.weather(days("2024-01-01", 31, 50, 70))
        past = self.write("past.csv", days("2021-01-01", 3 * 365, 60, 80))
        found = self.heat(*now, "--past", past, "--total", 510)
        # 310 to the end of January, then 20 a day.
        self.assertIn("PROJECTED, not measured, for about 10 February 2024", found.out)
        self.assertIn("3 complete past seasons", found.out)
        total = self.heat(*now, "--past", past, "--to", "2024-02-05", "--format", "json").json()
        self.assertAlmostEqual(total["projected"]["mean"], 410.0)
        self.assertIsNone(total["asked"]["total"])
        self.assertEqual(
            self.heat(*now, "--past", past, "--total", 510, "--format", "csv").rows()[-1]["basis"],
            "projected")

    def test_projects_nothing_from_two(self):
        now = self.weather(days("2024-01-01", 31, 50, 70))
        past = self.write("past.csv", days("2022-01-01", 2 * 365, 60, 80))
        told = " ".join(self.heat(*now, "--past", past, "--total", 510).out.split())
        self.assertIn("not reached in what is known", told)
        self.assertIn("needs 3 complete past seasons", told)
        self.refuses(BAD_INPUT, "season", "heat", *now, "--past", past, "--to", "2024-02-05",
                     says=["needs 3", "are 2"])

    def test_refuses_past_years_of_another_station(self):
        header = "station,date,tmin_f,tmax_f"
        def of(station, text):
            return header + "\n" + "".join(f"{station},{line}\n" for line in text.splitlines()[1:])
        now = self.weather(of("Hill", days("2024-01-01", 31, 50, 70)))
        past = self.write("past.csv", of("Dale", days("2021-01-01", 1095, 60, 80)))
        self.refuses(BAD_INPUT, "season", "heat", *now, "--past", past, "--total", 510,
                     says=["'Dale'", "'Hill'"])

    def test_refuses_a_season_far_outside_the_past_ones_unless_it_was_checked(self):
        now = self.weather(days("2024-01-01", 31, 30, 45))
        past = self.write("past.csv", days("2021-01-01", 3 * 365, 50, 70))
        self.refuses(BAD_INPUT, "season", "heat", *now, "--past", past,
                     says=["0.0 degree days F by 31 January 2024 fit no past season",
                           "the 3 had 310.0 to 310.0", "--unit-checked"])
        self.heat(*now, "--past", past, "--unit-checked")

    def test_takes_past_years_in_another_layout_and_says_what_it_takes_for_granted(self):
        now = self.weather("station,date,tmin_f,tmax_f\n" + "".join(
            f"Hill,{line}\n" for line in days("2024-01-01", 31, 50, 70).splitlines()[1:]))
        past = self.write("past.csv", days("2021-01-01", 3 * 365, 10, 20, "DAY,LOW,HIGH"))
        words = [*now, "--past", past, "--past-columns", "date=DAY, tmin=LOW:C, tmax=HIGH:C"]
        found = self.heat(*words, "--total", 400)
        self.assertIn("PROJECTED", found.out)
        self.assertIn("names no station, and", found.out)
        self.assertIn("taken to be of the same place", " ".join(found.out.split()))

    def test_says_what_is_missing_of_a_season_that_begins_too_late(self):
        text = " ".join(self.ends(BAD_INPUT, "season", "heat",
                                  *self.weather(days("2024-01-21", 60, 50, 70))).out.split())
        self.assertIn("it begins on 1 January 2024, and the first temperatures are those of 21 "
                      "January 2024. Add the days before", text)

    def test_marks_what_comes_from_normals_as_an_estimate(self):
        months = "".join(f"{month},50,70,9\n" for month in range(1, 13))
        normals = self.write("normals.csv", "month,tmin_f,tmax_f,spread_f\n" + months)
        text = self.heat("--normals", normals, "--as-of", "2024-06-01", "--total", 450).out
        self.assertIn("EXPECTED, not measured", text)
        self.assertIn("ESTIMATE", text)
        bare = self.write("bare.csv", "month,tmin_f,tmax_f\n" + months.replace(",9\n", "\n"))
        self.refuses(BAD_INPUT, "season", "heat", "--normals", bare, says=["spread", "week late"])

    # --- what is refused ----------------------------------------------------------------------

    def test_refuses_bad_files_and_names_every_line(self):
        bad = ("date,tmin_f,tmax_f\n2024-05-01,40,60\n2024-05-01,40,60\n2024-05-03,61,60\n"
               "2024-05-02,40,60\n2024-05-05,40,600\n2999-01-01,40,60\n")
        self.refuses(BAD_INPUT, "season", "heat", *self.weather(bad),
                     says=["weather.csv:3", "duplicate-day", "weather.csv:4",
                           "minimum-above-maximum", "weather.csv:5", "out-of-order",
                           "weather.csv:6", "impossible-value", "weather.csv:7", "future-day"])

    def test_refuses_the_wrong_unit(self):
        self.refuses(BAD_INPUT, "season", "heat", *self.weather(days("2024-07-01", 31, 18, 30)),
                     says=["unit-doubtful", "C read as F"])
        fahrenheit = self.weather(days("2024-07-01", 31, 62, 84, "date,tmin_c,tmax_c"))
        self.refuses(BAD_INPUT, "season", "heat", *fahrenheit, says=["is the unit right?"])
        self.refuses(BAD_INPUT, "season", "heat",
                     *self.weather(days("2024-07-01", 3, 62, 84, "date,tmin,tmax")),
                     says=["'tmin' has no unit", "tmin_f"])

    def test_refuses_questions_that_make_no_sense(self):
        weather = self.weather(days("2024-01-01", 31, 50, 70))
        for words, says in [
            (["--method", "cosine"], ["--method", "cosine"]),
            (["--base", "warm"], ["--base", "warm"]),
            (["--base", "50"], ["--base"]),
            (["--upper", "40F"], ["not above the base"]),
            (["--cutoff", "horizontal"], ["go together"]),
            (["--from", "29 February"], ["--from", "29 February"]),
            (["--from", "2024-01-01", "--to", "2025-01-01"], ["--to", "2025-01-01"]),
            (["--total", "-5"], ["--total"]), (["--total", "many"], ["--total", "many"]),
            (["--to", "tomorrow"], ["--to", "tomorrow"]),
            (["--as-of", "2023-06-01"], ["--weather"]),
        ]:
            with self.subTest(words=words):
                self.refuses(BAD_INPUT, "season", "heat", *weather, *words, says=says)
        for words in (["--to", "2024-01-05", "--total", "5"], ["--fill", "0"],
                      ["--normals", "x.csv"]):
            with self.subTest(words=words):
                self.refuses(USAGE, "season", "heat", *weather, *words, says=["--"])
        self.refuses(USAGE, "season", "heat", says=["--weather"])


if __name__ == "__main__":
    program.main()
