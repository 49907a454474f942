"""What can be proved of the rules, and which trees another edition of them answers otherwise."""

import program
from program import BAD_INPUT, FINDING, USAGE


class EditedRules(program.ProgramTest):
    def copied(self, old="", new="", file="triage.yaml"):
        """The built-in rules in a folder, with one stretch of one file replaced."""
        folder = self.folder / "my-rules"
        self.done("rules", "copy", folder)
        path = folder / file
        text = path.read_text()
        self.assertIn(old, text)
        path.write_text(text.replace(old, new, 1))
        return folder


class Check(EditedRules):
    def test_the_built_in_rules_pass_in_plain_lines(self):
        shown = self.done("rules", "check").out
        self.assert_fits_the_page(shown)
        self.assert_no_terminal_codes(shown)
        self.assert_never_called_safe(shown)
        self.assertIn("Complete: whatever is seen, some rule holds.", shown)
        self.assertIn("Passed under the default settings and 9 presets", shown)

    def test_one_preset_can_be_checked_alone(self):
        self.assertIn("Passed under the preset strict",
                      self.done("rules", "check", "--preset", "strict").out)

    def test_overlaps_are_listed_on_request(self):
        self.assertNotIn("past-saving", self.done("rules", "check").out)
        listed = self.done("rules", "check", "--overlaps").out
        self.assertIn("dead and past-saving", " ".join(listed.split()))

    # Without the rule for trees that are dead nothing is left to say of a dead resistant ash.
    def test_a_gap_is_a_finding_with_an_example(self):
        rules = self.copied("{host: {one_of: [ash, resistant]}, standing_dead: yes}",
                            "{host: ash, standing_dead: yes}")
        found = self.ends(FINDING, "rules", "check", "--rules", rules)
        words = " ".join(found.out.split())
        self.assertIn("GAP: no rule holds where", words)
        self.assertIn("species manchurian ash", words)
        self.assertIn("standing dead yes", words)
        self.assertIn("Findings:", words)
        rows = self.ends(FINDING, "rules", "check", "--rules", rules, "--format", "csv").rows()
        self.assertIn(("recommendation", "gap"), [(row["table"], row["kind"]) for row in rows])
        told = self.ends(FINDING, "rules", "check", "--rules", rules, "--format", "json").json()
        self.assertFalse(told["passed"])

    def test_a_claim_that_does_not_hold_is_refuted_by_two_trees(self):
        rules = self.copied("      canopy_loss: up\n", "      canopy_loss: down\n",
                            file="evidence.yaml")
        found = " ".join(self.ends(FINDING, "rules", "check", "--rules", rules).out.split())
        self.assertIn("CLAIM REFUTED: not true that canopy loss falling", found)

    def test_rules_that_cannot_be_read_are_refused(self):
        rules = self.copied("gives: remove", "gives: fell")
        self.refuses(BAD_INPUT, "rules", "check", "--rules", rules, says=["fell", "triage.yaml"])


class Diff(EditedRules):
    LOWER_STOP = ("  stop_above:\n    value: 50", "  stop_above:\n    value: 40")

    def test_two_alike_differ_in_nothing(self):
        shown = self.done("rules", "diff", "built-in", "built-in").out
        self.assertIn("No tree gets another answer", shown)

    def test_a_lower_stop_changes_the_trees_between_the_old_and_the_new(self):
        rules = self.copied(*self.LOWER_STOP)
        shown = self.ends(FINDING, "rules", "diff", "built-in", rules).out
        self.assert_fits_the_page(shown)
        words = " ".join(shown.split())
        self.assertIn("treat becomes remove, where", words)
        self.assertIn("canopy loss is over 40 and up to 50 %", words)
        self.assertIn("There is no book", words)
        back = " ".join(self.ends(FINDING, "rules", "diff", rules, "built-in").out.split())
        self.assertIn("remove becomes treat, where", back)

    def test_presets_can_be_compared(self):
        told = self.ends(FINDING, "rules", "diff", "built-in", "built-in", "--after-preset",
                         "colorado", "--format", "json").json()
        self.assertTrue(told["differs"])
        changes = {(c["before"], c["after"]) for c in told["changes"]
                   if c["table"] == "recommendation"}
        self.assertTrue(changes)
        # A nearer start can only make rules wait: nothing is removed or treated that was not.
        self.assertEqual({after for _, after in changes}, {"monitor"})

    # Counted by hand, so to speak: the two listings side by side.
    def test_the_trees_of_the_book_that_are_affected_are_those_whose_listings_differ(self):
        rules = self.copied("  stop_above:\n    value: 50", "  stop_above:\n    value: 15")
        self.done("demo", self.folder / "demo")
        book = self.folder / "demo" / "demo.book"
        listing = ["triage", "--format", "csv", "--dry-run", "--book", book]
        before = {row["tree"]: row["recommendation"] for row in self.done(*listing).rows()}
        after = {row["tree"]: row["recommendation"]
                 for row in self.done(*listing, "--rules", rules).rows()}
        changed = {tree for tree in before if before[tree] != after[tree]}
        self.assertTrue(changed)
        told = self.ends(FINDING, "rules", "diff", "built-in", rules, "--book", book, "--format", "json").json()
        self.assertEqual(told["book"]["trees"], len(before))
        affected = {tree["tree"] for tree in told["book"]["affected"]
                    if any("becomes remove" in change for change in tree["changes"])}
        self.assertEqual(affected, changed)

    def test_what_is_no_edition_is_refused(self):
        self.refuses(BAD_INPUT, "rules", "diff", "built-in", "nowhere", says=["nowhere"])
        self.refuses(USAGE, "rules", "diff", "built-in", says=["after"])
        self.refuses(BAD_INPUT, "rules", "diff", "built-in", "built-in", "--after-preset",
                     "strickt", says=["strickt", "strict"])


if __name__ == "__main__":
    program.main()
