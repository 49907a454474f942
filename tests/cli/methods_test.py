"""methods: every method of treatment for a tree, ranked, open or ruled out, with the reasons."""

import program
from program import AS_OF, BAD_INPUT, BOOK, DATA, DONE, FINDING, USAGE

HEADER = ("tree,species,dbh,leaves,standing_dead,canopy_dieback,canopy_thinning,structure,"
          "infestation_distance,owner_value,site_quality,utility_conflict,treatment_history,"
          "public_tree,botanical_only,owner_applies,wounds_unwanted,distance_to_water,soil,"
          "flowers_in_root_zone\n")


def row(label, dbh="10 in", dieback="5 %", botanical="no", owner="no", wounds="no", water="100 ft",
        soil="loam", flowers="no"):
    return (f"{label},green ash,{dbh},in leaf,no,{dieback},5 %,sound,4 miles,high,good,no,never,no,"
            f"{botanical},{owner},{wounds},{water},{soil},{flowers}\n")


# Everything the comparison asks beyond a walk-around, with nothing against any method.
NOTHING_AGAINST = ["--know", "borer_pressure: low", "--know", "ground_water_shallow: no",
                   "--know", "edibles_near: no", "--know", "thick_bark: no",
                   "--know", "drift_exposure: none", "--know", "restricted_use_certified: yes"]


class Methods(program.ProgramTest):
    def sheet(self, *rows):
        return self.write("trees.csv", HEADER + "".join(rows))

    def methods(self, *words, code=DONE):
        """The rows of the CSV form, by method."""
        ended = self.ends(code, "methods", *words, *AS_OF, "--format", "csv")
        return {each["method"]: each for each in ended.rows()}

    def test_ranks_every_method_when_nothing_is_against_any(self):
        sheet = self.sheet(row("G1"))
        methods = self.methods("G1", "--from", sheet, *NOTHING_AGAINST)
        self.assertEqual(len(methods), 7)
        self.assertEqual({each["standing"] for each in methods.values()}, {"ranked"})
        self.assertEqual(sorted(int(each["rank"]) for each in methods.values()), list(range(1, 8)))
        first = methods["trunk_injection_emamectin"]
        self.assertEqual((first["rank"], first["first_choice"], first["fits"]), ("1", "yes", "good"))

    def test_the_first_choice_is_the_one_that_explain_names(self):
        sheet = self.sheet(row("G1", owner="yes"), row("G2", wounds="yes"), row("G3", dbh="20 in"),
                           row("G4", botanical="yes"))
        for label in ["G1", "G2", "G3", "G4"]:
            with self.subTest(label=label):
                told = self.done("explain", label, "--from", sheet, *AS_OF, "--format", "json")
                chosen = told.json()[0]["treatment"]["method"]
                methods = self.methods(label, "--from", sheet)
                self.assertEqual(methods[chosen]["rank"], "1")
                self.assertEqual(methods[chosen]["first_choice"], "yes")

    # Smitley, Doccola and Cox 2010: 0.1 to 0.4 g of emamectin benzoate for an inch, for 2 to 3
    # years; 1.42 g of imidacloprid for an inch every year.
    def test_the_active_ingredient_of_a_year_follows_from_the_published_rates(self):
        methods = self.methods("G1", "--from", self.sheet(row("G1", dbh="12 in")))
        injection = methods["trunk_injection_emamectin"]
        self.assertAlmostEqual(float(injection["active_grams_a_year_from"]), 12 * 0.1 / 3)
        self.assertAlmostEqual(float(injection["active_grams_a_year_to"]), 12 * 0.4 / 2)
        drench = methods["soil_drench_imidacloprid"]
        self.assertAlmostEqual(float(drench["active_grams_a_year_to"]), 12 * 1.42)
        # No rate is relied upon: nothing is made up.
        self.assertEqual(methods["basal_spray_dinotefuran"]["active_grams_a_year_to"], "")

    def test_every_method_ruled_out_says_why(self):
        methods = self.methods("G1", "--from", self.sheet(row("G1", water="20 ft", soil="sandy")))
        for name in ["soil_drench_imidacloprid", "soil_dinotefuran", "basal_spray_dinotefuran",
                     "cover_spray"]:
            with self.subTest(method=name):
                self.assertEqual(methods[name]["standing"], "ruled out")
                self.assertIn("Water is 20 ft away", methods[name]["because"])
                self.assertEqual(methods[name]["rank"], "")
        self.assertIn("sandy", methods["soil_dinotefuran"]["because"])
        self.assertEqual(methods["trunk_injection_emamectin"]["standing"], "ranked")

    def test_what_is_not_known_leaves_a_method_open_and_is_named(self):
        methods = self.methods("G1", "--from", self.sheet(row("G1", water="", soil="")))
        drench = methods["soil_drench_imidacloprid"]
        self.assertEqual(drench["standing"], "open")
        self.assertIn("distance_to_water", drench["to_find_out"].split("; "))
        self.assertIn("soil", drench["to_find_out"].split("; "))

    def test_what_is_known_besides_closes_it(self):
        sheet = self.sheet(row("G1", water="", soil=""))
        known = ["--know", "distance_to_water: 10 ft"]
        self.assertEqual(self.methods("G1", "--from", sheet, *known)["cover_spray"]["standing"],
                         "ruled out")

    def test_an_unfit_day_is_a_reason_to_wait(self):
        sheet = self.sheet(row("G1", owner="yes"))
        ended = self.done("methods", "G1", "--from", sheet, *AS_OF, "--know", "soil_state: frozen")
        self.assertIn("Not today: The soil is frozen", ended.out)
        self.assertIn("1. Soil drench or soil injection of imidacloprid (first choice)", ended.out)

    def test_says_that_the_dates_of_the_first_choice_are_over(self):
        sheet = self.sheet(row("G1", owner="yes"))
        told = self.done("methods", "G1", "--from", sheet, "--as-of", "2026-06-25")
        self.assertIn("The dates of the first choice are over for this year", told.out)
        in_time = self.done("methods", "G1", "--from", sheet, "--as-of", "2026-04-20")
        self.assertNotIn("are over for this year", in_time.out)

    def test_names_a_tree_for_which_no_method_is_left(self):
        sheet = self.sheet(row("G1", dieback="70 %"))
        ended = self.ends(FINDING, "methods", "G1", "--from", sheet, *AS_OF)
        self.assertIn("Not compared", ended.out)
        only = self.methods("G1", "--from", sheet, code=FINDING)
        self.assertEqual([each["standing"] for each in only.values()], ["not compared"])
        # Of a list some trees are never treated.
        self.done("methods", "--from", sheet, *AS_OF)

    def test_says_first_that_a_hazard_has_to_be_judged(self):
        sheet = self.write("trees.csv", HEADER.replace("\n", ",soil_mounding\n")
                           + row("G1").replace("\n", ",yes\n"))
        ended = self.done("methods", "G1", "--from", sheet, *AS_OF)
        self.assertIn("Not before: ", ended.out)
        self.assertLess(ended.out.index("Not before: "), ended.out.index("1. "))

    def test_the_owner_sees_words_and_no_codes(self):
        sheet = self.sheet(row("G1"), row("G2", water="10 ft"))
        ended = self.done("methods", "--client", "--from", sheet, *AS_OF)
        for text in ["How often: every 2 years", "Wound: Small drilled holes", "Found for this size",
                     "emamectin benzoate: 0.33 to 2.0 g a year", "It could reach the water nearby."]:
            self.assertIn(text, ended.out)
        self.assertNotRegex(ended.out, r"[a-z]_[a-z]|\[[a-z]")
        self.assert_fits_the_page(ended.out)
        self.assert_never_called_safe(ended.out)

    def test_every_form_names_the_same_methods(self):
        book = ["--book", self.filed_book()]
        rows = self.done("methods", *book, *AS_OF, "--format", "csv").rows()
        told = self.done("methods", *book, *AS_OF, "--format", "json").json()
        listed = [(tree["tree"], each["method"], each["standing"])
                  for tree in told["trees"] for each in tree["methods"]]
        self.assertEqual([(each["tree"], each["method"], each["standing"])
                          for each in rows if each["method"]], listed)
        self.assertTrue(listed)

    def test_sources_of_every_rule_are_in_the_json(self):
        told = self.done("methods", "--from", self.sheet(row("G1")), *AS_OF, "--format", "json")
        for each in told.json()["trees"][0]["methods"]:
            for kind in ["ruled_out_by", "against", "in_favour", "wait_for"]:
                for reason in each[kind]:
                    self.assertTrue(reason["sources"], reason)

    def test_refuses_what_it_cannot_understand(self):
        sheet = self.sheet(row("G1"))
        here = ["methods", "G1", "--from", sheet, *AS_OF]
        self.refuses(BAD_INPUT, *here, "--know", "soil_stat: frozen", says=["--know", "soil_state"])
        self.refuses(BAD_INPUT, *here, "--know", "soil_state: icy", says=["--know", "frozen"])
        self.refuses(BAD_INPUT, *here, "--know", "frozen", says=["soil_state: moist"])
        self.refuses(BAD_INPUT, *here, "--know", "dbh: 14", says=["stems"])
        self.refuses(BAD_INPUT, *here, "--know", "soil: clay", says=["recorded", "G1", "loam"])
        book = self.filed_book()
        for known in ("soil: sandy", "distance_to_water: 500 ft"):
            self.refuses(BAD_INPUT, "methods", "F1", "--book", book, *AS_OF, "--know", known,
                         says=["recorded of the site", "F1"])
        self.refuses(BAD_INPUT, *here, "--know", "thick_bark: no", "--know", "thick_bark: yes",
                     says=["thick_bark"])
        self.refuses(BAD_INPUT, "methods", "G9", "--from", sheet, *AS_OF, says=["G9"])
        self.refuses(USAGE, *here, "--know", says=["--know"])
        self.refuses(BOOK, "methods", "G1", "--book", self.folder / "none.book", says=["none.book"])

    def test_no_walk_around_is_the_longer_for_it(self):
        asked = self.run_program("walk", "--site", "Larchfield", "--tree", "A9", "--book", self.book,
                                 *AS_OF, stdin="?\n" * 3).out
        for text in ["shallow here", "How common is the borer", "drifting spray", "restricted-use"]:
            self.assertNotIn(text, asked)


if __name__ == "__main__":
    program.main()
