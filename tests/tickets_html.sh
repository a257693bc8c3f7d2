# Tickets in HTML as a browser prints them: two to a letter page, each whole on its page, nothing cut off.
# Needs chromium, pdftotext and pdfinfo.
set -eu
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
make -s
farm="fixtures/demo-house.yaml fixtures/demo-fields.yaml"

fail() {
    echo "$1"
    exit 1
}

# print NAME ARGUMENT...: the HTML of littershed tickets as $folder/NAME.pdf
print() {
    name=$1
    shift
    build/littershed tickets $farm --format html -o "$folder/$name.html" "$@"
    chromium --headless --no-sandbox --disable-gpu --user-data-dir="$folder/profile" --no-pdf-header-footer \
        --print-to-pdf="$folder/$name.pdf" "file://$folder/$name.html" >"$folder/chromium.log" 2>&1 ||
        { cat "$folder/chromium.log"; fail "chromium could not print $name"; }
}

pages() {
    pdfinfo "$folder/$1.pdf" | sed -n 's/^Pages: *//p'
}

print tickets
pdfinfo "$folder/tickets.pdf" | grep -q '^Page size: *612 x 792 pts (letter)' || fail "no letter pages"
build/littershed tickets $farm --format json -o "$folder/tickets.json"

# Where each ticket must stand: page, distance from its top and height in points, number. A load with two fields may take more
# than half a page and then has one of its own.
/usr/bin/python3 -B - "$folder/tickets.json" <<'PY' >"$folder/places"
import json
import sys

page, free, half, overlap = 1, 2, 396, 4
for ticket in json.load(open(sys.argv[1]))["tickets"]:
    needs = 1 if len(ticket["drops"]) < 2 else 2
    if needs > free:
        page, free = page + 1, 2
    low = free == 1
    print(page, half - overlap if low else 0, needs * half + overlap, ticket["ticket"])
    free -= needs
PY
n=$(wc -l <"$folder/places")
[ "$n" -gt 20 ] || fail "only $n tickets"
wanted=$(sed -n '$s/ .*//p' "$folder/places")
[ "$(pages tickets)" -eq "$wanted" ] || fail "$n tickets on $(pages tickets) pages, not two to a page"
last="nutrient management plan decide what may be spread."
# Each place alone: a ticket that runs over its half lacks its last line there.
while read -r page top height number; do
    text=$(pdftotext -f "$page" -l "$page" -x 0 -y "$top" -W 612 -H "$height" -layout "$folder/tickets.pdf" -)
    echo "$text" | grep -q "^ *TICKET $number " || fail "page $page does not hold ticket $number in its place"
    echo "$text" | grep -qF "$last" || fail "the last line of ticket $number is not on page $page"
    echo "$text" | grep -q "received by" || fail "ticket $number has no signatures on page $page"
done <"$folder/places"

# Every word of the document is on paper: nothing is hidden or cut off.
/usr/bin/python3 -B - "$folder/tickets.html" "$folder/tickets.pdf" <<'PY'
import html.parser
import re
import subprocess
import sys

class Words(html.parser.HTMLParser):
    """The text of the tickets; tags must balance."""
    def __init__(self):
        super().__init__()
        self.open, self.text, self.skip = [], [], {"style", "title", "h1"}
    def handle_starttag(self, tag, attributes):
        if tag != "meta":
            self.open.append(tag)
    def handle_endtag(self, tag):
        if not self.open or self.open.pop() != tag:
            raise SystemExit(f"</{tag}> closes nothing")
    def handle_data(self, data):
        if not self.skip & set(self.open):
            self.text.append(data)

def squeezed(text):
    return sorted(re.sub(r"[\s\u2022]", "", text).lower())

words = Words()
words.feed(open(sys.argv[1], encoding="utf-8").read())
if words.open:
    raise SystemExit(f"still open: {words.open}")
printed = subprocess.run(["pdftotext", "-layout", sys.argv[2], "-"], check=True, capture_output=True).stdout.decode()
if squeezed("".join(words.text)) != squeezed(printed):
    raise SystemExit("what is printed is not what the document says")
PY

print slips --promise
buyers=$(grep -c '^  - name:' fixtures/demo-fields.yaml)
[ "$(pages slips)" -eq "$buyers" ] || fail "$buyers buyers, but $(pages slips) pages of slips"

# On a phone of 360 px: nothing is wider, no word or number breaks, no letter is below 9 pt (12 px), text has at least half the
# width, and what is read first is in larger letters than the ticket's number.
for name in tickets slips; do
    cat >"$folder/frame.html" <<HTML
<!DOCTYPE html><title>x</title><iframe src="$name.html" style="width:360px;height:800px;border:0"></iframe><script>
onload = function () {
    var frame = document.querySelector("iframe").contentDocument, tell = [], n = 0;
    var size = e => parseFloat(frame.defaultView.getComputedStyle(e).fontSize);
    var lines = range => new Set(Array.from(range.getClientRects(), r => r.top)).size;
    if (frame.documentElement.scrollWidth > 360) tell.push("wider than the phone");
    var walk = frame.createTreeWalker(frame.querySelector("main"), NodeFilter.SHOW_TEXT);
    while (walk.nextNode()) {
        var text = walk.currentNode, word, words = /[^ \n\u00a0]+/g;
        if (!text.data.trim()) continue;
        if (size(text.parentNode) < 12) tell.push("small: " + text.data);
        var range = frame.createRange();
        range.selectNodeContents(text);
        if (lines(range) > 2 && range.getBoundingClientRect().width < 160) tell.push("narrow: " + text.data);
        while (word = words.exec(text.data)) {
            range.setStart(text, word.index);
            range.setEnd(text, word.index + word[0].length);
            n++;
            if (lines(range) > 1) tell.push("broken: " + word[0]);
        }
    }
    for (var section of frame.querySelectorAll("section"))
        if ("$name" == "tickets" && size(section.querySelector(".lead p")) <= size(section.querySelector("h2")))
            tell.push("the number is as large as the address");
    document.body.append("\nWORDS " + n + "\n" + Array.from(new Set(tell), t => "BAD " + t + "\n").join(""));
}</script>
HTML
    chromium --headless --no-sandbox --disable-gpu --user-data-dir="$folder/profile" --allow-file-access-from-files \
        --virtual-time-budget=20000 --dump-dom "file://$folder/frame.html" >"$folder/dom" 2>"$folder/chromium.log" ||
        fail "chromium failed"
    [ "$(sed -n 's/^WORDS //p' "$folder/dom")" -gt 200 ] || fail "no words of $name on the phone"
    ! grep '^BAD ' "$folder/dom" || fail "$name on a phone"
done
