#!/bin/sh
# What an editor, a merge or a wrapped line leaves behind: conflict markers in any file of the project, and macros that a
# manual page prints as text or drops. Prints each place; exit status 1 if there is one. Neither git nor mandoc is needed.
cd "$(dirname "$0")/.." || exit 3
samples=$(mktemp -d) || exit 3
trap 'rm -rf "$samples"' EXIT

# conflict_markers PATH...: what a merge writes around and between the two sides.
conflict_markers() {
    find "$@" \( -name .git -o -path ./build \) -prune -o -type f -exec grep -nHIE '^(<{7}|\|{7}|>{7})( |$)|^={7}$' {} +
}

# loose_macros PAGE...: mdoc(7). A line of text holds no name of a macro that is no English word; after the first word of
# a macro line stands none that only works at its start; each first word is a macro.
loose_macros() {
    awk '
    BEGIN {
        n = split("Fl Ar Cm Pa Ic Op Oo Oc Xr Sx Pq Ql Sq Dq Qq Bq Nm Li Em Sy Ns Fa Fn Va Ev Dl D1 Ap", names, " ")
        for (i = 1; i <= n; i++)
            inside[names[i]] = macro[names[i]] = 1
        n = split("Dd Dt Os Sh Ss Pp Bl El Bd Ed Nd", names, " ")
        for (i = 1; i <= n; i++)
            first_only[names[i]] = macro[names[i]] = 1
        macro["It"] = 1
    }
    /^\.Bd .*-literal/ { literal = 1 }
    /^\.Ed/ { literal = 0 }
    function wrong(why) {
        print FILENAME ":" FNR ": " why ": " $0
        bad = 1
    }
    /^[.\047]/ {
        open = $NF == "\\"
        word = substr($1, 2)
        if (!(word in macro) && word !~ /^\\"/)
            wrong("no macro of these pages")
        for (i = 2; i <= NF; i++)
            if ($i in first_only || (word == "Nd" && $i in inside))
                wrong($i " would be printed as text")
        next
    }
    open { # a macro line goes on
        open = $NF == "\\"
        next
    }
    {
        for (i = 1; i <= NF && !literal; i++)
            if ($i in inside || $i in first_only)
                wrong($i " is printed as text")
        if (/^[ \t]+\./ && !literal)
            wrong("a macro behind a blank is printed as text")
    }
    END { exit !bad }' "$@"
}

# The searches find what they are for.
{ printf '%.7s HEAD\n' '<<<<<<<<'; printf '%.7s\n' '========'; } >"$samples/merged"
printf '.It Fl Fl soil , Fl\nFl note\nWords.\n' >"$samples/wrapped.1"
printf '.Foo bar\n' >"$samples/unknown.1"
printf 'It is 1 unless given.\n.Bd -literal\nFl\n.Ed\n.It Fl a , \\\nFl b\n' >"$samples/clean.1"
if [ "$(conflict_markers "$samples" | wc -l)" -ne 2 ] || ! loose_macros "$samples/wrapped.1" >/dev/null ||
    ! loose_macros "$samples/unknown.1" >/dev/null || loose_macros "$samples/clean.1"; then
    echo "tests/leftovers.sh does not see its own samples"
    exit 3
fi

bad=0
conflict_markers . && bad=1
loose_macros man/* && bad=1
exit $bad
