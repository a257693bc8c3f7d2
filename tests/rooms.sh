#!/bin/sh
# rooms.sh [FOLDER OF THE OBJECTS]: how files may depend on each other. Exit status 1 if one does as it may not.
# 1. Rooms may include their own files and the public headers of themselves and of the rooms before them, nothing else. Report gets the
#    parts of the books to read, never the books themselves, whose worksheet can be written to.
# 2. No circles. One file depends on another if its object needs a function or an object that the other defines (nm), one
#    header on another if it includes it; no file may depend on itself by way of others.
# 3. No bird is named outside of the table of birds: what is asked of a bird is a trait in its row, or a published table.
cd "$(dirname "$0")/.." || exit 3
objects=${1:-build/release}
bad=0

includes() {
    grep -Hn '^[[:space:]]*#[[:space:]]*include[[:space:]]*"' "$@" /dev/null
}

includes src/*.c src/*/*.[ch] src/*/*/*.[ch] include/littershed/*.h include/littershed/*/*.h | awk -F: '
BEGIN {
    n = split("base reference farm record worksheet litter agronomy haul books report command", names, " ")
    for (i = 1; i <= n; i++)
        place[names[i]] = i
}

# The room of a file of the tree, "main" for src/main.c, "" if it lies in none.
function room_of(file, part) {
    if (file == "src/main.c")
        return "main"
    split(file, part, "/")
    if (part[1] == "src")
        return part[2]
    sub(/\.h$/, "", part[3])
    return part[3]
}

function folder_of(file) {
    sub(/[^\/]*$/, "", file)
    return file
}

function exists(file, line, found) {
    found = (getline line < file) >= 0
    close(file)
    return found
}

function wrong(why) {
    print $1 ":" $2 ": " why ": " target
    bad = 1
}

{
    target = $0
    sub(/^[^"]*"/, "", target)
    sub(/".*$/, "", target)
    room = room_of($1)
    level = room == "main" ? n + 1 : place[room]
    if (!level) {
        wrong("a file of no known room includes")
    } else if (target ~ /^littershed\//) {
        other = room_of("include/" target)
        if (!(other in place))
            wrong("a header of no known room")
        else if (place[other] > level)
            wrong("a room below")
        else if (!exists("include/" target))
            wrong("no such header")
        else if (room == "report" && target == "littershed/books.h")
            wrong("report makes no line: it tells what is in the headers under littershed/books/, not")
    } else if ($1 !~ /^src\/[^\/]+\//) {
        wrong("only public headers may be included here")
    } else if (target ~ /\.\./) {
        wrong("a way out of the room")
    } else if (!exists(folder_of($1) target) && !(index(target, room "/") == 1 && exists("src/" target))) {
        wrong("not a file of the own room")
    }
}

END { exit bad }' || bad=1

table=include/littershed/farm/birds.h
birds=$(sed -n 's/^ *X(\(LS_[A-Z_]*\),.*/\1/p' $table | paste -sd'|' -)
[ -n "$birds" ] || { echo "tests/rooms.sh: no birds in $table"; exit 3; }
grep -rnwE "$birds" src include | grep -v "^$table:" | sed 's/$/: names a bird/' | grep . && bad=1

[ -e "$objects/src/main.o" ] || { echo "tests/rooms.sh: no objects in $objects: make first"; exit 3; }
told=$(mktemp) || exit 3
trap 'rm -f "$told"' EXIT
ls src/*.c src/*/*.c src/*/*/*.c | sed "s|^|$objects/|; s|c\$|o|" | xargs nm -A -P -g >"$told" || exit 3
includes src/*/*.h src/*/*/*.h include/littershed/*.h include/littershed/*/*.h | awk -v objects="$objects/" '

FILENAME == "-" { # FILE.h:LINE:#include "OTHER.h": of the own folder, or a path
    split($0, part, ":")
    folder = part[1]
    sub(/[^\/]*$/, "", folder)
    split($0, quoted, "\"")
    n++
    from[n] = part[1]
    name[n] = quoted[2] ~ /^littershed\// ? "include/" quoted[2] : quoted[2] ~ /\// ? "src/" quoted[2] : folder quoted[2]
    giver[part[1]] = part[1]
    next
}

$2 !~ /^__/ { # FOLDER/FILE.o: NAME KIND ...
    file = substr($1, length(objects) + 1)
    sub(/o:$/, "c", file)
    if ($3 == "U") {
        n++
        from[n] = file
        name[n] = $2
        calls++
    } else
        giver[$2] = file
}

# Is the file goal reached from the file at?
function reaches(at, goal, i, list, count) {
    if (at == goal)
        return 1
    if (at in seen)
        return 0
    seen[at] = 1
    count = split(others[at], list, " ")
    for (i = 1; i <= count; i++)
        if (reaches(list[i], goal))
            return 1
    return 0
}

function room_of(file, part) {
    split(file, part, "/")
    return part[2]
}

END {
    for (i = 1; i <= n; i++) {
        to = giver[name[i]]
        if (to == "" || to == from[i])
            continue
        why[from[i] " " to] = why[from[i] " " to] " " name[i]
        if (!((from[i], to) in known))
            others[from[i]] = others[from[i]] " " to
        known[from[i], to] = 1
    }
    if (calls < 1000) {
        print "tests/rooms.sh: the objects tell of hardly any calls"
        exit 3
    }
    for (edge in why) {
        split(edge, end, " ")
        for (file in seen)
            delete seen[file]
        if (reaches(end[2], end[1])) {
            print end[1] ": in a circle by way of " end[2] ":" why[edge]
            bad = 1
        }
    }
    exit bad
}' - "$told" || bad=1
exit $bad
