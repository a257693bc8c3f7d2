/* The farm's own tables: found in its files before anything else is read, as names in them may be
 * of rows and tables that stand there. */
#include "reader.h"

#include <string.h>

/* The number of the input; -1: it cannot be read, noted where the farm file names it as well. */
static int32_t open_tables(ls_farm_reader *reader, const ls_name *name) {
    const char *path = ls_farm_beside(reader->arena, ls_diag_input_at(reader->diag, name->at.file)->name, name->text);
    int32_t file = ls_file_read_plain(reader->arena, reader->diag, path);
    if (file < 0)
        LS_FARM_WRONG(reader, name->at, "the name counts from the folder of the farm file",
                      "the tables in %s cannot be read", name->text);
    return file;
}

bool ls_farm_read_own_tables(ls_farm_reader *reader, const ls_node *top) {
    const ls_farm_key *key = ls_farm_key_of(&ls_farm_top, "own_tables");
    const ls_node *node = ls_yaml_get(top, key->name);
    size_t before = ls_diag_count(reader->diag, LS_ERROR);
    LS_LIST(int32_t) inputs = {0};
    LS_LIST(ls_name) names = {0};
    if (node != NULL) ls_farm_read_files(reader, ls_farm_value_of(key, node), &names);
    for (size_t k = 0; k < names.n; k++) {
        int32_t file = open_tables(reader, &names.at[k]);
        if (file >= 0) *LS_PUSH(reader->arena, &inputs) = file;
    }
    if (inputs.n > 0)
        reader->reference = ls_reference_with(reader->arena, reader->diag, reader->reference, inputs.at, inputs.n);
    return ls_diag_count(reader->diag, LS_ERROR) == before;
}
