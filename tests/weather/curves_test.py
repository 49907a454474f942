"""Every closed form and cutoff on a grid of days, against the integrated curve."""

import datetime
import pathlib
import sys

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent / "cli"))

import program
import reference

BASE, UPPER = 50, 86
CUTOFFS = ["none", "horizontal", "intermediate", "vertical"]

# Printed with six places; quadrature is told to be nearer than that.
NEAR = 2e-6


def grid():
    """Days of every kind: below, across and above each threshold, flat, just touching, and each
    followed by a minimum that may be higher than its maximum."""
    lows = [-10, 20, 35, 49, 49.9, 50, 50.1, 60, 75, 85.5, 86, 86.5, 95]
    highs = [-10, 30, 49.9, 50, 50.1, 60, 72.3, 85.9, 86, 86.1, 95, 110, 120]
    return [(low, high) for high in highs for low in lows if low <= high]


class Curves(program.ProgramTest):
    def test_agree_with_numerical_integration(self):
        days = grid()
        self.assertGreater(len(days), 90)
        first = datetime.date(2023, 1, 1)
        dated = [((first + datetime.timedelta(i)).isoformat(), low, high)
                 for i, (low, high) in enumerate(days)]
        name = self.write("grid.csv", "date,tmin_f,tmax_f\n" +
                          "".join(f"{date},{low},{high}\n" for date, low, high in dated))
        for method in reference.WAVES + reference.AVERAGES:
            for cutoff in CUTOFFS:
                words = ["season", "heat", "--weather", name, "--unit-checked", "--method", method,
                         "--format", "csv"]
                if cutoff != "none":
                    words += ["--upper", f"{UPPER}F", "--cutoff", cutoff]
                with self.subTest(method=method, cutoff=cutoff):
                    if method in reference.AVERAGES and cutoff in ("intermediate", "vertical"):
                        self.refuses(program.BAD_INPUT, *words, says=[cutoff, method])
                        continue
                    rows = self.done(*words).rows()
                    expected = reference.totals(dated, method, BASE, UPPER, cutoff)
                    self.assertEqual(len(rows), len(expected))
                    for row, (date, day, total), (_, low, high) in zip(rows, expected, dated):
                        self.assertEqual(row["date"], date)
                        self.assertAlmostEqual(float(row["degree_days"]), day, delta=NEAR,
                                               msg=f"{low} to {high}")
                        self.assertAlmostEqual(float(row["total"]), total,
                                               delta=NEAR * len(expected))


if __name__ == "__main__":
    program.main()
