"""The mix sheet of a day: loads, what to carry and wear, and a card for each tree."""

import re

import program
from program import AS_OF, DATA, FINDING

OWN = ["--rules", DATA / "own_rules", "--certified"]


class Mix(program.ProgramTest):
    def setUp(self):
        super().setUp()
        self.filed_book()
        self.day = ["--book", self.book, *AS_OF]

    def test_says_for_the_tree_what_the_dose_says(self):
        dose = self.done("dose", "F1", *self.day, *OWN, "--format", "csv").rows()[0]
        sheet = self.done("mix", "F1", *self.day, *OWN)
        self.assertIn(f"product: {dose['product']} ({dose['product_twin']})", sheet.out)
        self.assertIn("AT THE TREE F1", sheet.out)
        self.assertIn("Measure again: girth", sheet.out)
        self.assertIn("Draw it up as it is.", sheet.out)
        self.assertIn("Chemical-resistant gloves", sheet.out)
        tree = sheet.out[sheet.out.index("AT THE TREE F1"):]
        self.assertIn(sheet.out.splitlines()[0], " ".join(tree.split()))  # site and date
        self.assertIn("ash, DBH", " ".join(tree.split()))
        for words in ("Invented Injection", "00000-7", "Do not inject a tree under stress.",
                      "Not before the flowers have dropped.", "Until the holes are closed."):
            self.assertIn(words, tree)
        self.assertIn("open 1 x 500 millilitres", sheet.out)
        self.assert_fits_the_page(sheet.out)
        self.assert_never_called_safe(sheet.out)

    def test_of_an_example_card_says_stop_on_every_page(self):
        sheet = self.ends(FINDING, "mix", *self.day)
        self.assertIn("STOP: EXAMPLE CARDS", sheet.out)
        self.ends(FINDING, "mix", *self.day, "--page", self.folder / "mix.html")
        page = (self.folder / "mix.html").read_text()
        self.assertIn("STOP: EXAMPLE CARDS", page)
        trees = page.count("At the tree:")
        self.assertGreater(trees, 0)
        self.assertEqual(page.count("EXAMPLE CARD: nothing may be applied by it."), trees)

    def test_the_page_stands_on_its_own(self):
        self.done("mix", "F1", *self.day, *OWN, "--page", self.folder / "mix.html")
        page = (self.folder / "mix.html").read_text()
        self.assertNotIn("EXAMPLE", page)
        self.assertIsNone(re.search(r"(src|href)=", page))
        self.assertIn("viewport", page)

    def test_what_the_acre_has_no_room_for_is_left_out_and_says_so(self):
        # The card allows 0.02 lb, 9.07 g, an acre: more than one tree of this site takes.
        listed = self.run_program("dose", *self.day, *OWN, "--format", "json").json()
        account = listed["accounts"][0]
        self.assertLessEqual(account["planned_grams"], account["allowed_grams"])
        planned = sum(tree["active_grams"] for tree in listed["trees"])
        self.assertAlmostEqual(planned, account["planned_grams"], places=6)


if __name__ == "__main__":
    program.main()
