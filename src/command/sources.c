#include "run.h"

static int unknown_table(ls_run *r, const char *name) {
    LS_LIST(const char *) ids = {NULL, 0, 0};
    for (size_t i = 0; ls_reference_at(r->books.reference, i) != NULL; i++)
        *LS_PUSH(r->arena, &ids) = ls_reference_at(r->books.reference, i)->id;
    const char *near = ls_text_nearest(name, ids.at, ids.n);
    if (near != NULL) return MISTAKE(r, "there is no table \"%s\"; did you mean %s?", name, near);
    return MISTAKE(r, "there is no table \"%s\"; littershed sources lists them", name);
}

static int sources(ls_run *r) {
    ls_run_operands q = ls_run_sort(r, false);
    if (q.second != NULL)
        return MISUSE(r,
                      "sources does not know what to do with \"%s\": it shows one table, and farm "
                      "files end in .yaml or .yml",
                      q.second);
    if (q.files.n > 0 && !ls_run_farm(r, q.files.at, q.files.n)) return LS_MISTAKE;
    const ls_document *d = ls_report_sources(ls_run_view(r), q.word);
    return d != NULL ? ls_run_document(r, d) : unknown_table(r, q.word);
}

const ls_command ls_command_sources = {
    .name = "sources",
    .operands = "[FILE...] [TABLE]",
    .summary = "the published tables and where they come from",
    .help = "The tables in the program, or the rows of one of them or of all of a kind (removal): "
            "figures, how far they spread, how well each is known, and its source. With farm files "
            "(.yaml or .yml) the farm's own tables as well: its rows with their place, and the "
            "built-in rows they stand in for.",
    .options = LS_OPTIONS_OUTPUT | OPTION(PART),
    .exec = sources,
};
