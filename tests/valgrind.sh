# Every command on the demo farm, and a bad file, under valgrind: no error, nothing lost.
set -eu
make -s
run() {
    valgrind -q --error-exitcode=99 --leak-check=full --errors-for-leak-kinds=definite,indirect,possible \
        build/littershed "$@" >/dev/null
}
farm="fixtures/demo-house.yaml fixtures/demo-fields.yaml"
run check $farm
run estimate $farm --draws 10000
run rates $farm --draws 10000 --format json
run plan $farm --draws 10000
run tickets $farm --draws 10000
run tickets $farm --draws 10000 --format html
run tickets $farm --draws 10000 --promise
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cp $farm "$folder"
copy="$folder/demo-house.yaml $folder/demo-fields.yaml"
run record $copy --ticket NORTH-LEFT-01-Q --tons 8.42 --weighed --when 2026-02-16T08:10
run tickets $copy --draws 10000
run explain $farm north.tons --draws 10000
run sources
run schema
for bad in tests/bad/key-unknown.yaml tests/bad/alias-bomb.yaml tests/bad/nul-in-scalar.yaml; do
    code=0
    run check "$bad" 2>/dev/null || code=$?
    [ "$code" -eq 1 ] || { echo "$bad: exit $code under valgrind"; exit 1; }
done
