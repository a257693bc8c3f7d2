# embed.sh FILE...: C source on standard output that holds each file's bytes, for embedding the published tables.
set -eu
echo '/* Made from src/reference/ by embed.sh. */'
echo '#include "reference/embedded.h"'
i=0
for file in "$@"; do
    echo "static const char bytes_$i[] = {"
    od -An -v -tu1 "$file" | sed 's/  */,/g; s/^,//; s/$/,/'
    echo '0};'
    i=$((i + 1))
done
echo 'const ls_table_file ls_table_files[] = {'
i=0
for file in "$@"; do
    echo "    {\"${file##*/}\", bytes_$i, sizeof bytes_$i - 1},"
    i=$((i + 1))
done
echo '};'
echo 'const unsigned long ls_table_file_count = sizeof ls_table_files / sizeof ls_table_files[0];'
