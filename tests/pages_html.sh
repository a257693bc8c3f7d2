# Pages as a browser shows them: valid, headings in order, table headers with scope, enough contrast, letter paper, nothing wider
# than a phone. Needs tidy, chromium and pdfinfo.
set -eu
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
make -s
cp fixtures/demo-house.yaml "$folder/farm.yaml"
sed 's/name: Whitcomb Pasture/&\n    own: yes/' fixtures/demo-fields.yaml >"$folder/fields.yaml"
log() {
    build/littershed record "$folder/farm.yaml" "$folder/fields.yaml" --weighed "$@" >"$folder/log" 2>&1 ||
        { cat "$folder/log"; exit 1; }
}
log --ticket NORTH-LEFT-01-Q --tons 8.62 --when 2026-02-16T09:10 --field "Larkspur Hay/Upper Meadow" --weather clear
log --ticket NORTH-LEFT-02-O --tons 8.71 --when 2026-02-16T11:00 --field "Whitcomb Pasture/Ridge"
log --ticket NORTH-LEFT-03-M --tons 8.55 --when 2026-02-17T09:00 --field stack
build/littershed dossier "$folder/farm.yaml" "$folder/fields.yaml" --format html -o "$folder/dossier.html"

fail() {
    echo "$1"
    exit 1
}

browse() {
    chromium --headless --no-sandbox --disable-gpu --user-data-dir="$folder/profile" "$@" 2>"$folder/chromium.log" ||
        { cat "$folder/chromium.log"; fail "chromium failed"; }
}

# tidy does not know that SVG's title may stand in a document's body; it says nothing else.
valid() {
    tidy -q -e "$folder/$1" 2>"$folder/tidy" || { cat "$folder/tidy"; fail "tidy finds fault with $1"; }
}
valid dossier.html

/usr/bin/python3 -B - "$folder/dossier.html" <<'PY'
import html.parser
import re
import sys

text = open(sys.argv[1], encoding="utf-8").read()

class Structure(html.parser.HTMLParser):
    def __init__(self):
        super().__init__()
        self.level, self.heads, self.charts = 0, 0, []
    def handle_starttag(self, tag, attributes):
        if re.fullmatch("h[1-6]", tag):
            level = int(tag[1])
            if level > self.level + 1:
                raise SystemExit(f"{tag} follows h{self.level}")
            self.level = level
        if tag == "th":
            self.heads += 1
            if dict(attributes).get("scope") not in ("row", "col"):
                raise SystemExit("a table header without scope")

Structure().feed(text)
if text.count("<svg") < 4 or text.count("<svg") != text.count("<desc>"):
    raise SystemExit("charts without a description")

def light(color):
    digits = color[1:] if len(color) == 7 else "".join(2 * c for c in color[1:])
    parts = [int(digits[i:i + 2], 16) / 255 for i in (0, 2, 4)]
    parts = [p / 12.92 if p <= 0.03928 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2]

# every color stands on white
for color in set(re.findall(r"#(?:[0-9a-f]{6}|[0-9a-f]{3})\b(?=[;}\"])", text)) - {"#fff"}:
    if re.search(r'href="' + color + '"', text):
        continue
    contrast = 1.05 / (light(color) + 0.05)
    if contrast < 4.5:
        raise SystemExit(f"{color} has a contrast of {contrast:.2f}")
PY

# Nothing is wider than a phone of 360 px or a desk: a frame of that width tells.
fits() {
    for width in 360 1200; do
        cat >"$folder/frame.html" <<HTML
<!DOCTYPE html><title>x</title><iframe id="f" src="$1" style="width:${width}px;height:800px;border:0"></iframe>
<p id="wide"></p><script>f.onload=function(){var e=f.contentDocument.documentElement;
wide.textContent="needs "+e.scrollWidth+" of "+e.clientWidth}</script>
HTML
        browse --allow-file-access-from-files --virtual-time-budget=5000 --dump-dom "file://$folder/frame.html" >"$folder/dom"
        set -- "$1" $(sed -n 's/.*needs \([0-9]*\) of \([0-9]*\).*/\1 \2/p' "$folder/dom")
        [ $# -eq 3 ] || fail "the frame of $width px tells nothing"
        [ "$2" -le "$3" ] || fail "$1: at $width px the page needs $2 px of $3"
    done
}
fits dossier.html

# Names that a page could stumble over: markup, quotes, a mark that turns the way of writing, a picture, 190 letters in a row.
name="<script>alert(1)<\/script> \\\\\"'\&amp; $(printf '\342\200\256\360\237\220\224')$(printf 'n%.0s' $(seq 190))"
sed "s/name: Larkspur Hay/name: \"$name\"\n    own: yes/" fixtures/demo-fields.yaml >"$folder/names.yaml"
build/littershed dossier "$folder/farm.yaml" "$folder/names.yaml" --format html -o "$folder/names.html" 2>"$folder/log"
grep -q '&lt;script&gt;alert(1)' "$folder/names.html" || fail "the odd name is not there"
! grep -q '<script' "$folder/names.html" || fail "a name runs"
valid names.html
fits names.html

# Every other page, plain and with those names; letter paper.
page() {
    name=$1
    shift
    for fields in fields names; do
        build/littershed "$@" "$folder/farm.yaml" "$folder/$fields.yaml" $more --format html -o "$folder/$name.html" 2>"$folder/log" ||
            { cat "$folder/log"; fail "no page of $name"; }
        ! grep -q '<script' "$folder/$name.html" || fail "$name: a name runs"
        valid "$name.html"
        fits "$name.html"
    done
    browse --no-pdf-header-footer --print-to-pdf="$folder/$name.pdf" "file://$folder/$name.html" >"$folder/out"
    pdfinfo "$folder/$name.pdf" | grep -q '^Page size: *612 x 792 pts (letter)' || fail "$name: no letter pages"
}
more=
for command in check estimate rates plan tickets; do
    page $command $command
done
more=--list page record record
more=--promise page slips tickets
more=north.tons page explain explain
more=moisture page sources sources

browse --no-pdf-header-footer --print-to-pdf="$folder/dossier.pdf" "file://$folder/dossier.html" >"$folder/out"
pdfinfo "$folder/dossier.pdf" | grep -q '^Page size: *612 x 792 pts (letter)' || fail "no letter pages"
pdftotext -f 1 -l 1 "$folder/dossier.pdf" "$folder/first"
grep -q "^Summary" "$folder/first" && ! grep -q "^Audit$" "$folder/first" || fail "the summary is not one page"
