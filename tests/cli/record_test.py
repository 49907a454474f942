"""Applications as they were done: sheets, what is missing, corrections, copies, notices, and the
acre account that follows them."""

import program
from program import BAD_INPUT, DATA, DONE, FINDING

OWN = ["--rules", DATA / "own_rules"]
DAY = ["--as-of", "2026-06-25"]


class Record(program.ProgramTest):
    def setUp(self):
        super().setUp()
        self.filed_book()
        self.with_card = ["--book", self.book, *OWN, *DAY]

    def tree_to_inject(self):
        rows = self.ends(FINDING, "dose", "--book", self.book, *DAY, "--format", "csv").rows()
        return [row["tree"] for row in rows if row["product"]][0]

    def blank_sheet(self, tree):
        return self.done("record", "new", tree, "--card", "own-injection", "--certified",
                         *self.with_card).out

    def filled(self, text, **entries):
        for name, value in entries.items():
            lines = text.splitlines(keepends=True)
            at = [i for i, line in enumerate(lines) if line.strip().startswith(f"{name}:")]
            self.assertEqual(len(at), 1, name)
            indent = lines[at[0]][: len(lines[at[0]]) - len(lines[at[0]].lstrip())]
            lines[at[0]] = f'{indent}{name}: "{value}"\n'
            text = "".join(lines)
        return text

    def sheet(self, tree, product="60 mL", **entries):
        text = self.blank_sheet(tree)
        return self.write("sheet.yaml", self.filled(text, product=product, start_time="07:40",
                                                    applicator_name="R. Example",
                                                    applicator_license="C-1", **entries))

    def recorded(self):
        tree = self.tree_to_inject()
        ended = self.done("record", "add", self.sheet(tree), *self.with_card)
        self.assertIn("application number 1", ended.out)
        return tree

    def test_says_at_once_by_when_what_is_missing_has_to_be_there(self):
        told = " ".join(self.done("record", "add", self.sheet(self.tree_to_inject()),
                                  *self.with_card).out.split())
        self.assertRegex(told, r"Still missing .* to be complete by \d+ June 2026:")

    def test_of_trees_that_the_label_stops_there_is_no_sheet(self):
        tree = self.recorded() and self.tree_to_inject()
        told = self.ends(FINDING, "record", "new", tree, "--card", "own-injection",
                         "--certified", *self.with_card)
        self.assertEqual(told.out, "")
        self.assertRegex(" ".join(told.err.split()), "STOP: .*STOP: none of these trees may be")

    def test_a_tree_that_is_none_to_be_treated_is_named_beside_its_record(self):
        tree = self.tree_to_inject()
        text = self.sheet(tree).read_text()
        self.assertNotIn("none to be treated", self.done("record", "add", self.sheet(tree),
                                                         "--dry-run", *self.with_card).out)
        sheet = self.write("slip.yaml", text.replace(f'tree: "{tree}"', 'tree: "F2"'))
        told = " ".join(self.run_program("record", "add", sheet, *self.with_card).out.split())
        self.assertIn("WARNING: F2: by the walk-around of 20 June 2026 it is none to be treated",
                      told)
        self.assertIn("remove", told)

    # --- the sheet and the book ---------------------------------------------------------------

    def test_the_sheet_knows_what_the_plan_knows_and_nothing_of_what_was_used(self):
        tree = self.tree_to_inject()
        text = self.blank_sheet(tree)
        self.assertIn(f'tree: "{tree}"', text)
        self.assertIn('product_name: "Invented Injection"', text)
        self.assertIn('registration_number: "00000-7"', text)
        self.assertRegex(text, r'planned_product: "\d+ mL"')
        for entry in ("product", "total_product", "start_time", "wind_speed", "applicator_name"):
            self.assertRegex(text, rf"(?m)^ *{entry}: +#")

    def test_a_record_is_kept_with_what_was_used_against_what_was_planned(self):
        self.recorded()
        shown = self.done("record", "show", "1", *self.with_card)
        self.assertIn("Used 60 mL of product", shown.out)
        self.assertIn("than planned", shown.out)
        self.assert_fits_the_page(shown.out)
        self.assert_never_called_safe(shown.out)
        listed = self.done("record", "list", *self.with_card)
        self.assertIn("trunk injection", listed.out)
        self.done("book", "check", "--book", self.book)

    def test_the_active_ingredient_is_worked_out_from_the_strength(self):
        self.recorded()
        record = self.done("record", "show", "1", *self.with_card, "--format", "json").json()[0]
        # 60 mL at 40 g a litre.
        self.assertEqual(record["active_ingredients"],
                         [{"name": "emamectin benzoate", "mass": "2.4 g"}])

    def test_a_dry_run_records_nothing(self):
        sheet = self.sheet(self.tree_to_inject())
        before = self.files()
        ended = self.done("record", "add", sheet, "--dry-run", *self.with_card)
        self.assertIn("would be recorded", ended.out)
        self.assertEqual(self.files(), before)

    def test_a_written_sheet_is_not_overwritten(self):
        tree = self.tree_to_inject()
        words = ["record", "new", tree, "--card", "own-injection", "--certified", "--to",
                 self.folder / "new.yaml", *self.with_card]
        self.done(*words)
        before = (self.folder / "new.yaml").read_bytes()
        self.refuses(BAD_INPUT, *words, says=["already"])
        self.assertEqual((self.folder / "new.yaml").read_bytes(), before)

    # --- what stops ---------------------------------------------------------------------------

    def test_nothing_is_recorded_by_an_example(self):
        tree = self.tree_to_inject()
        self.refuses(FINDING, "record", "new", tree, "--book", self.book, *DAY,
                     says=["STOP", "EXAMPLE"])
        sheet = self.sheet(tree, label_card="example-emamectin-trunk-injection")
        self.refuses(BAD_INPUT, "record", "add", sheet, *self.with_card, says=["EXAMPLE"])
        self.assertIn("No application", self.done("record", "list", *self.with_card).out)

    def test_more_than_the_label_allows_is_recorded_and_named(self):
        tree = self.tree_to_inject()
        ended = self.ends(FINDING, "record", "add", self.sheet(tree, product="900 mL"),
                          *self.with_card)
        self.assertIn("STOP:", ended.out)
        self.assertIn("more than", ended.out)
        self.assertIn("application number 1", ended.out)

    def test_a_second_treatment_too_soon_is_named_before_and_after(self):
        tree = self.recorded()
        dose = self.ends(FINDING, "dose", tree, "--card", "own-injection", "--certified",
                         *self.with_card)
        self.assertIn("allows it again", dose.out)
        self.assertIn("25 June 2027", dose.out)
        again = self.ends(FINDING, "record", "add", self.folder / "sheet.yaml", *self.with_card)
        self.assertIn("was treated with emamectin benzoate on 25 June 2026", again.out)

    def test_work_that_is_still_to_come_is_not_recorded(self):
        sheet = self.sheet(self.tree_to_inject(), work_date="2026-06-26", written_on="2026-06-26")
        self.refuses(BAD_INPUT, "record", "add", sheet, *self.with_card, says=["still to come"])

    def test_a_sheet_with_a_slip_is_refused_whole_with_every_slip_named(self):
        sheet = self.sheet(self.tree_to_inject(), total_product="60", wind_speed="4 knots")
        self.refuses(BAD_INPUT, "record", "add", sheet, *self.with_card,
                     says=["sheet.yaml:", "total_product", "wind_speed"])
        self.assertIn("No application", self.done("record", "list", *self.with_card).out)

    def test_unknown_trees_policies_and_numbers_are_named(self):
        sheet = self.sheet(self.tree_to_inject())
        sheet.write_text(sheet.read_text().replace('- tree: "', '- tree: "X'))
        self.refuses(BAD_INPUT, "record", "add", sheet, *self.with_card, says=["There is no tree"])
        self.refuses(BAD_INPUT, "record", "list", "--policy", "minesota", *self.with_card,
                     says=["minnesota"])
        self.refuses(BAD_INPUT, "record", "show", "7", *self.with_card, says=["number 7"])

    # --- what the law wants -------------------------------------------------------------------

    def test_what_is_missing_is_named_with_the_day_it_is_due(self):
        self.recorded()
        ended = self.done("record", "missing", *self.with_card)
        self.assertIn("missing: the wind speed", ended.out)
        self.assertIn("25 June 2026", ended.out)
        self.assertIn("25 July 2026", ended.out)  # the customer's copy, 30 days
        late = self.ends(FINDING, "record", "missing", "--book", self.book, *OWN,
                         "--as-of", "2026-06-30")
        self.assertIn("OVERDUE", late.out)
        self.assertNotIn("110", late.out)

    def test_a_policy_of_a_state_asks_for_its_own_fields(self):
        self.recorded()
        strictest = self.done("record", "missing", *self.with_card).out.count("missing:")
        other = self.done("record", "missing", "--policy", "minnesota", *self.with_card)
        self.assertLess(other.out.count("missing:"), strictest)
        self.assertIn("Minnesota", other.out)

    def test_a_copy_that_was_given_is_written_into_the_record(self):
        self.recorded()
        self.done("record", "copy", "1", "--given", "2026-06-25", "--by", "R. Example",
                  *self.with_card)
        self.assertNotIn("customer has to have", self.done("record", "missing",
                                                           *self.with_card).out)

    # --- corrections --------------------------------------------------------------------------

    def test_a_correction_takes_the_place_and_the_old_record_stays(self):
        self.recorded()
        text = self.done("record", "new", "--of", "1", "--by", "S. Example", "--because",
                         "The wind was forgotten.", *self.with_card).out
        sheet = self.write("correction.yaml", self.filled(text, wind_speed="3 mph"))
        self.done("record", "add", sheet, *self.with_card)
        self.assertIn("Wind speed: 3 mph", self.done("record", "show", "2", *self.with_card).out)
        self.assertNotIn("Wind speed", self.done("record", "show", "1", *self.with_card).out)
        every = self.done("record", "list", "--all", *self.with_card).out
        self.assertIn("superseded by 2", every)
        self.assertNotIn("superseded", self.done("record", "list", *self.with_card).out)
        self.refuses(BAD_INPUT, "record", "new", "--of", "1", *self.with_card,
                     says=["was corrected by number"])

    def test_the_account_follows_a_corrected_amount(self):
        self.recorded()
        text = self.done("record", "new", "--of", "1", "--by", "S. Example", "--because",
                         "The measure was read wrong.", *self.with_card).out
        wrong = self.write("wrong.yaml", self.filled(text, product="70 mL", total_product="70 mL",
                                                     mass="2.4 g"))
        self.refuses(BAD_INPUT, "record", "add", wrong, *self.with_card, says=["2.4 g", "2.8 g"])
        sheet = self.write("correction.yaml", self.filled(text, product="70 mL",
                                                          total_product="70 mL"))
        self.done("record", "add", sheet, *self.with_card)
        _, account = self.account()
        self.assertEqual(account["accounts"][0]["used_g"], "2.800")  # 70 mL at 40 g a litre

    def test_a_withdrawn_application_no_longer_counts(self):
        tree = self.recorded()
        self.done("record", "withdraw", "1", "--by", "S. Example", "--because", "Never done.",
                  *self.with_card)
        self.assertIn("No application", self.done("record", "list", *self.with_card).out)
        account = self.done("account", "--card", "own-injection", *self.with_card)
        self.assertNotIn("application 1", account.out)
        self.assertIn(tree, self.blank_sheet(tree))
        # Nothing brings it back, and nothing that is handed on tells it as done.
        for number, why in (("1", "was withdrawn by number 2"), ("2", "only withdraws number 1")):
            for words in (["copy", number], ["copy", number, "--given", DAY[1], "--by", "R."],
                          ["notice", number], ["new", "--of", number, "--by", "R.", "--because",
                                               "A slip."]):
                self.refuses(BAD_INPUT, "record", *words, *self.with_card, says=[why])
            for command in ("show", "medical"):
                told = self.done("record", command, number, *self.with_card).out
                self.assertIn("NOT IN FORCE", told)
                self.assertIn(why, " ".join(told.split()))

    def test_a_copy_is_not_given_on_a_day_to_come(self):
        self.recorded()
        self.refuses(BAD_INPUT, "record", "copy", "1", "--given", "2026-06-26", "--by", "R.",
                     *self.with_card, says=["--given", "still to come"])

    # --- what is handed on --------------------------------------------------------------------

    def test_the_medical_sheet_is_there_before_the_record_is_finished(self):
        self.recorded()
        for words in (["1"], ["--from", self.folder / "sheet.yaml"]):
            ended = self.done("record", "medical", *words, *self.with_card)
            for text in ("NOT FINISHED", "Invented Injection", "00000-7", "emamectin benzoate",
                         "Rinse eyes with water", "1-800-222-1222", "07:40"):
                self.assertIn(text, ended.out)
            self.assert_fits_the_page(ended.out)

    def test_notices_name_the_work_and_not_the_customer(self):
        self.recorded()
        customer = self.done("record", "show", "1", *self.with_card, "--format", "json").json()[0]
        self.assertTrue(customer["customer_name"])
        for whom in ("site", "neighbours"):
            ended = self.done("record", "notice", "1", "--for", whom, *self.with_card)
            self.assertNotIn(customer["customer_name"], ended.out)
            for text in ("Invented Injection", "emamectin benzoate", "Until the holes are closed",
                         "local rule"):
                self.assertIn(text, ended.out)
            self.assert_fits_the_page(ended.out)
            self.assert_never_called_safe(ended.out)

    def test_a_notice_before_the_work_says_what_is_planned(self):
        sheet = self.sheet(self.tree_to_inject())
        ended = self.done("record", "notice", "--from", sheet, "--for", "neighbours", *OWN,
                          "--as-of", "2026-06-20")
        self.assertIn("going to be treated", ended.out)
        self.assertIn("What is planned", ended.out)

    def test_pages_hold_what_was_typed_as_text_and_nothing_from_elsewhere(self):
        tree = self.tree_to_inject()
        self.done("record", "add", self.sheet(tree, location="<b>lawn</b> & drive"),
                  *self.with_card)
        for part in ("show", "copy", "medical", "notice"):
            page = self.folder / f"{part}.html"
            self.done("record", part, "1", "--page", page, *self.with_card)
            text = page.read_text()
            self.assertIn("&lt;b&gt;lawn&lt;/b&gt; &amp; drive", text)
            self.assertNotIn("http", text)
            self.assertNotIn("{{", text)

    def test_names_of_customers_are_exported_only_when_asked_for(self):
        self.recorded()
        row = self.done("record", "export", *self.with_card).rows()[0]
        self.assertNotIn("customer_name", row)
        self.assertEqual(row["total_product"], "60 mL")
        self.assertEqual(row["number_of_trees"], "1")
        self.assertIn(row["dbh_sum"], row["trees"])
        row = self.done("record", "export", "--with-names", *self.with_card).rows()[0]
        self.assertTrue(row["customer_name"])
        data = self.done("record", "export", *self.with_card, "--format", "json").json()
        self.assertNotIn("customer_name", data[0])
        self.assertEqual(data[0]["trees"][0]["product"], "60 mL")

    # --- what other commands say afterwards ----

    def test_no_command_gives_an_amount_that_the_label_stops(self):
        tree = self.recorded()
        says = "the label allows it again from"
        for words in (["explain", tree], ["report"], ["dose", tree, "--certified"]):
            told = " ".join(self.run_program(*words, *self.with_card).out.split())
            self.assertIn(says, told, words)
            if words[0] != "report":  # of the whole property
                self.assertNotIn("millilitres", told, words)

    def test_a_use_counts_as_that_of_its_card(self):
        sheet = self.sheet(self.tree_to_inject(), counted_as="soil")
        self.refuses(BAD_INPUT, "record", "add", sheet, *self.with_card,
                     says=['counts as "injection"'])

    def test_a_dbh_that_is_missing_or_unlike_the_book_is_no_way_round_the_label(self):
        tree = self.tree_to_inject()
        text = self.sheet(tree, product="400 mL", dbh="").read_text()
        told = self.ends(FINDING, "record", "add", "--dry-run",
                         self.write("none.yaml", text.replace('dbh: ""', "dbh:")), *self.with_card)
        self.assertIn("is more than the", " ".join(told.out.split()))
        told = self.done("record", "add", "--dry-run", self.sheet(tree, dbh="60 in"),
                         *self.with_card)
        self.assertIn("Measure again", " ".join(told.out.split()))

    # --- the acre account ---------------------------------------------------------------------

    def account(self, *words):
        ended = self.run_program("account", "--card", "own-injection", *words, *self.with_card,
                                 "--format", "json")
        return ended, ended.json()

    def test_the_account_follows_what_was_done_and_what_else_was_used(self):
        self.recorded()
        _, account = self.account()
        self.assertEqual(account["accounts"][0]["used_g"], "2.400")
        self.done("account", "use", "emamectin benzoate", "1.5 g", "--what", "shrubs",
                  *self.with_card)
        _, account = self.account()
        self.assertEqual(account["accounts"][0]["used_g"], "3.900")
        self.assertEqual([each["what"] for each in account["used"]][1], "other use 1: shrubs")
        self.done("account", "withdraw", "use", "1", "--by", "R. Example", "--because", "A slip.",
                  *self.with_card)
        _, account = self.account()
        self.assertEqual(account["accounts"][0]["used_g"], "2.400")

    def test_a_raised_limit_counts_only_when_somebody_has_read_it(self):
        raise_it = ["account", "raise", "emamectin benzoate", "0.04 lb", "--reference", "SLN-0",
                    "--jurisdiction", "Invented State", "--expires", "2026-12-31", "--by",
                    "R. Example", *self.with_card]
        before = float(self.account()[1]["accounts"][0]["allowed_g"])
        self.refuses(FINDING, *raise_it, says=["STOP", "--i-have-read-it"])
        self.assertEqual(float(self.account()[1]["accounts"][0]["allowed_g"]), before)
        self.done(*raise_it, "--i-have-read-it")
        raised = self.account()[1]["accounts"][0]
        self.assertAlmostEqual(float(raised["allowed_g"]), 2 * before, delta=0.002)
        self.assertEqual(raised["raised_by"], "SLN-0")

    def test_a_name_that_no_card_has_and_a_limit_that_raises_nothing_are_named(self):
        ended = self.done("account", "use", "emamectin benzoat", "1 g", "--what", "shrubs",
                          *self.with_card)
        self.assertIn('mean "emamectin benzoate"', " ".join(ended.out.split()))
        self.assertNotIn("it counts toward", " ".join(ended.out.split()))
        ended = self.done("account", "use", "emamectin benzoate", "1 g", "--what", "shrubs",
                          *self.with_card)
        self.assertNotIn("WARNING", ended.out)
        self.assertIn("it counts toward", " ".join(ended.out.split()))

        def raised(limit):
            ended = self.done("account", "raise", "emamectin benzoate", limit, "--reference", "S",
                              "--jurisdiction", "Invented State", "--expires", "2026-12-31",
                              "--by", "R. Example", "--i-have-read-it", *self.with_card)
            return " ".join(ended.out.split())

        self.assertIn("does not raise its limit", raised("0.01 lb"))
        self.assertNotIn("WARNING", raised("0.04 lb"))
        self.assertIn("more than twice that", raised("0.041 lb"))

    def test_another_use_that_no_card_counts_is_not_said_to_count(self):
        card = (DATA / "own_rules" / "labels" / "own-injection.yaml").read_text()
        rules = self.folder / "rules"
        (rules / "labels").mkdir(parents=True)
        (rules / "labels" / "own-injection.yaml").write_text(
            card.replace("active_per_acre_per_year: 0.02 lb\n",
                         "active_per_acre_per_year: 0.02 lb\n  counting: [injection, soil]\n"))
        use = ["account", "use", "emamectin benzoate", "1 g", "--what", "turf", "--book", self.book,
               "--rules", rules, *DAY]
        told = " ".join(self.done(*use).out.split())
        self.assertNotIn("it counts toward", told)
        self.assertIn("say --counted", told)
        self.assertIn("it counts toward", " ".join(self.done(*use, "--counted", "soil").out.split()))

    def test_an_amount_nobody_wrote_down_stops_the_account(self):
        tree = self.tree_to_inject()
        text = self.filled(self.blank_sheet(tree), start_time="07:40")
        self.done("record", "add", self.write("sheet.yaml", text), *self.with_card)
        ended, account = self.account()
        self.assertEqual(ended.code, FINDING)
        self.assertIn("application 1", account["untold"][0])
        self.assertEqual(account["accounts"][0]["planned_g"], "0.000")

    def test_the_account_of_example_cards_says_so_and_stops(self):
        for form in ("text", "json"):
            ended = self.ends(FINDING, "account", "--book", self.book, *DAY, "--format", form)
            self.assertRegex(ended.out, "EXAMPLE|\"example\": true")

    def test_an_amount_without_a_unit_or_a_bare_ounce_is_refused(self):
        for amount in ("40", "2 oz", "-1 g", "0 g"):
            self.refuses(BAD_INPUT, "account", "use", "imidacloprid", "--what", "turf",
                         *self.with_card, "--", amount, says=[])


if __name__ == "__main__":
    program.main()
