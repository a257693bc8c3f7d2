# The manual pages are free of lint; the one on farm files is what the schema table gives.
set -eu
for page in man/*; do
    mandoc -T lint "$page"
done
