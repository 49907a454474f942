"""The page for the client, as a browser shows it: on a phone, on paper, with nothing from afar."""

import html.parser
import re
import subprocess

import program
from program import AS_OF, DATA

BROWSER = "chromium"  # of the Debian package that tests/run-all.sh installs
PHONE_WIDTH = 390  # CSS pixels, a usual width of a telephone held upright

# Adds to the copy under test what the page itself does without: a script that tells how wide it is.
TELL_WIDTH = ("<script>document.title = 'width ' + document.documentElement.scrollWidth + ' in ' + "
              "window.innerWidth;</script>")


class Tags(html.parser.HTMLParser):
    """Every tag with its attributes, and whether each one that opens is closed in order."""

    VOID = {"meta", "br", "hr", "img", "link", "input", "wbr", "col"}

    def __init__(self, text):
        super().__init__()
        self.tags, self.open, self.faults = [], [], []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))
        if tag not in self.VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag):
        if not self.open or self.open.pop() != tag:
            self.faults.append((tag, self.getpos()))


class PageTest(program.ProgramTest):
    def setUp(self):
        super().setUp()
        self.filed_book()
        self.page = self.folder / "page.html"
        self.done("report", "-o", self.page, "--book", self.book, *AS_OF)
        self.text = self.page.read_text(encoding="utf-8")

    def browse(self, page, *options, window):
        return subprocess.run(
            [BROWSER, "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic",
             "--no-first-run", "--disable-background-networking", "--disable-component-update",
             "--disable-sync", "--hide-scrollbars", "--virtual-time-budget=5000",
             f"--user-data-dir={self.folder / 'browser'}", f"--window-size={window}", *options,
             page.as_uri()],
            capture_output=True, timeout=program.LONGEST_RUN_SECONDS, check=True,
            env=self.environment).stdout.decode()


class Page(PageTest):
    def test_standard_output_gets_the_same_page(self):
        self.assertEqual(self.done("report", "--book", self.book, *AS_OF).out, self.text)

    def test_is_well_formed_and_complete_in_itself(self):
        tags = Tags(self.text)
        self.assertEqual((tags.faults, tags.open), ([], []))
        for tag, attributes in tags.tags:
            self.assertNotIn(tag, {"script", "iframe", "link", "object", "embed", "base"})
            for name in ["src", "href", "srcset", "action", "poster", "data", "background"]:
                value = attributes.get(name) or ""
                self.assertFalse(value and not value.startswith(("#", "data:")), (tag, name, value))
            self.assertFalse([name for name in attributes if name.startswith("on")])
        self.assertNotRegex(self.text, r"@import|url\((?!['\"]?(data:|#))")
        self.assertIn(("meta", {"charset": "utf-8"}),
                      [(tag, {k: v.lower() for k, v in attributes.items()})
                       for tag, attributes in tags.tags if tag == "meta"])

    def test_says_what_is_dangerous_first_and_whose_advice_it_is(self):
        seen = re.sub(r"<style.*?</style>|<[^>]*>", " ", self.text, flags=re.DOTALL)
        self.assertIn("Larchfield", seen)
        self.assertIn("Ignatius Fernsby", seen)
        self.assertLess(seen.lower().index("standing dead"), seen.index("F1"))
        self.assertIn("not an inspection", " ".join(seen.split()))
        self.assert_never_called_safe(seen)

    def test_what_people_wrote_is_shown_and_never_run(self):
        sheet = self.write("odd.yaml", (DATA / "larchfield.yaml").read_text()
                           .replace("Larchfield", "Odd & <i>Sons</i>")
                           .replace("beside the porch", "'<script>alert(1)</script>'"))
        odd = self.folder / "odd.book"
        self.done("walk", "--from", sheet, "--book", odd, *AS_OF)
        page = self.done("report", "--book", odd, *AS_OF).out
        self.assertNotIn("<script", page)
        self.assertNotIn("<i>Sons", page)
        self.assertIn("Odd &amp; &lt;i&gt;Sons&lt;/i&gt;", page)
        self.assertIn("&lt;script&gt;alert(1)&lt;/script&gt;", page)


class PageInBrowser(PageTest):
    def test_fits_a_phone_and_no_wider(self):
        # Headless windows have a least width, so the page is shown in a frame of the phone's.
        inner = self.write("inner.html", self.text.replace("</body>", TELL_WIDTH + "</body>"))
        self.assertIn(TELL_WIDTH, inner.read_text())
        framed = self.write("framed.html", (
            f"<!doctype html><iframe src='inner.html' width='{PHONE_WIDTH}' height='800' "
            "style='border:0'></iframe>"))
        script = ("<script>addEventListener('load', () => { document.title = "
                  "frames[0].document.title; });</script>")
        framed.write_text(framed.read_text() + script)
        shown = self.browse(framed, "--allow-file-access-from-files", "--dump-dom",
                            window="1000,1000")
        told = re.search(r"<title>width (\d+) in (\d+)</title>", shown)
        self.assertIsNotNone(told, shown[:500])
        self.assertEqual(int(told[2]), PHONE_WIDTH)
        self.assertLessEqual(int(told[1]), PHONE_WIDTH)

    def test_is_drawn_at_a_phones_width(self):
        picture = self.folder / "page.png"
        self.browse(self.page, f"--screenshot={picture}", window=f"{PHONE_WIDTH},844")
        content = picture.read_bytes()
        self.assertEqual(content[:8], b"\x89PNG\r\n\x1a\n")  # PNG specification, section 5.2
        self.assertEqual(int.from_bytes(content[16:20], "big"), PHONE_WIDTH)

    def test_prints(self):
        printed = self.folder / "page.pdf"
        self.browse(self.page, f"--print-to-pdf={printed}", "--no-pdf-header-footer",
                    window="1000,1000")
        content = printed.read_bytes()
        self.assertTrue(content.startswith(b"%PDF-"))
        # 612 by 792 points: letter; 595 by 842: A4.
        boxes = {tuple(round(float(side)) for side in box.split()[2:])
                 for box in re.findall(rb"/MediaBox\s*\[([^\]]*)\]", content)}
        self.assertTrue(boxes)
        self.assertLessEqual(boxes, {(612, 792), (595, 842)})


if __name__ == "__main__":
    program.main()
