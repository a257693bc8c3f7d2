#include "run.h"

#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* As it was when it was kept: a file may be renamed over, made or linked to while the run goes on.
 */
typedef struct {
    const char *path, *target; /* NULL: the name leads nowhere */
    bool plain;                /* it was there, as a plain file */
    dev_t device;
    ino_t inode;
} kept;

struct ls_gate {
    LS_LIST(kept) files;
};

/* Where the output goes; NULL: to the standard output. */
static const char *output(const ls_run *r) {
    const char *path = r->options->output;
    return path == NULL || strcmp(path, "-") == 0 ? NULL : path;
}

/* ---- what is kept ---- */

static void keep(ls_run *r, const char *path) {
    struct stat about;
    bool standard = strcmp(path, "-") == 0;
    bool there = standard ? fstat(STDIN_FILENO, &about) == 0 : stat(path, &about) == 0;
    kept k = {.path = standard ? LS_STANDARD_INPUT : ls_arena_copy(r->arena, path)};
    k.target = standard ? NULL : ls_file_target(r->arena, path);
    k.plain = there && S_ISREG(about.st_mode);
    if (k.plain) {
        k.device = about.st_dev;
        k.inode = about.st_ino;
    }
    *LS_PUSH(r->arena, &r->gate->files) = k;
}

static void keep_log(ls_run *r, const char *path) {
    keep(r, path);
    keep(r, ls_log_torn_path(r->arena, path));
    keep(r, ls_log_copy_path(r->arena, path));
}

static void keep_farm_file(ls_run *r, const char *path) {
    keep(r, path);
    if (strcmp(path, "-") != 0) keep_log(r, ls_log_path(r->arena, path));
}

static void keep_named(ls_run *r, const ls_named_list *list) {
    for (size_t i = 0; i < list->n; i++) {
        const char *path = list->at[i].path;
        if (list->at[i].kind == LS_NAMED_FARM)
            keep_farm_file(r, path);
        else if (list->at[i].kind == LS_NAMED_LOG)
            keep_log(r, path);
        else
            keep(r, path);
    }
}

static void keep_earlier(ls_run *r, const ls_named_list *list) {
    for (size_t i = 0; i < list->n; i++) {
        if (list->at[i].kind != LS_NAMED_FARM) continue;
        ls_arena *a = ls_arena_new();
        ls_named_list named = ls_farm_named(a, list->at[i].path);
        keep_named(r, &named);
        ls_arena_free(a);
    }
}

/* Is the standard output a file? A pipe or a terminal is no matter. */
static bool into_a_file(const ls_run *r) {
    struct stat about;
    return fstat(fileno(r->out), &about) == 0 && S_ISREG(about.st_mode);
}

void ls_gate_keep(ls_run *r, const char *const *files, size_t n) {
    r->gate = LS_NEW(r->arena, ls_gate, 1);
    if (output(r) == NULL && !into_a_file(r)) return; /* nothing can be hit */
    for (size_t i = 0; i < n; i++) keep_farm_file(r, files[i]);
    if (r->options->word[LS_OPTION_INSTEAD] != NULL) keep(r, r->options->word[LS_OPTION_INSTEAD]);
    keep_named(r, &r->books.farm->named);
    keep_earlier(r, &r->books.farm->named);
}

/* ---- what may pass ---- */

/* The first kept file that the output would go to; NULL: none. */
static const kept *hit(const ls_run *r) {
    struct stat about;
    const char *path = output(r);
    bool there = path == NULL ? fstat(fileno(r->out), &about) == 0 : stat(path, &about) == 0;
    if (there && !S_ISREG(about.st_mode)) return NULL;
    const char *target = path == NULL ? NULL : ls_file_target(r->arena, path);
    for (size_t i = 0; r->gate != NULL && i < r->gate->files.n; i++) {
        const kept *k = &r->gate->files.at[i];
        if ((there && k->plain && k->device == about.st_dev && k->inode == about.st_ino) ||
            (target != NULL && k->target != NULL && strcmp(target, k->target) == 0))
            return k;
    }
    return NULL;
}

/* A haul log, or what was set aside of one, whoever's it is: no output goes over records. */
static bool is_a_log(ls_run *r, const char *path) {
    const char *target = ls_file_target(r->arena, path);
    struct stat about;
    if (target == NULL || stat(target, &about) != 0 || !S_ISREG(about.st_mode) || about.st_size == 0) return false;
    static const char *const ends[] = {".haul.csv", ".torn", ".haul.csv.copy"};
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++)
        if (ls_text_ends(target, ends[i])) return true;
    return ls_log_is_one(r->arena, target);
}

bool ls_gate_passes(ls_run *r) {
    const char *path = output(r), *why = path == NULL ? NULL : ls_file_unwritable(r->arena, path);
    const kept *k = why == NULL ? hit(r) : NULL;
    bool log = why == NULL && k == NULL && path != NULL && is_a_log(r, path);
    r->refused = why != NULL || k != NULL || log;
    if (log)
        MISUSE(r,
               "%s is one of the files that are read or kept for this farm, or for another: a haul "
               "log; name another file after -o",
               path);
    else if (why != NULL)
        MISUSE(r, "cannot write %s: %s; name another file after -o", path, why);
    else if (k != NULL && path == NULL)
        MISUSE(r,
               "the output goes into %s, which is one of the files that are read or kept for this "
               "farm; send it to another file",
               k->path);
    else if (k != NULL)
        MISUSE(r,
               "%s is one of the files that are read or kept for this farm%s; name another file "
               "after -o",
               path, strcmp(path, k->path) == 0 ? "" : ls_arena_printf(r->arena, " (%s)", k->path));
    return !r->refused;
}
