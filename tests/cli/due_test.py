"""due: which trees are due for treatment, overdue, too soon or missed."""

import program
from program import BAD_INPUT, BOOK, DATA, DONE, FINDING, USAGE

OWN = ["--rules", DATA / "own_rules"]
DAY = "2026-06-25"


class Due(program.ProgramTest):
    def setUp(self):
        super().setUp()
        self.filed_book()

    def record(self):
        """Injects the tree on the day, by the card of the tests."""
        with_card = ["--book", self.book, *OWN, "--as-of", DAY]
        lines = self.done("record", "new", "F1", "--card", "own-injection", "--certified",
                          *with_card).out.splitlines()
        for name, value in {"product": "60 mL", "start_time": "07:40",
                            "applicator_name": "R. Example",
                            "applicator_license": "C-1"}.items():
            at = next(i for i, line in enumerate(lines) if line.strip().startswith(f"{name}:"))
            indent = lines[at][: len(lines[at]) - len(lines[at].lstrip())]
            lines[at] = f'{indent}{name}: "{value}"'
        sheet = self.write("sheet.yaml", "\n".join(lines) + "\n")
        self.done("record", "add", sheet, *with_card)

    def due(self, day, *words, code=DONE):
        ended = self.ends(code, "due", "--book", self.book, *OWN, "--as-of", day, *words,
                          "--format", "csv")
        return {row["tree"]: row for row in ended.rows()}

    def test_a_tree_without_a_treatment_is_named_with_its_window(self):
        trees = self.due(DAY)
        self.assertEqual(trees["F1"]["state"], "never treated")
        self.assertEqual(trees["F1"]["first_day"], DAY)
        self.assertEqual(trees["F2"]["state"], "not to be treated")

    # The card of the tests allows it again after 12 months, and the interval is 2 years or 3.
    def test_a_treated_tree_is_too_soon_then_not_due_then_due_then_missed(self):
        self.record()
        first = self.due(DAY)["F1"]
        self.assertEqual((first["state"], first["allowed_from"]), ("too soon", "2027-06-25"))
        self.assertEqual(first["due_year"], "2028")
        self.assertEqual(self.due("2027-06-24")["F1"]["state"], "too soon")
        self.assertEqual(self.due("2027-06-25")["F1"]["state"], "not yet due")
        self.assertEqual(self.due("2028-01-01")["F1"]["state"], "due")
        missed = self.due("2028-09-01", code=FINDING)["F1"]
        self.assertEqual((missed["state"], missed["window_passed"]), ("missed", "2028-08-31"))
        self.assertEqual(self.due("2029-06-01", code=FINDING)["F1"]["state"], "overdue")

    def test_the_wave_decides_how_long_an_injection_lasts(self):
        self.record()
        for wave, year in [("coming", "2028"), ("here", "2028"), ("past", "2029")]:
            self.assertEqual(self.due(DAY, "--wave", wave)["F1"]["due_year"], year)

    def test_a_tree_is_looked_at_again_in_the_year_of_its_treatment(self):
        self.record()
        self.assertEqual(self.due(DAY)["F1"]["look_again"], "no")
        self.assertEqual(self.due("2028-06-01")["F1"]["look_again"], "yes")
        told = self.ends(DONE, "due", "--book", self.book, *OWN, "--as-of", "2028-06-01").out
        self.assertIn("look at it again", " ".join(told.split()))
        self.assertEqual(self.due("2026-01-01")["F1"]["state"], "not looked at")

    # The window of a drench in northern Illinois is over by the middle of May; injections go on.
    def test_a_window_that_is_over_names_another_method_that_is_still_in_time(self):
        tree = {"tree": "G1", "observer": "R. Example", "date": "2026-05-20",
                "species": "green ash", "dbh": "10 in", "leaves": "in leaf",
                "standing_dead": "no", "canopy_dieback": "5 %", "canopy_thinning": "5 %",
                "structure": "sound", "infestation_distance": "4 miles", "owner_value": "high",
                "site_quality": "good", "utility_conflict": "no", "treatment_history": "never",
                "public_tree": "no", "botanical_only": "no", "owner_applies": "yes",
                "wounds_unwanted": "no", "distance_to_water": "100 ft", "soil": "loam",
                "flowers_in_root_zone": "no", "borer_pressure": "low",
                "ground_water_shallow": "no", "edibles_near": "no", "thick_bark": "no",
                "drift_exposure": "none", "restricted_use_certified": "yes"}
        sheet = self.write("trees.csv", ",".join(tree) + "\n" + ",".join(tree.values()) + "\n")
        self.done("walk", "--from", sheet, "--site", "Elm Court", "--book", self.book,
                  "--as-of", "2026-05-20")
        row = self.due(DAY, "--site", "Elm Court")["G1"]
        self.assertEqual(row["method"], "soil_drench_imidacloprid")
        self.assertEqual(row["window_passed"], "2026-05-15")
        self.assertEqual(row["instead"], "trunk_injection_emamectin")
        self.assertEqual(row["first_day"], "2027-04-15")
        # In the autumn nothing is in time any more.
        self.assertEqual(self.due("2026-09-15", "--site", "Elm Court")["G1"]["instead"], "")

    def test_what_is_told_fits_the_page_and_says_stop(self):
        self.record()
        told = self.done("due", "--book", self.book, *OWN, "--as-of", DAY).out
        self.assert_fits_the_page(told)
        self.assert_never_called_safe(told)
        self.assertIn("STOP: the label card allows it again from 25 June 2027",
                      " ".join(told.split()))
        example = self.done("due", "--book", self.book, "--as-of", DAY).out
        self.assertIn("EXAMPLE", example)

    def test_json_holds_the_same(self):
        self.record()
        told = self.done("due", "--book", self.book, *OWN, "--as-of", DAY, "--format",
                         "json").json()
        tree = next(each for each in told["trees"] if each["tree"] == "F1")
        self.assertEqual(tree["last"]["method"], "trunk_injection_emamectin")
        self.assertEqual(tree["allowed_from"], "2027-06-25")

    def test_refuses_what_there_is_not(self):
        self.refuses(BAD_INPUT, "due", "--book", self.book, "--site", "Larchfeld",
                     says=["Larchfield"])
        self.refuses(USAGE, "due", "--wave", "gone", says=["--wave"])
        self.refuses(BOOK, "due", "--book", self.folder / "none.book", says=["none.book"])


if __name__ == "__main__":
    program.main()
