"""Label cards: a blank one, what is refused, and how one is shown."""

import program
from program import BAD_INPUT, DATA, DONE, FINDING

OWN = ["--rules", DATA / "own_rules"]


class Labels(program.ProgramTest):
    def setUp(self):
        super().setUp()
        self.rules = self.folder / "rules"
        (self.rules / "labels").mkdir(parents=True)
        self.card = (DATA / "own_rules" / "labels" / "own-injection.yaml").read_text()

    def put(self, name, text):
        (self.rules / "labels" / f"{name}.yaml").write_text(text)

    def refused(self, old, new, *says):
        self.assertEqual(self.card.count(old), 1, old)
        self.put("own-injection", self.card.replace(old, new))
        return self.refuses(BAD_INPUT, "labels", "check", "--rules", self.rules,
                            says=["own-injection.yaml", *says])

    def test_a_blank_card_is_refused_until_it_is_filled_in(self):
        self.done("labels", "new", "mine", "--rules", self.rules)
        blank = (self.rules / "labels" / "mine.yaml").read_text()
        ended = self.refuses(BAD_INPUT, "labels", "check", "--rules", self.rules,
                             says=["not-filled-in", "mine.yaml"])
        self.assertIn("copy it from the label", ended.err)
        self.assertEqual(self.done("labels", "new", "mine").out, blank)

    def test_a_blank_card_once_filled_in_is_a_card(self):
        text = self.done("labels", "new", "own-injection").out
        text = text.replace("{product: ...}", "{product: 1 mL}", 1)
        filled = {"title": "A title", "method": "trunk_injection_emamectin",
                  "application": "trunk_injection", "active_ingredient": "emamectin benzoate",
                  "product": "liquid", "product_name": "A name", "registration_number": "0-1",
                  "signal_word": "none", "restricted_use": "no", "re_entry": "None.",
                  "first_aid": "Water.", "sites_cover_ash": "yes", "pests_cover_borer": "yes",
                  "checked_on": "2026-06-01"}
        for name, value in filled.items():
            self.assertIn(f"{name}: ...", text)
            text = text.replace(f"{name}: ...", f"{name}: {value}")
        text = (text.replace("{active: ..., per: ..., source: label}",
                             "{active: 40 g, per: 1 L, source: label}", 1)
                .replace("{per: ..., low: ..., usual: ..., high: ..., source: label}",
                         "{per: inch_dbh, low: 2.5 mL, usual: 5 mL, high: 10 mL, source: label}", 1)
                .replace("[...]", "[something]")
                .replace('{text: "..."', '{text: "A caution."'))
        self.put("own-injection", text)
        check = ["labels", "check", "--rules", self.rules, "--as-of", "2026-06-25"]
        self.assertIn("5 cards read", self.done(*check).out)
        # The same figures counted by the girth are 3.14 times as much.
        self.put("own-injection", text.replace("per: inch_dbh", "per: inch_girth"))
        told = self.ends(FINDING, *check).out
        self.assertIn("0.63 grams of emamectin benzoate for each inch DBH", " ".join(told.split()))
        self.assertIn("girth", told)

    # Which label is in the hand, the program cannot know.
    def test_of_two_cards_for_one_method_none_is_taken_until_it_is_named(self):
        self.filed_book()
        self.put("own-injection", self.card)
        other = self.card.replace("own-injection", "other-injection").replace("00000-7", "00000-8")
        self.put("other-injection", other)
        book = ["--book", self.book, "--rules", self.rules, *program.AS_OF]
        says = "More than one label card is for this method: other-injection and own-injection"
        for command in (["dose", "F1", "--certified"], ["explain", "F1"], ["mix", "F1"]):
            told = self.run_program(*command, *book)
            self.assertIn(says, " ".join(told.out.split()), command)
            self.assertNotIn("millilitres", told.out if command[0] == "explain" else "")
        crews = self.write("crews.yaml", self.done("schedule", "crews", "--example").out)
        told = self.run_program("schedule", "crews", "--crews", crews, *book)
        self.assertIn(says, " ".join(told.out.split()))
        named = self.run_program("dose", "F1", "--certified", "--card", "other-injection", *book)
        self.assertEqual(named.code, DONE, named)
        self.assertNotIn("More than one", named.out)

    # What is known of a method holds for its own way of application and active ingredient.
    def test_nothing_is_dosed_by_a_card_whose_method_is_another(self):
        for old, new, says in (
                ("method: trunk_injection_emamectin", "method: moon_dust", "moon_dust"),
                ("method: trunk_injection_emamectin", "method: soil_drench_imidacloprid",
                 "for a trunk injection"),
                ("active_ingredient: emamectin benzoate", "active_ingredient: inventine",
                 "for inventine")):
            with self.subTest(new=new):
                self.assertIn(old, self.card)
                self.put("own-injection", self.card.replace(old, new))
                checked = self.ends(FINDING, "labels", "check", "--rules", self.rules, "--as-of",
                                    "2026-06-25").out
                self.assertIn(says, " ".join(checked.split()))
                dosed = self.ends(FINDING, "dose", "--dbh", "10 in", "--card", "own-injection",
                                  "--rules", self.rules, "--as-of", "2026-06-25").out
                self.assertIn("STOP", dosed)
                self.assertIn(says, " ".join(dosed.split()))

    def test_a_card_that_is_there_is_not_written_over(self):
        self.put("own-injection", self.card)
        self.refuses(BAD_INPUT, "labels", "new", "own-injection", "--rules", self.rules,
                     says=["own-injection", "another name"])
        self.assertEqual((self.rules / "labels" / "own-injection.yaml").read_text(), self.card)

    def test_nonsense_is_refused_with_its_line(self):
        self.refused("usual: 6 mL", "usual: 6", "no unit", "mL")
        self.refused("{per: inch_dbh, low", "{low", "'per'")
        self.refused("percent_by_weight: 4 %", "percent_by_weight: 40 %", "does not agree")
        self.refused("high: 8 mL", "high: 5 mL", "rise")
        self.refused("application: trunk_injection", "application: trunk_injektion",
                     "trunk_injection")
        self.refused("dbh: {from: 4 in", "dbh: {from: 4 in, to: 3 in", "smallest DBH")

    def test_two_cards_of_one_label_with_other_rates_are_refused(self):
        self.put("own-injection", self.card)
        other = self.card.replace("label: own-injection", "label: twin")
        self.put("twin", other)
        self.done("labels", "check", "--rules", self.rules, "--as-of", "2026-06-25")
        self.put("twin", other.replace("usual: 6 mL", "usual: 7 mL"))
        self.refuses(BAD_INPUT, "dose", "--dbh", "12 in", "--card", "twin", "--rules", self.rules,
                     says=["own-injection", "twin", "00000-7", "rate"])

    def test_a_method_that_no_rule_gives_is_remarked(self):
        self.put("own-injection", self.card.replace("trunk_injection_emamectin",
                                                    "trunk_injection_emamektin"))
        ended = self.ends(FINDING, "labels", "check", "--rules", self.rules, "--as-of",
                          "2026-06-25")
        self.assertIn("trunk_injection_emamectin", ended.out)

    def test_more_applications_than_the_interval_leaves_room_for_are_remarked(self):
        self.put("own-injection",
                 self.card.replace("applications_per_year: 1", "applications_per_year: 2"))
        told = self.ends(FINDING, "labels", "check", "--rules", self.rules, "--as-of", "2026-06-25")
        self.assertIn("one of the two is not what the label says", " ".join(told.out.split()))

    def test_a_season_that_closes_before_it_opens_is_remarked(self):
        text = self.card.replace("\nlimits:", "\nconditions: {season: {from: 06-15, to: 05-15}, "
                                              "source: label}\nlimits:")
        self.put("own-injection", text)
        told = self.ends(FINDING, "labels", "check", "--rules", self.rules, "--as-of", "2026-06-25")
        self.assertIn("runs over the new year", " ".join(told.out.split()))

    def test_a_card_of_any_method_that_is_compared_can_be_planned_by(self):
        self.filed_book()
        self.put("own-injection", self.card.replace("trunk_injection_emamectin",
                                                    "trunk_injection_imidacloprid")
                 .replace("emamectin benzoate", "imidacloprid"))
        told = self.run_program("dose", "F1", "--card", "own-injection", "--certified", "--book",
                                self.book, "--rules", self.rules, *program.AS_OF)
        self.assertEqual(told.code, DONE, told)
        self.assertIn("imidacloprid in it:", told.out)

    def test_a_card_not_checked_for_a_year_is_remarked(self):
        ended = self.ends(FINDING, "labels", "check", *OWN, "--as-of", "2027-06-02")
        self.assertIn("more than a year ago", ended.out)
        self.ends(DONE, "labels", "check", *OWN, "--as-of", "2027-06-01")

    def test_a_card_is_shown_as_it_was_typed(self):
        shown = self.done("labels", "show", "own-injection", *OWN).out
        self.assert_fits_the_page(shown)
        for words in ["00000-7", "WARNING", "Chemical-resistant gloves", "6 millilitres",
                      "0.020 lb per acre", "injection holes apart: no more than 5.00 in",
                      "sold in: 500 millilitres", "covers an ash here: yes",
                      "product measured to: 1 millilitre", "never mix with: fertilizer",
                      "Do not inject a tree under stress.", "Water the tree on the day before."]:
            self.assertIn(words, shown)
        binding, advice = shown.index("Binding"), shown.index("Advice")
        self.assertLess(binding, shown.index("Do not inject"))
        self.assertLess(shown.index("Do not inject"), advice)
        self.assertLess(advice, shown.index("Water the tree"))


if __name__ == "__main__":
    program.main()
