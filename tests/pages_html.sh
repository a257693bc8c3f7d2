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
log --ticket NORTH-LEFT-02-O --tons 8.71 --when 2026-02-16T11:00 --field "Whitcomb Pasture/Ridge" --sure
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
if text.count("<svg") < 3 or text.count("<svg") != text.count("<desc>"):
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

# Nothing is wider than a phone of 360 px or a desk: frames of that width tell, all pages in one window.
fits() {
    wanted=0
    {
        echo '<!DOCTYPE html><title>x</title>'
        for file in "$@"; do
            for width in 360 1200; do
                wanted=$((wanted + 1))
                echo "<iframe src=\"$file\" style=\"width:${width}px;height:800px;border:0\"></iframe>"
            done
        done
        cat <<'HTML'
<script>onload=function(){for(var f of document.querySelectorAll("iframe")){var e=f.contentDocument.documentElement;
document.body.append("\n"+f.getAttribute("src")+" at "+f.style.width+" needs "+e.scrollWidth+" of "+e.clientWidth+"\n")}}</script>
HTML
    } >"$folder/frame.html"
    browse --allow-file-access-from-files --virtual-time-budget=20000 --dump-dom "file://$folder/frame.html" >"$folder/dom"
    grep ' needs [0-9]* of [0-9]*$' "$folder/dom" >"$folder/told" || fail "the frames tell nothing"
    [ "$(wc -l <"$folder/told")" -eq "$wanted" ] || { cat "$folder/told"; fail "$wanted frames are wanted"; }
    awk '$5 > $7 {print; bad = 1} END {exit bad}' "$folder/told" || fail "a page is wider than its window"
}

# Names that a page could stumble over: markup, quotes, a mark that turns the way of writing, a picture, 190 letters in a row.
name="<script>alert(1)<\/script> \\\\\"'\&amp; $(printf '\342\200\256\360\237\220\224')$(printf 'n%.0s' $(seq 190))"
sed "s/name: Larkspur Hay/name: \"$name\"\n    own: yes/" fixtures/demo-fields.yaml >"$folder/names.yaml"
build/littershed dossier "$folder/farm.yaml" "$folder/names.yaml" --format html -o "$folder/names.html" 2>"$folder/log"
grep -q '&lt;script&gt;alert(1)' "$folder/names.html" || fail "the odd name is not there"
! grep -q '<script' "$folder/names.html" || fail "a name runs"
valid names.html

# Every other page, plain and with those names; letter paper.
page() {
    name=$1
    shift
    for fields in fields names; do
        file=$name-$fields.html
        build/littershed "$@" "$folder/farm.yaml" "$folder/$fields.yaml" $more --format html -o "$folder/$file" 2>"$folder/log" ||
            { cat "$folder/log"; fail "no page of $name"; }
        ! grep -q '<script' "$folder/$file" || fail "$name: a name runs"
        valid "$file"
        all="$all $file"
    done
}

prints() {
    browse --no-pdf-header-footer --print-to-pdf="$folder/page.pdf" "file://$folder/$1" >"$folder/out"
    pdfinfo "$folder/page.pdf" | grep -q '^Page size: *612 x 792 pts (letter)' || fail "$1: no letter pages"
}
more=
all="dossier.html names.html"
for command in check estimate rates plan tickets; do
    page $command $command
done
more=--full
for command in estimate plan; do
    page $command-full $command
done
more=--list page record record
more=--promise page slips tickets
more=north.tons page explain explain
more=moisture page sources sources

fits $all
prints plan-fields.html
pdfinfo "$folder/page.pdf" | grep -q '^Pages: *1$' || fail "the plan to pin up is more than one sheet"
prints rates-fields.html
prints dossier.html
pdftotext -f 1 -l 1 "$folder/page.pdf" "$folder/first"
for part in "^Verdict" "^Where the tons went" "^Fields" "^3 "; do # a row for each field
    grep -q "$part" "$folder/first" || fail "the first page lacks $part"
done

/usr/bin/python3 -B tests/pictures.py build/littershed
