"""season day: whether a day and its forecast let a method be used, and the forecasts it refuses."""

import program
from program import BAD_INPUT, DATA, DONE, FINDING, USAGE

HEADER = "time,temp_f,wind_mph,rain_in,rain_chance_percent\n"


def hours(count, first=0, temp=65, wind=6, rain=0, chance=0):
    """So many rows from that hour of 20 June 2026 on."""
    return "".join(f"2026-06-{20 + hour // 24} {hour % 24:02}:00,{temp},{wind},{rain},{chance}\n"
                   for hour in range(first, first + count))


class Day(program.ProgramTest):
    PLACE = ["--latitude", "41.9", "--longitude", "-88.3"]
    ON = ["--on", "2026-06-20", "--as-of", "2026-06-20", *PLACE]
    OWN = ["--rules", DATA / "own_rules", "--card", "own-injection", "--certified"]
    INJECTION = ["--soil", "moist", "--leaves", "out", "--bloom", "no"]

    def day(self, *words, code=DONE):
        """The answers by condition, the first of each, and that of the whole under "day"."""
        ended = self.ends(code, "season", "day", *self.ON, *words, "--format", "csv")
        answers = {}
        for row in ended.rows():
            answers.setdefault(row["what"], row)
        return answers

    def answers(self, *words, code=DONE):
        return {what: row["answer"] for what, row in self.day(*words, code=code).items()}

    def forecast(self, text):
        return ["--forecast", self.write("hours.csv", text)]

    def test_says_what_a_date_by_the_calendar_hangs_on(self):
        words = ["--method", "cover_spray"]
        self.assertIn("--shore", " ".join(self.done("season", "day", *self.ON, *words).out.split()))
        told = " ".join(self.done("season", "day", *self.ON, *words, "--shore", "yes").out.split())
        self.assertIn("do not rely on these dates", told)

    # --- answers ------------------------------------------------------------------------------

    def test_nothing_known_is_a_check_and_never_a_go(self):
        answers = self.answers("--method", "cover_spray")
        # The dates of the method are known without anything being told of the day.
        self.assertEqual(answers.pop("season"), "go")
        self.assertEqual(set(answers.values()), {"check"})

    def test_without_a_place_no_day_is_a_go(self):
        words = [*self.OWN, *self.INJECTION, "--at", "09:00", "--temperature", "66 F"]
        ended = self.done("season", "day", "--on", "2026-06-20", "--as-of", "2026-06-20", *words)
        self.assertIn("CHECK", ended.out)
        self.assertIn("Where the trees stand was not told", " ".join(ended.out.split()))

    def test_an_own_card_and_a_good_day_are_a_go_that_defers_to_the_label(self):
        words = [*self.OWN, *self.INJECTION, "--at", "09:00", "--temperature", "66 F"]
        self.assertEqual(set(self.answers(*words).values()), {"go"})
        told = self.done("season", "day", *self.ON, *words)
        self.assertIn("the label in your hand decides", told.out.replace("\n", " "))
        self.assert_never_called_safe(told.out)
        self.assert_fits_the_page(told.out)

    def test_an_example_card_stays_marked_and_is_never_more_than_a_check(self):
        words = ["--card", "example-emamectin-trunk-injection", *self.INJECTION,
                 "--at", "09:00", "--temperature", "66 F"]
        answers = self.answers(*words)
        self.assertEqual(answers.pop("day"), "check")
        self.assertEqual(answers.pop("label"), "check")
        self.assertEqual(set(answers.values()), {"go"})
        self.assertIn("EXAMPLE", self.done("season", "day", *self.ON, *words).out)

    def test_a_no_go_ends_with_a_finding(self):
        answers = self.answers("--method", "cover_spray", "--wind", "10.01 mph", code=FINDING)
        self.assertEqual((answers["day"], answers["wind"]), ("no-go", "no-go"))
        self.assertEqual(self.answers("--method", "cover_spray", "--wind", "10 mph")["wind"], "go")

    # 10 mph is 16.09344 km/h.
    def test_units_are_told_apart(self):
        self.assertEqual(self.answers("--method", "cover_spray", "--wind", "16.09 km/h")["wind"],
                         "go")
        self.assertEqual(self.answers("--method", "cover_spray", "--wind", "16.1 km/h",
                                      code=FINDING)["wind"], "no-go")

    def test_says_where_each_limit_comes_from(self):
        rows = self.day("--method", "cover_spray")
        self.assertEqual((rows["wind"]["from"], rows["wind"]["sources"]),
                         ("rule", "nc-state-spraying"))
        told = self.done("season", "day", *self.ON, "--method", "cover_spray").out
        self.assertIn("nc-state-spraying: North Carolina State", told)

    def test_typed_rain_is_held_against_the_hours(self):
        spray = ["--method", "basal_spray_dinotefuran", "--at", "09:00"]
        for said, code, expected in [
            (["--no-rain-for", "24 h", "--until", "09:00"], DONE, "go"),
            (["--no-rain-for", "23.9 h", "--until", "09:00"], DONE, "check"),
            (["--rain-in", "24 h", "--until", "09:00"], DONE, "go"),
            # When the work ends is not known, and so not when the dry hours begin.
            (["--no-rain-for", "24 h"], DONE, "check"),
            (["--rain-in", "24 h"], DONE, "check"),
            (["--rain-in", "1439 min"], FINDING, "no-go"),
            (["--no-rain-for", "24 h", "--until", "09:30"], DONE, "check"),
        ]:
            with self.subTest(said=said):
                ended = self.run_program("season", "day", "--on", "2026-06-01", *spray, *said,
                                         "--format", "csv")
                self.assertEqual(ended.code, code, ended)
                rain = next(row for row in ended.rows() if row["what"] == "rain")
                self.assertEqual(rain["answer"], expected)

    def test_a_forecast_that_ends_too_early_is_named(self):
        spray = ["season", "day", "--method", "cover_spray", "--on", "2026-06-20", "--at", "09:00",
                 "--until", "09:00"]
        for rows, expected in [(24 + 9, "go"), (24 + 8, "check")]:
            told = self.done(*spray, *self.forecast(HEADER + hours(rows)), "--format", "csv")
            rain = next(row for row in told.rows() if row["what"] == "rain")
            self.assertEqual(rain["answer"], expected)
        self.assertIn("nothing is known from 21 June 2026, 08:00", rain["known"])

    def test_the_worst_hour_of_the_work_counts(self):
        text = HEADER + hours(10) + hours(1, 10, wind=15) + hours(20, 11)
        words = ["--method", "cover_spray", "--at", "09:00", *self.forecast(text)]
        self.assertEqual(self.answers(*words, "--until", "10:00")["wind"], "check")
        self.assertEqual(self.answers(*words, "--until", "10:00", "--wind", "6 mph")["wind"], "go")
        self.assertEqual(self.answers(*words, "--until", "10:01", code=FINDING)["wind"], "no-go")

    def test_chances_are_taken_for_none_only_when_asked(self):
        words = ["--method", "cover_spray", "--at", "09:00", "--until", "09:00",
                 *self.forecast(HEADER + hours(40, chance=10))]
        self.assertEqual(self.answers(*words)["rain"], "check")
        self.assertEqual(self.answers(*words, "--chance-taken", "10 %")["rain"], "go")
        self.refuses(BAD_INPUT, "season", "day", *words, "--chance-taken", "50 %",
                     says=["--chance-taken"])

    def test_the_place_moves_the_window(self):
        spray = ["season", "day", "--method", "basal_spray_dinotefuran", "--format", "csv"]
        def season(on, *place):
            rows = self.run_program(*spray, "--on", on, *place).rows()
            return next(row["answer"] for row in rows if row["what"] == "season")
        # At the anchor from 15 May to 15 June; farther south both ends come about two weeks sooner.
        south = ["--latitude", "38", "--longitude", "-85"]
        self.assertEqual(season("2026-05-04"), "no-go")
        self.assertEqual(season("2026-05-04", *south), "check")
        self.assertEqual(season("2026-06-20"), "check")
        self.assertEqual(season("2026-06-20", *south), "no-go")
        self.assertEqual(season("2026-05-26", *self.PLACE), "go")

    def test_the_leaves_of_the_year_settle_the_opening(self):
        spray = ["season", "day", "--method", "basal_spray_dinotefuran", "--format", "csv",
                 *self.PLACE, "--as-of", "2026-05-16", "--on", "2026-05-16"]
        def season(*words):
            rows = self.run_program(*spray, *words).rows()
            return next(row["answer"] for row in rows if row["what"] == "season")
        self.assertEqual(season(), "check")
        self.assertEqual(season("--leaf-out", "2026-05-12"), "go")
        self.assertEqual(season("--leaves", "out"), "go")

    def test_json_holds_the_same(self):
        told = self.done("season", "day", *self.ON, "--method", "cover_spray",
                         "--format", "json").json()
        self.assertEqual(told["answer"], "check")
        self.assertIsNone(told["card"])
        self.assertIn("bees", [each["what"] for each in told["checks"]])
        self.assertIn("soil", told["no_limit"])

    # --- refused ------------------------------------------------------------------------------

    def test_needs_a_method_or_a_card_that_there_is(self):
        self.refuses(USAGE, "season", "day", says=["--method or --card"])
        self.refuses(BAD_INPUT, "season", "day", "--method", "cover_sprey", says=["cover_spray"])
        self.refuses(BAD_INPUT, "season", "day", "--card", "nobodys", says=["--card"])
        self.refuses(BAD_INPUT, "season", "day", "--method", "cover_spray", "--card",
                     "example-emamectin-trunk-injection", says=["trunk_injection_emamectin"])

    def test_refuses_values_that_cannot_be(self):
        for words, says in [
            (["--wind", "6"], ["--wind", "unit"]),
            (["--wind", "600 mph"], ["--wind"]),
            (["--temperature", "660 F"], ["--temperature"]),
            (["--at", "9 o'clock"], ["--at"]),
            (["--at", "10:00", "--until", "09:00"], ["--until"]),
            (["--no-rain-for", "24"], ["--no-rain-for", "24 h"]),
            (["--rain-in", "900 h"], ["--rain-in"]),
            (["--on", "2026-02-30"], ["--on"]),
        ]:
            with self.subTest(words=words):
                self.refuses(BAD_INPUT, "season", "day", "--method", "cover_spray", *words,
                             says=says)

    def test_refuses_forecasts_with_their_lines(self):
        for text, says in [
            (HEADER + hours(1, 2) + hours(1, 1), ["hours.csv:3", "comes after"]),
            (HEADER + hours(1) + hours(1), ["hours.csv:3", "twice"]),
            (HEADER + hours(2, wind=-3), ["hours.csv:2", "hours.csv:3"]),
            (HEADER + hours(1) + hours(1, 1, temp=200), ["hours.csv:3"]),
            (HEADER + hours(1) + hours(1, 1, chance=140), ["hours.csv:3", "140"]),
            (HEADER.replace("temp_f", "temp") + hours(2), ["'temp' has no unit"]),
            (HEADER.replace("wind_mph", "wind_knots") + hours(2), ["knots"]),
            (HEADER, ["no row"]),
        ]:
            with self.subTest(text=text):
                self.refuses(BAD_INPUT, "season", "day", "--method", "cover_spray", "--at",
                             "09:00", *self.forecast(text), says=says)

    def test_a_forecast_needs_the_time_of_the_work(self):
        self.refuses(BAD_INPUT, "season", "day", "--method", "cover_spray",
                     *self.forecast(HEADER + hours(2)), says=["--at"])


if __name__ == "__main__":
    program.main()
