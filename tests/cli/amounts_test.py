"""The amounts of random trees, worked out a second time with Python's own decimal and fraction
arithmetic from the figures of the card."""

import csv
import io
import random
from decimal import ROUND_DOWN, Decimal
from fractions import Fraction

import program
from program import DATA

# Of the card "own-injection": millilitres an inch, grams a litre; a mark is one millilitre.
RATES = {"low": 3, "usual": 6, "high": 8}
GRAMS_A_MILLILITRE = Fraction(40, 1000)
MILLILITRES_A_FLUID_OUNCE = Fraction("29.5735295625")  # NIST SP 811, Appendix B
GRAMS_A_POUND = Fraction("453.59237")


def shown(number, places, rounding=None):
    """A fraction as decimal text: to the nearest, a half upward, or down."""
    scaled = number * 10 ** places
    whole = scaled.__floor__() if rounding == ROUND_DOWN else (scaled + Fraction(1, 2)).__floor__()
    return f"{Decimal(whole).scaleb(-places):.{places}f}"


class Amounts(program.ProgramTest):
    def dose(self, inches, rate):
        ended = self.run_program("dose", "--dbh", f"{inches} in", "--rate", rate, "--certified",
                                 "--card", "own-injection", "--rules", DATA / "own_rules",
                                 "--as-of", "2026-06-25", "--format", "csv")
        return next(csv.DictReader(io.StringIO(ended.out)))

    def test_agree_to_the_last_digit(self):
        chance = random.Random(20260525)
        for _ in range(150):
            inches = Decimal(chance.randint(400, 6000)).scaleb(-2)
            rate = chance.choice(sorted(RATES))
            with self.subTest(inches=inches, rate=rate):
                row = self.dose(inches, rate)
                marks = (RATES[rate] * Fraction(inches)).__floor__()
                self.assertEqual(row["product"], f"{marks} millilitres")
                ounces = Fraction(marks) / MILLILITRES_A_FLUID_OUNCE
                self.assertEqual(row["product_twin"],
                                 f"{shown(ounces, 2, ROUND_DOWN)} US fluid ounces")
                grams = marks * GRAMS_A_MILLILITRE
                self.assertEqual(row["active_g"], shown(grams, 4))
                self.assertEqual(row["active_lb"], shown(grams / GRAMS_A_POUND, 6))

    # The doses of a property, added up again in decimals, card by card and part by part. Water and
    # surfactant are carried for the tank loads, each of which is rounded to a mark of its measure.
    def test_what_is_carried_is_what_the_doses_add_up_to(self):
        self.run_program("demo", self.folder / "demo")
        day = ["--book", self.folder / "demo" / "demo.book", "--as-of", "2027-05-10"]
        sums = {}
        for row in self.run_program("dose", *day, "--format", "csv").rows():
            for part in ("product", "surfactant", "carrier"):
                if not row[part]:
                    continue
                number, unit = row[part].split(" ", 1)
                key = (row["card"], part, unit)
                sums[key] = sums.get(key, Decimal(0)) + Decimal(number)
        self.assertGreater(len(sums), 4)
        mix = " ".join(self.run_program("mix", *day, "--tank", "60 gal").out.split())
        for (card, part, unit), amount in sums.items():
            self.assertIn(f": {amount} {unit} (", mix, (card, part))


if __name__ == "__main__":
    program.main()
