"""Open series of daily weather, year by year and method by method, against an independent
reckoning; and what is projected or expected from them. Sources: data/README.md."""

import csv
import datetime
import pathlib
import statistics
import sys

HERE = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "cli"))

import program
import reference

CHICAGO = HERE / "data" / "chicago-daily-2001-2016.csv"
NEW_YORK = HERE / "data" / "new-york-2012-2015.csv"
NEW_YORK_COLUMNS = ["--columns", "station=location, date=date, tmin=temp_min:C, tmax=temp_max:C, "
                                 "rain=precipitation:mm"]
METHODS = reference.AVERAGES + reference.WAVES


def read(path, date, low, high):
    with open(path, newline="") as file:
        return [(row[date], float(row[low]), float(row[high])) for row in csv.DictReader(file)]


def season(days, first):
    """The days from `first` for a year, and the day after as the next one of the last."""
    begin = datetime.date.fromisoformat(first)
    end = begin.replace(year=begin.year + 1).isoformat()
    rows = [day for day in days if first <= day[0] < end]
    after = [(None, low, high) for date, low, high in days if date == end]
    return rows + after


class Years(program.ProgramTest):
    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        cls.chicago = read(CHICAGO, "date", "tmin_f", "tmax_f")
        cls.new_york = read(NEW_YORK, "date", "temp_min", "temp_max")

    def compare(self, words, days, first, base, method, upper=None):
        heat = ["season", "heat", *words, "--from", first, "--method", method, "--format", "csv"]
        cutoff = "none"
        if upper is not None:
            cutoff = "horizontal"
            heat += ["--upper", upper[0]]
        rows = self.done(*heat).rows()
        expected = reference.totals(season(days, first), method, base,
                                    upper[1] if upper else None, cutoff)
        self.assertEqual(len(rows), len(expected))
        self.assertIn(len(rows), (365, 366))
        for row, (date, day, total) in zip(rows, expected):
            self.assertEqual(row["date"], date)
            self.assertAlmostEqual(float(row["degree_days"]), day, delta=1e-4, msg=date)
            self.assertAlmostEqual(float(row["total"]), total, delta=1e-2, msg=date)

    def test_of_chicago_by_every_method(self):
        for year in range(2002, 2016):
            for method in METHODS:
                with self.subTest(year=year, method=method):
                    self.compare(["--weather", CHICAGO], self.chicago, f"{year}-01-01", 50, method)

    def test_of_chicago_with_an_upper_threshold(self):
        for method in METHODS:
            with self.subTest(method=method):
                self.compare(["--weather", CHICAGO], self.chicago, "2012-01-01", 50, method,
                             upper=("86F", 86))

    def test_of_new_york_in_celsius_by_every_method(self):
        for year in range(2012, 2016):
            for method in METHODS:
                with self.subTest(year=year, method=method):
                    self.compare(["--weather", NEW_YORK, *NEW_YORK_COLUMNS, "--base", "10C"],
                                 self.new_york, f"{year}-01-01", 10, method)

    def test_from_other_days_of_the_year(self):
        for first in ["2011-07-01", "2012-03-01", "2011-03-01"]:  # 2012 has a 29 February
            with self.subTest(first=first):
                self.compare(["--weather", CHICAGO], self.chicago, first, 50, "single-sine")

    # --- what follows from them ---------------------------------------------------------------

    def sine_totals(self, year):
        return reference.totals(season(self.chicago, f"{year}-01-01"), "single-sine", 50)

    def date_of(self, totals, wanted):
        return next(datetime.date.fromisoformat(date) for date, _, total in totals
                    if total >= wanted - 1e-9)

    def test_the_day_of_a_total(self):
        for year in range(2002, 2016):
            for wanted in (450, 1000):
                with self.subTest(year=year, wanted=wanted):
                    found = self.done("season", "heat", "--weather", CHICAGO, "--from",
                                      f"{year}-01-01", "--total", wanted, "--format", "json").json()
                    self.assertEqual(found["asked"]["date"],
                                     self.date_of(self.sine_totals(year), wanted).isoformat())

    def test_a_projection_from_past_years(self):
        known_to, wanted, years = "2015-05-01", 450, range(2002, 2015)
        found = self.done("season", "heat", "--weather", CHICAGO, "--as-of", known_to, "--total",
                          wanted, "--format", "json").json()
        known = [total for date, _, total in self.sine_totals(2015) if date == known_to][0]
        # The last known day has no next one by then, which the single sine does not look at.
        added = {}
        for year in years:
            totals = self.sine_totals(year)
            begin = [total for date, _, total in totals if date == f"{year}-05-01"][0]
            added[year] = [total - begin for date, _, total in totals if date > f"{year}-05-01"]
        days = [next(i for i, more in enumerate(added[year], 1) if known + more >= wanted)
                for year in years]
        mean = next(i for i in range(1, 200)
                    if known + statistics.mean(added[y][i - 1] for y in years) >= wanted)

        def after(days):
            return (datetime.date.fromisoformat(known_to) + datetime.timedelta(days)).isoformat()

        projected = found["projected"]
        self.assertEqual(projected["seasons"], len(years))
        self.assertEqual(projected["earliest"], after(min(days)))
        self.assertEqual(projected["latest"], after(max(days)))
        self.assertEqual(projected["mean"], after(mean))
        self.assertAlmostEqual(projected["standard_deviation_days"], statistics.stdev(days))

    def expected_from_normals(self, spread_of):
        """The day of the year on which 450 are expected, from the monthly means of whole years."""
        days = [day for day in self.chicago if "2002" <= day[0][:4] <= "2015"]
        table = "month,tmin_f,tmax_f,spread_f\n"
        for month in range(1, 13):
            rows = [day for day in days if int(day[0][5:7]) == month]
            table += ",".join(str(value) for value in (
                month, statistics.mean(low for _, low, _ in rows),
                statistics.mean(high for _, _, high in rows),
                spread_of([(low + high) / 2 for _, low, high in rows]))) + "\n"
        found = self.done("season", "heat", "--normals", self.write("normals.csv", table),
                          "--as-of", "2015-12-31", "--total", 450, "--format", "json").json()
        self.assertTrue(found["estimate_from_normals"])
        return datetime.date.fromisoformat(found["asked"]["date"]).timetuple().tm_yday

    def test_normals_come_near_the_mean_of_the_years_only_with_their_spread(self):
        actual = statistics.mean(self.date_of(self.sine_totals(year), 450).timetuple().tm_yday
                                 for year in range(2002, 2016))
        self.assertLess(abs(self.expected_from_normals(statistics.stdev) - actual), 3)
        # As good as none: late by about a week.
        self.assertGreater(self.expected_from_normals(lambda means: 0.001) - actual, 5)


if __name__ == "__main__":
    program.main()
