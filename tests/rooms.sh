#!/bin/sh
# Rooms may include their own files and the public headers of themselves and of the rooms before them, nothing else.
# Report gets the parts of the books to read, never the books themselves, whose worksheet can be written to.
# Prints each include that breaks this; exit status 1 if there is one.

cd "$(dirname "$0")/.." || exit 3

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

END { exit bad }'
