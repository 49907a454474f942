"""The walk-around as a person at a terminal goes through it: in a pseudo-terminal, key by key."""

import signal

import pexpect
import program
from program import DONE

AS_OF = ["--as-of", "2026-07-06"]
PROMPT = r"\r\n> $"

# What someone would answer of a fairly healthy tree, by a few words of the question.
ANSWERS = [
    ("Is the tree dead?", "no"), ("hanging, lodged or cracked", "no"),
    ("bark coming off in plates", "no"), ("main limb cracked", "none"),
    ("ground lifted", "no"), ("electric line", "does not apply"), ("kind of tree", "green ash"),
    ("How tall", "45"), ("Is the tree in leaf", "in leaf"), ("died back", "10"),
    ("thinner than a full crown", "5-15"), ("shoots growing", "none"),
    ("broken off close", "no"), ("woodpeckers flaked", "none"), ("splits in the bark", "none"),
    ("small exit holes do you see", "0"), ("winding, dust-packed", "-"), ("larvae", "-"),
    ("sound is the build", "sound"), ("stem hollow", "none"), ("dead, decayed or open", "0"),
    ("root area", "0"), ("soft, crumbling", "no"), ("brackets or mushrooms", "no"),
    ("lean from upright", "1"), ("within reach of the tree", "occasional"),
    ("nearest house", "60"), ("worth to the owner", "high"), ("growing place", "good"),
    ("overhead lines", "no"), ("public ground", "no"), ("last treated", "never"),
    ("apply the treatment in person", "no"), ("no holes drilled", "no"),
    ("plant-derived", "no"), ("pond, stream", "300"), ("soil like", "loam"),
    ("flowering plants", "no"), ("infestation", "4"), ("county", "yes"),
]
MOST_QUESTIONS = 80


class Interview(program.ProgramTest):
    def walk(self, *more, as_of=AS_OF):
        """The program at a terminal, asking about a tree."""
        terminal = pexpect.spawn(
            program.program_path(),
            ["walk", "--site", "Elm Hollow", "--tree", "T1", "--book", str(self.book), *as_of,
             *more],
            env=self.environment, cwd=str(self.folder), encoding="utf-8", dimensions=(50, 100),
            timeout=program.LONGEST_RUN_SECONDS)
        terminal.delaybeforesend = None
        self.addCleanup(terminal.close, force=True)
        return terminal

    def question(self, terminal):
        """What the program said up to its next prompt, on one line; None when it has ended."""
        if terminal.expect([PROMPT, pexpect.EOF]) == 1:
            self.ending = " ".join(terminal.before.split())
            return None
        return " ".join(terminal.before.split())

    def answer(self, terminal, *answers):
        """Gives the answers one after the other, and returns what is asked then."""
        for text in answers:
            terminal.sendline(text)
            asked = self.question(terminal)
        return asked

    def at_first_fact(self, *more, stem="14 in"):
        """A new site and tree, up to the first question about the tree itself."""
        terminal = self.walk(*more)
        self.assertIn("is new", self.question(terminal))
        asked = self.answer(terminal, "Perpetua Wrenfield", "", "0.5 acres", "3", "yes", "", "",
                            "Barnaby Thistlewick", "front lawn", stem)
        self.assertIn("Is the tree dead?", asked)
        return terminal

    def answer_all(self, terminal, asked):
        """Answers what is asked from ANSWERS until the program ends; returns the questions."""
        questions = []
        while asked is not None:
            questions.append(asked)
            self.assertLess(len(questions), MOST_QUESTIONS, questions)
            text = next((given for words, given in ANSWERS if words in asked), None)
            if text is None:
                self.assertIn("Anything else to note?", asked)
                text = "a bird's nest in the fork"
            asked = self.answer(terminal, text)
        return questions

    def exit_code(self, terminal):
        terminal.close()
        return terminal.exitstatus

    def info(self):
        rows = self.done("book", "info", "--book", self.book, "--format", "csv").rows()
        return {row["what"]: row["value"] for row in rows}

    # --- tests --------------------------------------------------------------------------------

    def test_ends_with_the_recommendation_and_keeps_it_in_the_book(self):
        terminal = self.at_first_fact()
        questions = self.answer_all(terminal, "Is the tree dead?")
        self.assertGreater(len(questions), 10)
        self.assertIn("Kept in the book.", self.ending)
        self.assertIn("Tree T1: treat (firm)", self.ending)
        self.assertEqual(self.exit_code(terminal), DONE)
        info = self.info()
        self.assertEqual((info["trees"], info["walk_arounds"], info["unfinished_walk_arounds"]),
                         ("1", "1", "0"))
        told = self.done("explain", "T1", "--book", self.book, *AS_OF).out
        self.assertIn("front lawn", told)
        self.assertIn("a bird's nest in the fork", told)
        self.assertIn("5 to 15 %", told)

    def test_what_bears_on_danger_is_asked_first(self):
        terminal = self.at_first_fact()
        questions = self.answer_all(terminal, "Is the tree dead?")
        place = {words: next((i for i, q in enumerate(questions) if words in q), None)
                 for words in ["hanging, lodged", "electric line", "worth to the owner"]}
        self.assertLess(place["hanging, lodged"], place["worth to the owner"])
        self.assertLess(place["electric line"], place["worth to the owner"])

    def test_a_danger_is_told_at_the_end_before_the_recommendation(self):
        terminal = self.at_first_fact()
        asked = self.answer(terminal, "yes")
        while asked is not None:
            asked = self.answer(terminal, "" if "Anything else" in asked else "unknown")
        self.assertIn("! STANDING DEAD", self.ending)
        self.assertLess(self.ending.index("STANDING DEAD"), self.ending.index("Tree T1: "))

    def test_help_explains_and_asks_again(self):
        terminal = self.at_first_fact()
        told = self.answer(terminal, "?")
        self.assertIn("dead beyond doubt", told)
        self.assertTrue(told.endswith("Is the tree dead? [no or yes]"), told)

    def test_a_slip_is_explained_and_asked_again(self):
        terminal = self.at_first_fact()
        told = self.answer(terminal, "maybe so")
        self.assertIn("'maybe so' is not one of its values", told)
        self.assertTrue(told.endswith("Is the tree dead? [no or yes]"), told)

    def test_an_empty_line_is_no_answer(self):
        terminal = self.at_first_fact()
        self.assertIn("Is the tree dead?", self.answer(terminal, ""))

    def test_back_returns_to_the_question_before(self):
        terminal = self.at_first_fact()
        self.assertIn("first question", self.answer(terminal, "back"))
        self.assertIn("hanging", self.answer(terminal, "no"))
        self.assertIn("Is the tree dead?", self.answer(terminal, "back"))
        self.assertIn("hanging", self.answer(terminal, "no"))

    def test_stop_keeps_the_answers_and_the_same_command_goes_on_from_there(self):
        terminal = self.at_first_fact()
        self.assertIn("bark coming off", self.answer(terminal, "no", "no"))
        self.assertIsNone(self.answer(terminal, "stop"))
        self.assertIn("The answers are kept", self.ending)
        self.assertEqual(self.exit_code(terminal), DONE)
        info = self.info()
        self.assertEqual((info["walk_arounds"], info["unfinished_walk_arounds"]), ("0", "1"))
        again = self.walk()
        asked = self.question(again)
        self.assertIn("Going on with the walk-around of tree T1", asked)
        self.assertIn("bark coming off", asked)

    def test_afresh_forgets_the_unfinished_one(self):
        terminal = self.at_first_fact()
        self.answer(terminal, "no", "stop")
        again = self.walk("--afresh")
        self.assertIn("Who is walking", self.question(again))

    def test_the_end_of_input_keeps_the_answers(self):
        terminal = self.at_first_fact()
        self.answer(terminal, "no", "no")
        terminal.sendeof()
        self.assertIsNone(self.question(terminal))
        self.assertIn("The answers are kept", self.ending)
        self.assertIn("bark coming off", self.question(self.walk()))

    def test_a_kill_keeps_the_answers_given_before_it(self):
        terminal = self.at_first_fact()
        self.assertIn("bark coming off", self.answer(terminal, "no", "no"))
        terminal.kill(signal.SIGKILL)
        terminal.expect(pexpect.EOF)
        self.assertIn("in order", self.done("book", "check", "--book", self.book).out)
        self.assertIn("bark coming off", self.question(self.walk()))

    def test_a_dbh_over_60_inches_is_questioned(self):
        terminal = self.walk()
        self.question(terminal)
        asked = self.answer(terminal, "Perpetua Wrenfield", "", "", "", "", "", "",
                            "Barnaby Thistlewick", "", "65")
        self.assertIn("over 60 in", asked)
        self.assertIn("20.7 in", asked)  # were it a girth: 65 / pi = 20.69
        self.assertIn("Stem diameter", self.answer(terminal, "no"))
        self.assertIn("Is the tree dead?", self.answer(terminal, "girth 65 in"))

    def test_a_girth_is_taken_as_one(self):
        terminal = self.at_first_fact(stem="girth 44 in")
        self.answer_all(terminal, "Is the tree dead?")
        told = self.done("explain", "T1", "--book", self.book, *AS_OF).out
        self.assertIn("14.0 in DBH", told)  # 44 / pi = 14.006

    def test_a_girth_entered_as_a_diameter_on_the_second_visit_is_questioned(self):
        terminal = self.at_first_fact()
        self.answer_all(terminal, "Is the tree dead?")
        again = self.walk("--observer", "Barnaby Thistlewick", as_of=["--as-of", "2027-07-06"])
        asked = self.question(again)
        self.assertIn("Stem diameter", asked)
        told = self.answer(again, "44")
        self.assertIn("14.0 in", told)
        self.assertIn("Is this the girth?", told)
        self.assertIn("Is the tree dead?", self.answer(again, "yes"))

    def test_a_measurement_that_cannot_be_is_refused_with_a_remedy(self):
        terminal = self.walk()
        self.question(terminal)
        asked = self.answer(terminal, "Perpetua Wrenfield", "", "", "", "", "", "",
                            "Barnaby Thistlewick", "")
        for slip, told in [("0", "Stem diameter"), ("-4 in", "less than zero"), ("14 oz", "ounces"),
                           ("nan", "number"), ("500 in", "not one a tree can have")]:
            asked = self.answer(terminal, slip)
            self.assertIn(told, asked)
            self.assertIn("Stem diameter", asked)

    def test_the_assessor_is_asked_for_ratings_only_on_request(self):
        without = self.answer_all(self.at_first_fact(), "Is the tree dead?")
        self.assertFalse([q for q in without if "likely is it to hit" in q])

    def test_the_screen_stays_within_80_columns(self):
        terminal = self.at_first_fact()
        self.answer(terminal, "?")
        for line in terminal.before.splitlines():
            self.assertLessEqual(len(line), program.WIDEST_LINE, line)
        self.assert_never_called_safe(terminal.before)


class PipedAnswers(program.ProgramTest):
    def test_answers_from_a_pipe_that_ends_are_kept(self):
        words = ["walk", "--site", "Elm Hollow", "--tree", "T1", "--book", self.book, *AS_OF]
        answers = "Perpetua Wrenfield\n\n\n\n\n\n\nBarnaby Thistlewick\n\n14 in\nno\nno"
        ended = self.done(*words, stdin=answers)
        self.assert_no_terminal_codes(ended.out)
        self.assertIn("The answers are kept", " ".join(ended.out.split()))
        self.assertIn("bark coming off", self.done(*words).out)


if __name__ == "__main__":
    program.main()
