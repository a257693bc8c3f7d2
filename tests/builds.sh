# Every build prints the same digits: gcc and clang, release and sanitizers.
set -eu
first=""
for build in build/littershed build/clang/littershed build/san/littershed; do
    sum=$(for command in estimate rates plan tickets; do
        "$build" $command fixtures/demo-house.yaml fixtures/demo-fields.yaml --format json
    done | cksum)
    [ -n "$first" ] || first=$sum
    [ "$sum" = "$first" ] || { echo "$build prints other digits than build/littershed"; exit 1; }
done
