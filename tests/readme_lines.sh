#!/bin/bash
# .ci/run refuses at once a README without its two command lines. It runs here in a folder that holds nothing else, with
# stand-ins for what it would build and install with.
cd "$(dirname "$0")/.." || exit 3
folder=$(mktemp -d) || exit 3
trap 'rm -rf "$folder"' EXIT
mkdir "$folder/.ci" "$folder/bin"
cp .ci/run "$folder/.ci/run"
for name in make apt-get; do
    printf '#!/bin/sh\nexit 1\n' >"$folder/bin/$name"
    chmod +x "$folder/bin/$name"
done
export PATH="$folder/bin:$PATH"

refused() {
    if bash "$folder/.ci/run" >"$folder/told" 2>&1 || ! grep -q '^README.md: two command lines are expected' "$folder/told"; then
        echo ".ci/run goes on with $1"
        exit 1
    fi
}

sed '/^    \$ /d' README.md >"$folder/README.md"
refused "a README without command lines"
sed 's/^    \$ make .*$/    make test/' README.md >"$folder/README.md"
refused "a README with one command line"
sed 's/^    \$ make .*$/    $ /' README.md >"$folder/README.md"
refused "a README with an empty command line"
rm "$folder/README.md"
refused "no README"
