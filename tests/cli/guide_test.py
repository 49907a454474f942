"""The rule author's guide: every example in it is done as it says, in the order in which it stands.

What a block of code is for is said where a reader sees it too:

    sh      commands, run in one scratch folder; a line that fails on purpose says so in its comment,
            "# exit code 1"
    text    after commands: what they printed, "..." standing for what is left out
    yaml    below "In `FILE`:" the whole file; below "At the end of `FILE`, add:" more of it; below
    csv     "In `FILE`, replace:" and "by:" a change; below "From `FILE`:" a stretch of what it holds
"""

import pathlib
import re
import subprocess
import unittest

import program

ROOT = program.DATA.parents[2]
GUIDE_PARTS = [ROOT / "docs" / "rule-authors-guide.md", ROOT / "docs" / "rule-authors-guide-2.md"]
GUIDE = "\n".join(part.read_text() for part in GUIDE_PARTS)
SHELL = "/bin/bash"
LEFT_OUT = "..."


class WrongExample(AssertionError):
    def __init__(self, line, what):
        super().__init__(f"line {line}: {what}")


class Block:
    def __init__(self, kind, line, lead, text):
        self.kind = kind  # what stands behind the fence: "sh"
        self.line = line
        self.lead = lead  # the last line before it that is not empty
        self.text = text


def blocks_of(guide):
    blocks = []
    lead = ""
    inside = None
    for number, line in enumerate(guide.splitlines(), start=1):
        if inside is not None:
            if line == "```":
                inside.text = "".join(f"{part}\n" for part in inside.text)
                blocks.append(inside)
                inside = None
                lead = ""
            else:
                inside.text.append(line)
        elif line.startswith("```"):
            inside = Block(line[3:], number, lead, [])
        elif line.strip():
            lead = line.strip()
    if inside is not None:
        raise WrongExample(inside.line, "the block has no end")
    return blocks


def says(expected, printed):
    """Whether the expected lines are what was printed: "..." alone stands for any number of lines,
    "..." inside a line for what changes there."""
    if not expected:
        return not printed
    if expected[0] == LEFT_OUT:
        return any(says(expected[1:], printed[skipped:]) for skipped in range(len(printed) + 1))
    if not printed:
        return False
    parts = map(re.escape, expected[0].split(LEFT_OUT))
    return bool(re.fullmatch(".*".join(parts), printed[0])) and says(expected[1:], printed[1:])


class Reader:
    """Does what a guide says."""

    def __init__(self, folder, environment):
        self.folder = folder
        self.environment = environment
        self.printed = None  # by the commands just run
        self.replaced = None  # (file, old text) that waits for what replaces it
        self.commands = 0

    def read(self, guide):
        for block in blocks_of(guide):
            action = {"sh": self.run, "text": self.compare, "yaml": self.write,
                      "csv": self.write}.get(block.kind)
            if action is None:
                raise WrongExample(block.line, f"a block of the kind {block.kind!r}")
            action(block)
        if self.replaced is not None:
            raise WrongExample(0, "nothing says by what the last stretch is replaced")

    def run(self, block):
        self.printed = ""
        for line in block.text.splitlines():
            if not line or line.startswith("#"):
                continue
            ended = subprocess.run([SHELL, "-c", line], cwd=self.folder, env=self.environment,
                                   stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                                   stderr=subprocess.STDOUT, check=False,
                                   timeout=program.LONGEST_RUN_SECONDS)
            told = re.search(r"# exit code (\d+)", line)
            expected = int(told.group(1)) if told else 0
            printed = ended.stdout.decode()
            if ended.returncode != expected:
                raise WrongExample(block.line, f"{line}\nended with exit code {ended.returncode} "
                                               f"and not {expected}\n{printed}")
            self.printed += printed
            self.commands += 1

    def compare(self, block):
        if self.printed is None:
            raise WrongExample(block.line, "no commands stand before what was printed")
        if not says(block.text.splitlines(), self.printed.splitlines()):
            raise WrongExample(block.line, f"the guide says\n{block.text}\nbut printed was\n"
                                           f"{self.printed}")
        self.printed = None

    def write(self, block):
        if block.lead == "by:":
            self.replace(block)
            return
        for pattern, action in [
            (r"In `([^`]+)`:$", lambda path, text: path.write_text(text)),
            (r"At the end of `([^`]+)`, add:$", self.append),
            (r"In `([^`]+)`, replace:$", self.remember),
            (r"From `([^`]+)`:$", self.find),
        ]:
            found = re.search(pattern, block.lead)
            if not found:
                continue
            try:
                action(self.folder / found.group(1), block.text)
            except (OSError, ValueError) as error:
                raise WrongExample(block.line, str(error)) from error
            return
        raise WrongExample(block.line, "nothing says what the block is for")

    @staticmethod
    def append(path, text):
        path.write_text(path.read_text() + text)

    def remember(self, path, text):
        if path.read_text().count(text) != 1:
            raise ValueError(f"{path.name} does not hold this once:\n{text}")
        self.replaced = (path, text)

    @staticmethod
    def find(path, text):
        if text not in path.read_text():
            raise ValueError(f"{path.name} does not hold this:\n{text}")

    def replace(self, block):
        if self.replaced is None:
            raise WrongExample(block.line, "nothing says what is replaced")
        path, old = self.replaced
        path.write_text(path.read_text().replace(old, block.text))
        self.replaced = None


class GuideTest(program.ProgramTest):
    def setUp(self):
        super().setUp()
        programs = self.folder / "bin"
        programs.mkdir()
        (programs / "ashtriage").symlink_to(program.program_path())
        self.scratch = self.folder / "work"
        self.scratch.mkdir()
        environment = dict(self.environment)
        environment["PATH"] = f"{programs}:{environment['PATH']}"
        self.reader = Reader(self.scratch, environment)


class Guide(GuideTest):
    def test_every_example_does_what_the_guide_says(self):
        for part in GUIDE_PARTS:
            try:
                self.reader.read(part.read_text())
            except WrongExample as error:
                self.fail(f"{part.name}, {error}")
        self.assertGreater(self.reader.commands, 10)

    def test_every_refusal_of_a_rule_file_is_explained(self):
        used = set()
        for path in (ROOT / "engine" / "packs").glob("*.cpp"):
            for call in re.finditer(r"\brefuse\((.*?)\);\n", path.read_text(), re.DOTALL):
                used.update(re.findall(r'"([a-z]+(?:-[a-z0-9]+)+)"', call.group(1)))
                # A name of one word stands first, and no other text right after it.
                used.update(re.findall(r'\A\s*"([a-z]+)",\s*[a-z{]', call.group(1)))
        self.assertGreater(len(used), 45)
        section = GUIDE.split("by the name in square brackets:")[1].split("\n## ")[0]
        explained = re.findall(r"(?m)^\| `([a-z0-9-]+)` \|", section)
        self.assertEqual(sorted(explained), sorted(used))

    def test_every_condition_of_the_list_can_be_written_so(self):
        rows = re.search(r"\| To say \| Write \|\n\|.*\n((?:\|.*\n)+)", GUIDE)
        conditions = [condition for row in rows.group(1).splitlines()
                      for condition in re.findall(r"`(\{.*?\})`", row)]
        self.assertGreater(len(conditions), 12)
        rules = self.folder / "rules"
        rules.mkdir()
        # The last table of the pack, which no table that the conditions name is fed by.
        pack = (ROOT / "rules" / "triage.yaml").read_text()
        for condition in conditions:
            with self.subTest(condition=condition):
                (rules / "triage.yaml").write_text(
                    f"{pack}\n      - id: tried\n        when: {condition}\n        gives: none\n"
                    "        because: Tried.\n        source: policy\n")
                shown = self.done("rules", "show", "treatment_standing", "--rules", rules).out
                self.assertIn("\ntried\n", shown)

    def test_every_claim_of_the_list_can_be_written_so(self):
        rows = re.search(r"\| To say that worse is \|.*\n\|.*\n((?:\|.*\n)+)", GUIDE)
        claims = re.findall(r"(?m)`(\w+: .*?)` \|$", rows.group(1))
        self.assertGreater(len(claims), 4)
        rules = self.folder / "rules"
        rules.mkdir()
        pack = (ROOT / "rules" / "hazard.yaml").read_text()
        for claim in claims:
            with self.subTest(claim=claim):
                changed, times = re.subn(r"(?m)^    worse:\n(?:      .*\n)+?(?=    rules:)",
                                         f"    worse:\n      {claim}\n", pack, count=1)
                self.assertEqual(times, 1)
                (rules / "hazard.yaml").write_text(changed)
                checked = self.run_program("rules", "check", "--rules", rules)
                self.assertIn(checked.code, (program.DONE, program.FINDING), checked)
                self.assertEqual(checked.err, "", checked)

    def test_every_finding_of_the_check_is_explained(self):
        kinds = set(re.findall(r'\{"([a-z]+-[a-z]+|gap|conflict)"',
                               (ROOT / "engine" / "present" / "check_report.cpp").read_text()))
        explained = re.findall(r"(?m)^\| `([A-Z ]+)` \|", GUIDE)
        self.assertEqual(sorted(explained), sorted(kind.upper().replace("-", " ")
                                                   for kind in kinds))

    def test_every_key_of_the_facts_is_explained(self):
        keys = set(self.done("rules", "facts", "--format", "json").json()[0])
        explained = set(re.findall(r"(?m)^\| `([a-z_]+)` \|", GUIDE))
        self.assertEqual(keys - explained, set())

    def test_every_command_of_rules_is_in_the_guide(self):
        listed = self.done("rules", "--help").out.split("Subcommands:")[1]
        for name in re.findall(r"(?m)^  (\w+)", listed):
            self.assertIn(f"ashtriage rules {name}", GUIDE)


class WrongExamples(GuideTest):
    """That a wrong example would be found."""

    def finds(self, *guide):
        with self.assertRaises(WrongExample):
            self.reader.read("\n".join(guide))

    def test_an_output_that_is_another(self):
        self.finds("```sh", "echo one", "```", "```text", "two", "```")
        self.finds("```sh", "echo one; echo two", "```", "```text", "one", "```")
        self.finds("```sh", "echo one", "```", "```text", "...", "two", "...", "```")
        self.finds("```sh", "echo one", "```", "```text", "o...x", "```")
        self.reader.read("```sh\necho 'one (1)'\n```\n```text\none (...)\n```")
        self.reader.read("\n".join(["```sh", "echo one; echo two; echo three", "```",
                                    "```text", "...", "two", "...", "```"]))

    def test_an_exit_code_that_is_another(self):
        self.finds("```sh", "ashtriage rules show nothing", "```")
        self.finds("```sh", "ashtriage rules presets   # exit code 1", "```")
        self.reader.read("```sh\nashtriage rules show nothing   # exit code 3\n```")

    def test_a_file_that_is_not_there_or_says_something_else(self):
        self.finds("From `notes.yaml`:", "```yaml", "a: 1", "```")
        (self.scratch / "notes.yaml").write_text("b: 1\nb: 1\n")
        self.finds("From `notes.yaml`:", "```yaml", "a: 1", "```")
        self.finds("In `notes.yaml`, replace:", "```yaml", "b: 1", "```", "by:", "```yaml", "```")

    def test_a_block_of_which_nothing_says_what_it_is_for(self):
        self.finds("Look at this:", "```yaml", "a: 1", "```")
        self.finds("```text", "a", "```")
        self.finds("```", "a", "```")
        self.finds("by:", "```yaml", "a", "```")
        self.finds("```sh", "true")


if __name__ == "__main__":
    program.main()
