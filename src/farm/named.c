/* The files that farm files name, found by the schema before anything else is read of them. */
#include "reader.h"

#include <string.h>
#include <sys/stat.h>

const char *ls_farm_beside(ls_arena *a, const char *farm_file, const char *name) {
    const char *slash = strrchr(farm_file, '/');
    if (name[0] == '/') return name;
    if (slash != NULL) return ls_arena_printf(a, "%.*s%s", (int)(slash - farm_file + 1), farm_file, name);
    return strcmp(name, "-") == 0 ? "./-" : name;
}

typedef struct {
    ls_arena *arena;
    const ls_diag *diag; /* its inputs are the farm files */
    ls_named_list *list;
} search;

static void look_at_section(const search *s, const ls_farm_section *section, const ls_node *node);

static void look_at_value(const search *s, const ls_farm_key *key, const ls_node *node) {
    const ls_farm_section *section = key->section;
    if (section != NULL && section->only != NULL && node->kind == LS_SCALAR)
        key = ls_farm_key_of(section, section->only);
    else if (section != NULL)
        look_at_section(s, section, node);
    if (key->names != 0 && node->kind == LS_SCALAR)
        *LS_PUSH(s->arena, s->list) = (ls_named){
            key->names, ls_farm_beside(s->arena, ls_diag_input_at(s->diag, node->at.file)->name, node->text), node->at};
}

static void look_at_section(const search *s, const ls_farm_section *section, const ls_node *node) {
    for (size_t i = 0; node->kind == LS_MAPPING && i < node->n; i++) {
        const ls_farm_key *key = ls_farm_key_of(section, node->keys[i]->text);
        const ls_node *value = node->items[i];
        if (key == NULL || (key->section == NULL && key->names == 0)) continue;
        if (value->kind != LS_SEQUENCE) look_at_value(s, key, value);
        for (size_t k = 0; value->kind == LS_SEQUENCE && k < value->n; k++) look_at_value(s, key, value->items[k]);
    }
}

ls_named_list ls_farm_named(ls_arena *a, const char *path) {
    ls_diag *d = ls_diag_new(a);
    ls_named_list list = {0};
    int32_t file = ls_file_read_plain(a, d, path);
    const ls_node *top = file < 0 ? NULL : ls_yaml_read(a, d, file);
    if (top != NULL) look_at_section(&(search){a, d, &list}, &ls_farm_top, top);
    if (list.n > LS_MOST_NAMED) list.n = LS_MOST_NAMED;
    return list;
}

/* A pipe or a device might never end, and takes no log. */
static bool is_fit(const char *path) {
    struct stat about;
    return stat(path, &about) != 0 || S_ISREG(about.st_mode);
}

bool ls_farm_find_named(ls_farm_reader *reader, const ls_node *top, ls_named_list *out) {
    bool fit = true;
    look_at_section(&(search){reader->arena, reader->diag, out}, &ls_farm_top, top);
    if (out->n > LS_MOST_NAMED)
        return LS_FARM_WRONG(reader, out->at[LS_MOST_NAMED].at, "name fewer earlier years",
                             "the farm names more than 1,000 files");
    for (size_t i = 0; i < out->n; i++)
        if (!is_fit(out->at[i].path))
            fit = LS_FARM_WRONG(reader, out->at[i].at, "its name counts from the folder of this farm file",
                                "\"%s\" is not a plain file", out->at[i].path);
    return fit;
}
