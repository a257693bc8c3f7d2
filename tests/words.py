"""words.py PROGRAM [--show] [PAGE...]: do the pages speak plain American English? One word for one thing, dates, hours,
numbers and units as people here write them, and no sentence of more than 25 words. PAGE is one of those below, a folder or
file of src/ (the texts in its code), or a page with a farm, like dossier:log; none: all. Prints each place; exit status 1 if
there is one, 3 if the test does not see its own samples. Not held: what a farm file accepts (in quotes, or literal in the
manual), what farm files say, titles of sources.
"""
import html.parser
import os
import re
import shutil
import subprocess
import sys
import tempfile

from starter import filled

ROOT = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
MOST_WORDS = {"prose": 25, "reference": 40}  # of a sentence on a page; in the manual and of a key of the farm file

# What is not written, and what is: in all texts.
WORDS = [
    (r"\b(told|untold)\b", "said, shown, listed"),
    (r"\b(does|do|did) not (tell|say of)\b", "has no ..."),
    (r"\btells? (it|of|them|how|what|where|which|much|more)\b", "shows, says"),
    (r"\breckon", "counted, taken as"),
    (r"\bto mend\b|\bmended\b", "Fix: ..."),
    (r"\bby the draws\b", "rich litter; typical"),
    (r"the least: this one rules|\bthis one rules\b|\bis ruled by\b", "lowest: sets the rate"),
    (r"\b(has|have|had|find|with) no home\b|\bhomeless\b|\bunplaced\b|\bno place to go\b", "no field"),
    (r"\bwithout a home\b", "without a field"),
    (r"\b[Ll]itter [A-Z]\b(?! )", "the side by its name"),
    (r"\bwent on\b(?! (the|sale|top))|\bgoes on\b|\bas much goes\b", "applied, spread"),
    (r"\bas no figure (read|serves)", "Unverified figures: 18"),
    (r"\bfalls? away\b", "otherwise canceled"),
    (r"\blungs stand\b", "Loading dust harms lungs. Wear a respirator"),
    (r"\btakes? no load more\b|\bno load more\b", "takes no more loads"),
    (r"\bas it lies\b", "density in the house"),
    (r"\bloads? that stands?\b|\bloads? stands? in\b", "loads counted"),
    (r"\bTons by way\b", "Where the tons went"),
    (r"\balike over all\b", "average acre"),
    (r"\byield that came\b", "actual yield"),
    (r"\bAt most, by\b", "Limit from"),
    (r"\bLeft to give\b|\bleft to give\b", "need after credits"),
    (r"\bTo buy, to finish\b", "Fertilizer to buy"),
    (r"\bbears the whole price\b", "Cost per lb of usable N"),
    (r"\beach way alone\b|\beach alone\b", "tons by each method"),
    (r"\bhouses in general\b", "Published averages"),
    (r"\bTaken together they count\b", "Published averages: 1% of the weight"),
    (r"\bas often more as fewer\b", "half the time more"),
    (r"\bWHERE THE FILE IS SILENT\b", "ASSUMED, AND CONFLICTS"),
    (r"\bcosts least\b", "cheapest"),
    (r"\bnever under one not\b", "Never get under it unless it is blocked"),
    (r"\b(whilst|thereof|therein|hereby|hence|thus|amongst|upon|lest|nought|fortnight|telephone)\b", "a plainer word"),
    (r"\bto as much as\b|\bby way of\b|\bsuch a(n)? (house|spreading|lot|farm|figure|year)\b", "shorter"),
    (r"\bone draw of the pen\b|\bslips? of the pen\b", "a typing mistake"),
    (r"\b(may|must|can) take at most\b", "limit"),
    (r"\bdoes not apply\b", "not needed"),
    (r"\bthe plan section\b", "farm: plan in the farm file"),
    (r"\b(1|9) (case|time)s? out of 10\b|\bin (1|9) cases?\b", "1 time in 10, 9 times in 10"),
    (r"\b10 % point|\bmiddle, (much|high)\b|\blittle, middle\b", "low, likely, high"),
    (r"(?<![\w-])M: federal|\bitems \(M\)|\brules \(S\)|\bis G\b", "federal, state, good practice"),
    (r"\b\d+ (or more )?(day|load|bird|acre|field|buyer|entry|flock|house|side)\(s\)", "one or many"),
]

# Numbers, dates and units: on pages, in messages and in the manual, but not in quotes.
DAY = r"(Mon|Tue|Wed|Thu|Fri|Sat|Sun)"
MONTH = r"(Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec)"
NUMBERS = [
    (r"(?<!one of: )\d+ %(?!, expected)", "90%"),
    (r"(?<![\w.,])(?!1 )\d(?:[\d.,]*\d)? (ton|load|bird|bale|bushel|egg|acre|tonne)\b(?!s|[- ]day|-)", "tons, loads, birds"),
    (r"(?<!\b1 )\bton/(ac|acre)\b", "tons/ac"),
    (r"\b(19|20)\d\d-\d\d-\d\d\b", "Mon, Feb 16"),
    (r"\b%s \d{1,2} %s\b|\b\d{1,2} %s( \d{4})?\b" % (DAY, MONTH, MONTH), "Mon, Feb 16"),
    (r"(?<![\w:.])([01]?\d|2[0-3]):[0-5]\d(?![\d:]|-\d| ?[apAP][mM])", "2:28 pm"),
    (r"\$\d[\d.,]*/ton\b", "$61 a ton"),
    (r"\b\d[\d.,]* \$", "$61"),
]
# In code a number comes later; "(%s ton" is how the log writes where parts of a load went.
CODE = [(r"(?<!\()%(s|zu|ld|d) (ton|load|bird)\b(?!s|[%/])", "ls_unit_amount"), (r"%(s|zu|ld|d) %%?(?![sdlz.*%])", "90%"),
        (r"%(s|zu|ld|d) ton/ac\b", "ls_unit_amount")]
HEADINGS = [(r"(?i)\bwindows?\b", "opens, closes"), (r"(?i)\bcaps?\b", "limit")]


def digits(number):
    """Significant digits of a number as written; zeros at its end may be there for their place alone."""
    plain = number.replace(",", "")
    bare = plain.replace(".", "").lstrip("0")
    return len(bare if "." in plain else bare.rstrip("0"))


RANGE = re.compile(r"(\d[\d,.]*\d|\d)(?: [a-z/]+)? \((\d[\d,.]*\d|\d)(?:-| to )(\d[\d,.]*\d|\d)\)")


def ranges(text):
    return [(m.group(0), "three digits") for m in RANGE.finditer(text) if max(map(digits, m.groups())) > 3]


def sentences(text, most):
    """Sentences too long to be read once; titles of sources and hours of a list left out."""
    text = re.sub(r" \([^()]*(?:, Table|Extension|Bulletin|University|Handbook)[^()]*\)", "", text)
    text = re.sub(r"\d+:\d\d [ap]m \w+, ", "", text)
    for sentence in re.split(r"(?<=[\w)\"%:][.!?])\s+(?=[A-Z\"0-9])", text):
        n = len([w for w in sentence.split() if re.search(r"\w", w)])
        if n > most:
            yield sentence, f"{n} words"


def unquoted(text):
    """Without what stands in quotes, names of files and keys of figures."""
    return re.sub(r"\"[^\"]*\"|\S+\.(ya?ml|csv|json|html)(:\d+)*|\b[\w-]+(\.[\w-]+){2,}", "\"\"", text)


def own_words(text):
    """Of a line of the worksheet what the program says: not the source, its notes, or why a figure spreads."""
    return re.sub(r"\b(from|as|note): .*", "", text)


def findings(kind, text, prose):
    """What is wrong with a piece of text: pairs of what stands there and what is better."""
    found = []
    bare = unquoted(text)
    tables = [WORDS] + {"wrapped": [], "code": [CODE], "heading": [NUMBERS, HEADINGS]}.get(kind, [NUMBERS])
    for table in tables:
        found += [(m.group(0), better) for p, better in table for m in re.finditer(p, bare)]
    found += ranges(bare) if tables[-1] is not WORDS else []
    if prose and kind in MOST_WORDS:
        found += [(s if len(s) < 110 else s[:107] + "...", why) for s, why in sentences(bare, MOST_WORDS[kind])]
    return found


# ---- pages ----

BLOCKS = {"p", "li", "td", "th", "h1", "h2", "h3", "h4", "caption", "figcaption", "text", "desc", "title", "summary", "pre",
          "dt", "dd", "div", "span", "section", "b"}
LEAVE = {"style", "script", "code"}


class Page(html.parser.HTMLParser):
    """Pieces of a page: its line, its kind, its text."""

    def __init__(self):
        super().__init__()
        self.pieces, self.stack, self.sheet = [], [], False

    def handle_starttag(self, tag, attributes):
        if tag in ("ol", "ul"):
            self.sheet = dict(attributes).get("class", "") in ("sheet", "tree")
        if tag in BLOCKS or tag in LEAVE:
            self.stack.append([tag, self.getpos()[0], ""])
        elif tag == "br" and self.stack:
            self.stack[-1][2] += " "

    def handle_data(self, data):
        if self.stack:
            self.stack[-1][2] += data

    def handle_endtag(self, tag):
        if not self.stack or self.stack[-1][0] != tag:
            return
        name, line, text = self.stack.pop()
        inline = name in ("b", "span") and self.stack
        if inline:
            self.stack[-1][2] += text
        elif name not in LEAVE:
            head = name in ("h1", "h2", "h3", "h4", "th", "caption")
            prose = name in ("p", "li", "td", "dd", "desc", "figcaption") and not self.sheet
            kind = "heading" if head else "prose" if prose else "words"
            text = " ".join(text.replace("\u00a0", " ").split())
            self.pieces.append((line, kind, own_words(text) if self.sheet else text))


def pieces_of_html(text):
    page = Page()
    page.feed(text)
    return page.pieces


def pieces_of_text(text, kind="words"):
    return [(n, kind, " ".join(line.split())) for n, line in enumerate(text.split("\n"), 1)]


def pieces_of_help(text):
    """Options and commands: an entry is what begins at the left, up to the next."""
    pieces = []
    for n, line in enumerate(text.split("\n"), 1):
        if pieces and re.match(r" {10,}\S", line):
            at, kind, before = pieces.pop()
            pieces.append((at, kind, before + " " + line.strip()))
        else:
            pieces.append((n, "prose", line.strip()))
    return pieces


def pieces_of_messages(text):
    """What stands behind the place, and the hint; the farm's own line and the caret are left out."""
    for n, line in enumerate(text.split("\n"), 1):
        m = re.match(r".*?: (?:error|warning): (.*)|\s+hint: (.*)", line)
        words = m and (m.group(1) or m.group(2))
        if words: # a day is written as the file writes it; what may stand there is a list
            yield n, "prose", re.sub(r"\b\d{4}-\d\d-\d\d\b|(hold|may stand here|one of these): .*|^.* has no value", "x", words)


LITERAL_MACROS = re.compile(r"^\.(Ql|Dl|Li|Pa|Cm|Fl|Ic|Ar|Xr|Sx|Nm|It|Op|Bl|El|Bd|Ed|Sh|Ss|Dd|Dt|Os|Pp|Pq|Sq|Dq)\b")


def pieces_of_manual(text):
    """Paragraphs of mdoc(7), literal words in quotes."""
    literal, continued, start, words = False, False, 0, []
    for n, line in enumerate(text.split("\n"), 1):
        if re.match(r"\.(Bd .*-literal|Dl)", line):
            literal = line.startswith(".Bd")
        elif line.startswith(".Ed"):
            literal = False
        elif not literal:
            if continued or re.match(r"\.(Pp|It|Sh|Ss|Bl|El|Bd)", line):
                continued = line.endswith("\\")
                if words:
                    yield start, "reference", " ".join(words)
                words = []
                continue
            start = start if words else n
            m = re.match(r"\.(\w+) ?(.*)", line)
            if m is None:
                words.append(re.sub(r"\\[&e]|\\f.", "", line))
            else:
                end = re.search(r"( [.,:;)]+)*$", m.group(2)).group(0).replace(" ", "")
                words.append(("\"x\"" if m.group(1) != "Nm" else "it") + end)
    if words:
        yield start, "reference", " ".join(words)


def pieces_of_readme(text):
    start, words = 0, []
    for n, line in enumerate(text.split("\n") + [""], 1):
        if line.startswith("    ") or not line.strip():
            if words:
                yield start, "prose", re.sub(r"`[^`]*`", "\"x\"", " ".join(words))
            words = []
        else:
            start = start if words else n
            words.append(line.strip())


def pieces_of_code(text):
    """Texts in C: neighbors are one; what is #included or a comment is none."""
    clean = re.sub(r"/\*.*?\*/|//[^\n]*|^\s*#\s*include[^\n]*",
                   lambda m: re.sub(r"[^\n]", " ", m.group(0)), text, flags=re.S | re.M)
    for m in re.finditer(r"\"(?:[^\"\\\n]|\\.)*\"(?:\s*\"(?:[^\"\\\n]|\\.)*\")*", clean):
        parts = re.findall(r"\"((?:[^\"\\\n]|\\.)*)\"", m.group(0))
        words = "".join(parts).replace("\\\"", "\"").replace("\\n", " ")
        if " " in words.strip() and len(words) > len("%s %%"):
            yield clean.count("\n", 0, m.start()) + 1, "code", words


def pieces_of_schema(text):
    for n, line in enumerate(text.split("\n"), 1):
        m = re.match(r"\s*\"(description|title)\": \"(.*)\",?$", line)
        if m:
            yield n, "reference", m.group(2).replace("\\\"", "\"")


# ---- farms ----

def run(program, *arguments, check=True):
    done = subprocess.run([program, *arguments], capture_output=True, text=True, cwd=ROOT)
    if check and done.returncode != 0:
        sys.exit(f"{' '.join(arguments)}: {done.stderr}")
    return done.stdout + done.stderr


def logged(program, folder):
    """The demo farm after three loads and a correction."""
    files = [shutil.copy(os.path.join(ROOT, "fixtures", f), folder) for f in ("demo-house.yaml", "demo-fields.yaml")]
    for more in (["--ticket", "NORTH-LEFT-01-Q", "--tons", "8.62", "--when", "2026-02-16T09:10", "--weighed", "--field",
                  "Larkspur Hay/Upper Meadow", "--weather", "clear"],
                 ["--ticket", "NORTH-LEFT-02-O", "--tons", "8.71", "--when", "2026-02-16T11:00", "--weighed", "--field",
                  "Larkspur Hay/Upper Meadow"],
                 ["--ticket", "NORTH-LEFT-03-M", "--tons", "8.55", "--when", "2026-02-17T09:00", "--field", "stack"],
                 ["--replaces", "2", "--tons", "8.4"]):
        run(program, "record", *files, *more)
    return files


def farms(program, folder):
    made = {"demo": ["fixtures/demo-house.yaml", "fixtures/demo-fields.yaml"]}
    os.mkdir(os.path.join(folder, "log"))
    made["log"] = logged(program, os.path.join(folder, "log"))
    for bird in ("layer", "broiler"):
        made[bird] = [os.path.join(folder, bird + ".yaml")]
        with open(made[bird][0], "w", encoding="utf-8") as f:
            f.write(filled(run(program, "new", "--birds", bird)))
    return made


COMMANDS = ["new", "check", "estimate", "rates", "plan", "tickets", "record", "dossier", "explain", "sources", "schema"]
ON_FARMS = {
    "check": ["check"], "check-full": ["check", "--full"], "estimate": ["estimate"], "estimate-full": ["estimate", "--full"],
    "rates": ["rates"], "rates-full": ["rates", "--full"], "plan": ["plan"], "plan-full": ["plan", "--full"],
    "tickets": ["tickets"], "slips": ["tickets", "--promise"], "record": ["record", "--list"], "dossier": ["dossier"],
    "explain": ["explain", "{house}.tons"],
}
# Lines of a derivation are labels, not sentences; tickets are a form.
FORMS = {"explain", "tickets"}
ALONE = ["sources", "help", "schema", "manual", "readme", "messages", "new"]


def of_farm(program, page, name, files):
    house = {"layer": "house-1", "broiler": "house-1"}.get(name, "north")
    arguments = [a.format(house=house) for a in ON_FARMS[page]]
    if page == "explain" and house != "north":
        return
    text = run(program, *arguments, *files, "--format", "html", check=name in ("demo", "log"))
    for line, kind, piece in pieces_of_html(text):
        yield f"{page}:{name}:{line}", kind, piece, page not in FORMS
    kind = "words" if page in ("tickets", "slips") else "wrapped"
    yield from ((f"{page}:{name}:text:{n}", kind, piece, False)
                for n, _, piece in pieces_of_text(run(program, *arguments, *files, check=False)))


def alone(program, page):
    if page == "help":
        for command in [None] + COMMANDS:
            for n, kind, piece in pieces_of_help(run(program, *filter(None, [command]), "--help")):
                yield f"help {command or ''}:{n}", kind, piece, True
    elif page == "sources":
        for n, kind, piece in pieces_of_text(run(program, "sources")):
            if not re.search(r"https?:|\b(19|20)\d\d-\d\d-\d\d$", piece):
                yield f"sources:{n}", kind, piece, False
    elif page == "schema":
        for n, kind, piece in pieces_of_schema(run(program, "schema")):
            yield f"schema:{n}", kind, piece, True
    elif page == "new":
        for n, _, piece in pieces_of_text(run(program, "new")):
            m = re.search(r"(?:^|\s)#( .*)", piece)
            yield f"new:{n}", "wrapped", m.group(1) if m else "", False
    elif page == "messages":
        for name in sorted(os.listdir(os.path.join(ROOT, "tests/bad"))):
            if name.endswith(".expected"):
                with open(os.path.join(ROOT, "tests/bad", name), encoding="utf-8") as f:
                    for n, kind, piece in pieces_of_messages(f.read()):
                        yield f"tests/bad/{name}:{n}", kind, piece, True
    else:
        pages = {"manual": ["man/littershed.1", "man/littershed-farm.5"], "readme": ["README.md"]}[page]
        cut = pieces_of_manual if page == "manual" else pieces_of_readme
        for name in pages:
            with open(os.path.join(ROOT, name), encoding="utf-8") as f:
                for n, kind, piece in cut(f.read()):
                    yield f"{name}:{n}", kind, piece, True


def of_code(path):
    full = os.path.join(ROOT, path)
    files = [full] if os.path.isfile(full) else [os.path.join(d, f) for d, _, names in os.walk(full) for f in names]
    for name in sorted(files):
        if name.endswith((".c", ".h")):
            with open(name, encoding="utf-8") as f:
                for n, kind, piece in pieces_of_code(f.read()):
                    yield f"{os.path.relpath(name, ROOT)}:{n}", kind, piece, False


# ---- the test of the test ----

SAMPLES = [("no record is told", 1), ("3 ton on it", 1), ("1 ton on it", 0), ("3 tons, \"3 ton/ac\"", 0), ("90 %", 1), ("90%", 0),
           ("on 2026-02-16", 1), ("on Mon, Feb 16", 0), ("Mon 16 Feb 2026", 1), ("done 15:09", 1), ("done 3:09 pm", 0),
           ("demo.yaml:12:30", 0), ("68.25 (58-80)", 1), ("68.5 (58-80)", 0), ("1,340 (1,200-1,500)", 0), ("7,800 bird", 1),
           ("it is " + "very " * 23 + "long", 1), ("It is so. " * 20, 0)]


def sees_samples():
    return all((len(findings("prose", text, True)) > 0) == (n > 0) for text, n in SAMPLES)


def main(program, wanted):
    if not sees_samples():
        print("tests/words.py does not see its own samples")
        return 3
    bad, seen = 0, set()
    with tempfile.TemporaryDirectory() as folder:
        made = farms(program, folder)
        pages = wanted or list(ON_FARMS) + ALONE + ["src"]
        for page in pages:
            name, _, farm = page.partition(":")
            if name in ON_FARMS:
                held = [p for f, files in made.items() if farm in ("", f) for p in of_farm(program, name, f, files)]
            elif name in ALONE:
                held = alone(program, name)
            else:
                held = of_code(page)
            for place, kind, text, prose in held:
                for what, better in findings(kind, text, prose):
                    if (page, what, text) not in seen:
                        seen.add((page, what, text))
                        bad += 1
                        print(f"{place}: \"{what}\": {better}" + (f"   in: {text}" if SHOW else ""))
    print(f"{bad} places, {len(pages)} pages")
    return 1 if bad else 0


SHOW = "--show" in sys.argv
arguments = [a for a in sys.argv[1:] if a != "--show"]
if __name__ == "__main__":
    sys.exit(main(os.path.abspath(arguments[0]), arguments[1:]))
