"""The rules themselves: shown in words, listed, and copied to be changed."""

import html.parser
import shutil

import program
from program import BAD_INPUT, DATA, USAGE

RULES = DATA.parents[2] / "rules"


class PageReader(html.parser.HTMLParser):
    """Reads a page as a browser does: every element that is opened is closed in its turn, and every
    link within the page leads somewhere."""

    VOID = {"meta", "br"}

    def __init__(self):
        super().__init__()
        self.open = []
        self.ids = set()
        self.links = set()
        self.rows = 0

    def handle_starttag(self, tag, attrs):
        attrs = dict(attrs)
        if tag not in self.VOID:
            self.open.append(tag)
        self.rows += tag == "tr"
        if "id" in attrs:
            assert attrs["id"] not in self.ids, attrs
            self.ids.add(attrs["id"])
        if "href" in attrs:
            assert attrs["href"].startswith("#"), attrs
            self.links.add(attrs["href"][1:])

    def handle_endtag(self, tag):
        assert self.open.pop() == tag, tag


class Show(program.ProgramTest):
    def test_text_fits_the_page_and_names_settings_with_their_values(self):
        shown = self.done("rules", "show").out
        self.assert_fits_the_page(shown)
        self.assert_no_terminal_codes(shown)
        self.assert_never_called_safe(shown)
        # rules/triage.yaml: stop_above is 50 percent, start_within 15 miles.
        self.assertIn("canopy loss above 50 % (setting stop_above)", shown)
        self.assertIn("infestation distance at most 15 mi (setting start_within)", shown)

    def test_a_preset_changes_the_figures_and_is_named(self):
        shown = self.done("rules", "show", "recommendation", "--preset", "strict").out
        self.assertIn("canopy loss above 30 % (setting stop_above)", shown)
        self.assertIn("Preset: strict.", " ".join(shown.split()))

    def test_tables_come_after_those_that_feed_them_in_every_form(self):
        tables = self.done("rules", "show", "--format", "json").json()["tables"]
        names = [table["table"] for table in tables]
        seen = []
        for table in tables:
            self.assertLessEqual(set(table["fed_by"]), set(seen), table["table"])
            seen.append(table["table"])
        text = self.done("rules", "show").out
        self.assertEqual([line.split()[2] for line in text.splitlines()
                          if line.startswith("Written  table ")], names)
        markdown = self.done("rules", "show", "--format", "markdown").out
        self.assertEqual([line.split("`")[1] for line in markdown.splitlines()
                          if line.startswith("- Written: table ")], names)

    def test_what_feeds_a_table_is_fed_by_it_too(self):
        tables = {table["table"]: table for table in
                  self.done("rules", "show", "--format", "json").json()["tables"]}
        for name, table in tables.items():
            for other in table["feeds"]:
                self.assertIn(name, tables[other]["fed_by"])
            for other in table["fed_by"]:
                self.assertIn(name, tables[other]["feeds"])

    def test_every_rule_of_the_files_is_shown(self):
        written = {line.split("id:")[1].split(",")[0].strip().strip("}")
                   for name in ("evidence", "hazard", "method_day", "method_fit", "methods", "triage")
                   for line in (RULES / f"{name}.yaml").read_text().splitlines()
                   if line.strip().startswith(("- id:", "- {id:"))}
        shown = [rule["rule"]
                 for table in self.done("rules", "show", "--format", "json").json()["tables"]
                 for rule in table["rules"]]
        self.assertEqual(sorted(shown), sorted(written))

    def test_the_page_is_well_formed_and_leads_nowhere_else(self):
        page = self.done("rules", "show", "--format", "html").out
        reader = PageReader()
        reader.feed(page)
        reader.close()
        self.assertEqual(reader.open, [])
        self.assertGreater(reader.rows, 50)
        self.assertLessEqual(reader.links, reader.ids)
        for outside in ("http", "<script", "url("):
            self.assertNotIn(outside, page)
        self.assert_never_called_safe(page)

    def test_some_tables_only(self):
        shown = self.done("rules", "show", "recommendation", "host", "--format", "json").json()
        self.assertEqual([table["table"] for table in shown["tables"]], ["host", "recommendation"])

    def test_an_unknown_table_is_refused_with_the_nearest(self):
        self.refuses(BAD_INPUT, "rules", "show", "recomendation",
                     says=['"recomendation"', "recommendation"])

    def test_has_forms_of_its_own_before_and_after_the_command(self):
        before = self.done("--format", "markdown", "rules", "show", "host").out
        self.assertEqual(before, self.done("rules", "show", "host", "--format", "markdown").out)
        self.refuses(USAGE, "rules", "show", "--format", "csv", says=["csv", "markdown", "html"])
        self.refuses(USAGE, "rules", "facts", "--format", "html", says=["html", "csv"])
        self.refuses(USAGE, "--format", "markdown", "triage", says=["markdown", "csv"])


class Facts(program.ProgramTest):
    def test_say_the_same_in_all_three_forms(self):
        objects = self.done("rules", "facts", "--format", "json").json()
        rows = self.done("rules", "facts", "--format", "csv").rows()
        text = self.done("rules", "facts").out
        self.assertEqual([row["fact"] for row in rows], [item["fact"] for item in objects])
        for item, row in zip(objects, rows):
            with self.subTest(fact=item["fact"]):
                self.assertEqual(set(row), set(item))
                self.assertEqual(row["ask"], item["ask"])
                self.assertEqual(row["kind"], item["kind"])
                self.assertEqual(row["only_if"], item["only_if"] or "")
                self.assertEqual(row["sources"], ", ".join(item["sources"]))
                self.assertIn(f"\n{item['fact']}\n", text)
                for level in item["levels"]:
                    self.assertIn(level["level"], row["levels"])

    def test_tell_what_the_files_say(self):
        facts = {item["fact"]: item for item in
                 self.done("rules", "facts", "--format", "json").json()}
        # rules/facts.yaml
        dieback = facts["canopy_dieback"]
        self.assertEqual((dieback["kind"], dieback["unit"]), ("number", "percent"))
        self.assertEqual((dieback["lowest"], dieback["highest"], dieback["eye_error"]),
                         (0, 100, 10))
        self.assertEqual(facts["exit_hole_shape"]["only_if"], "exit holes at least 1")
        self.assertEqual(facts["galleries_seen"]["effort"], "dig")
        self.assertTrue(facts["hanging_limbs"]["safety"])
        self.assertTrue(facts["dbh"]["worked_out"])
        self.assertFalse(facts["species"]["changeable"])
        self.assertEqual(facts["bark_splits"]["levels"][1],
                         {"level": "few", "help": "One or two upright splits."})


class Copy(program.ProgramTest):
    def hash(self, *words):
        return self.done("rules", "show", "host", "--format", "json", *words).json()["hash"]

    def copied(self):
        return {str(path.relative_to(self.folder / "mine")): path.read_bytes()
                for path in (self.folder / "mine").rglob("*") if path.is_file()}

    def test_of_the_built_in_rules_is_the_rules_folder_byte_for_byte(self):
        self.done("rules", "copy", "mine")
        original = {str(path.relative_to(RULES)): path.read_bytes()
                    for path in RULES.rglob("*.yaml")}
        self.assertEqual(self.copied(), original)
        self.assertEqual(self.hash("--rules", "mine"), self.hash())

    def test_of_a_copy_that_was_changed_keeps_the_change(self):
        self.done("rules", "copy", "first")
        changed = self.folder / "first" / "triage.yaml"
        changed.write_text(changed.read_text().replace("value: 15\n", "value: 12\n", 1))
        self.done("rules", "copy", "mine", "--rules", "first")
        self.assertEqual(self.hash("--rules", "mine"), self.hash("--rules", "first"))
        self.assertNotEqual(self.hash("--rules", "mine"), self.hash())

    def test_says_what_to_do_next_with_a_name_that_a_shell_takes_whole(self):
        told = self.done("rules", "copy", "my rules").out
        for command in ("check", "test"):
            self.assertIn(f"ashtriage rules {command} --rules 'my rules'", told)
        self.assertIn("ashtriage rules diff built-in 'my rules'", told)

    def test_writes_over_nothing_and_writes_nothing_at_all_then(self):
        mine = self.folder / "mine" / "labels"
        mine.mkdir(parents=True)
        kept = self.write("mine/hazard.yaml", "pack: hazard\n")
        before = self.files()
        ended = self.refuses(BAD_INPUT, "rules", "copy", "mine",
                             says=["hazard.yaml", "--replace", "Nothing was written"])
        self.assertNotIn("triage.yaml", ended.err)
        self.assertEqual(self.files(), before)
        self.refuses(BAD_INPUT, "rules", "copy", "mine", "--dry-run", says=["hazard.yaml"])
        self.done("rules", "copy", "mine", "--replace")
        self.assertEqual(kept.read_bytes(), (RULES / "hazard.yaml").read_bytes())
        self.assertEqual(self.hash("--rules", "mine"), self.hash())

    def test_a_dry_run_names_the_files_and_writes_none(self):
        told = self.done("rules", "copy", "mine", "--dry-run").out
        for path in RULES.rglob("*.yaml"):
            self.assertIn(f"  {path.relative_to(RULES)}\n", told)
        self.assertFalse((self.folder / "mine").exists())

    def test_leaves_other_rule_files_alone_and_says_that_they_count(self):
        self.done("rules", "copy", "mine")
        card = self.folder / "mine" / "labels" / "own.yaml"
        shutil.copy(RULES / "labels" / "example-emamectin-trunk-injection.yaml", card)
        told = self.done("rules", "copy", "mine", "--replace").out
        self.assertTrue(card.exists())
        self.assertIn("other rule files", told)

    def test_refuses_a_folder_with_a_file_that_no_rules_folder_may_hold(self):
        self.write("mine.yaml", "")
        self.refuses(BAD_INPUT, "rules", "copy", "mine.yaml", says=["file, not a folder"])
        (self.folder / "mine").mkdir()
        self.write("mine/trige.yaml", "")
        before = self.files()
        self.refuses(BAD_INPUT, "rules", "copy", "mine", says=["trige.yaml"])
        self.assertEqual(self.files(), before)

    def test_a_failure_on_the_way_leaves_nothing_behind(self):
        (self.folder / "mine" / "labels").mkdir(parents=True)
        # In the place of a file that is written first, beside its own, there is a folder.
        (self.folder / "mine" / "triage.yaml.part").mkdir()
        before = self.files()
        self.refuses(BAD_INPUT, "rules", "copy", "mine", says=["triage.yaml", "cannot be written"])
        self.assertEqual(self.files(), before)


if __name__ == "__main__":
    program.main()
