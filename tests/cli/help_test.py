"""Help, the version, and command lines that cannot be understood."""

import program
from program import DONE, USAGE

COMMANDS = [
    ["walk"], ["triage"], ["explain"], ["flags"], ["methods"], ["dose"], ["season"],
    ["season", "heat"], ["season", "day"], ["season", "calendar"], ["due"], ["schedule"],
    ["report"],
    ["risk"], ["measure"], ["photo"], ["rules"], ["rules", "facts"], ["rules", "show"],
    ["rules", "check"], ["rules", "copy"], ["rules", "diff"], ["rules", "presets"],
    ["rules", "test"], ["labels"], ["labels", "list"],
    ["labels", "show"], ["labels", "new"], ["labels", "check"], ["mix"],
    ["book"], ["book", "new"], ["book", "info"], ["book", "check"], ["book", "backup"],
    ["book", "restore"], ["doctor"], ["demo"],
]


class Help(program.ProgramTest):
    def test_goes_to_standard_output_and_is_no_mistake(self):
        for command in [[], *COMMANDS]:
            with self.subTest(command=command):
                ended = self.done(*command, "--help")
                self.assertIn("Usage:", ended.out)
                self.assertEqual(ended.err, "")
                self.assert_no_terminal_codes(ended.out)
                self.assert_fits_the_page(ended.out)
        self.assertEqual(list(self.home.iterdir()), [])

    def test_lists_every_command(self):
        listed = self.done("--help").out
        for command in COMMANDS:
            if len(command) == 1:
                self.assertRegex(listed, rf"(?m)^  {command[0]}\s")

    def test_tells_the_exit_codes(self):
        self.assertIn("Exit codes", self.done("--help").out)

    def test_the_version_is_one_line(self):
        self.assertRegex(self.done("--version").out, r"\Aashtriage \d+\.\d+\.\d+\n\Z")


class CommandLineRefused(program.ProgramTest):
    def test_suggests_the_nearest_command(self):
        for words, suggestion in [
            (["triag"], '"triage"'), (["flag"], '"flags"'), (["shedule"], '"schedule"'),
            (["book", "chekc"], '"check"'), (["rules", "fact"], '"facts"'),
            (["labels", "lst"], '"list"'),
        ]:
            with self.subTest(words=words):
                self.refuses(USAGE, *words, says=[f'"{words[-1]}"', f"Did you mean {suggestion}"])

    def test_suggests_the_nearest_option(self):
        for words, written, suggestion in [
            (["triage", "--form", "x.csv"], "--form", "--from"),
            (["explain", "A1", "--clent"], "--clent", "--client"),
            (["season", "--lattitude", "42"], "--lattitude", "--latitude"),
            (["book", "info", "--dryrun"], "--dryrun", "--dry-run"),
            (["--boook", "x", "triage"], "--boook", "--book"),
        ]:
            with self.subTest(words=words):
                self.refuses(USAGE, *words, says=[f'"{written}"', f'Did you mean "{suggestion}"'])

    def test_an_unlikely_word_gets_no_far_fetched_suggestion(self):
        ended = self.refuses(USAGE, "xylophone", says=['"xylophone"'])
        self.assertNotIn("Did you mean", ended.err)

    def test_says_what_is_missing(self):
        for words, missing in [
            ([], "command"), (["book"], "command"), (["rules"], "command"), (["explain"], "tree"),
            (["demo"], "folder"), (["photo"], "file"), (["book", "backup"], "to"),
            (["book", "restore"], "from"), (["risk", "--failure", "possible"], "--impact"),
        ]:
            with self.subTest(words=words):
                self.refuses(USAGE, *words, says=[missing, "--help"])

    def test_names_the_values_an_option_can_have(self):
        for words, known in [
            (["rules", "facts", "--format", "xml"], ["xml", "text", "csv", "json"]),
            (["dose", "--rate", "huge"], ["huge", "low", "usual", "high"]),
        ]:
            with self.subTest(words=words):
                self.refuses(USAGE, *words, says=known)

    def test_a_word_too_many_is_named(self):
        self.refuses(USAGE, "book", "new", "surplus", says=["surplus"])
        self.refuses(USAGE, "triage", "surplus", says=["surplus"])

    def test_options_may_stand_before_or_after_the_command(self):
        before = self.done("--format", "csv", "rules", "presets")
        after = self.done("rules", "presets", "--format", "csv")
        self.assertEqual(before.out, after.out)
        self.assertEqual((before.code, after.code), (DONE, DONE))


if __name__ == "__main__":
    program.main()
