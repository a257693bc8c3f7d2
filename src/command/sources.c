#include "run.h"

static int unknown_table(ls_run *r, const char *name) {
    LS_LIST(const char *) ids = {NULL, 0, 0};
    for (size_t i = 0; ls_reference_at(r->view.reference, i) != NULL; i++)
        *LS_PUSH(r->arena, &ids) = ls_reference_at(r->view.reference, i)->id;
    const char *near = ls_text_nearest(name, ids.at, ids.n);
    if (near != NULL)
        return ls_run_say(r, LS_MISTAKE, "there is no table \"%s\"; did you mean %s?", name, near);
    return ls_run_say(r, LS_MISTAKE, "there is no table \"%s\"; littershed sources lists them",
                      name);
}

static int sources(ls_run *r) {
    const char *table = r->n > 0 ? r->operands[0] : NULL;
    const char *text = ls_run_json(r) ? ls_report_sources_json(&r->view, table)
                                      : ls_report_sources_text(&r->view, table);
    return text != NULL ? ls_run_finish(r, text) : unknown_table(r, table);
}

const ls_command ls_command_sources = {
    .name = "sources",
    .operands = "[TABLE]",
    .summary = "the published tables and where they come from",
    .help = "The tables in the program, or the rows of one of them or of all of a kind (removal): "
            "figures, how far they spread, "
            "how well each is known, "
            "and its source.",
    .options = LS_OPTION_BIT(LS_OPTION_FORMAT) | LS_OPTION_BIT(LS_OPTION_OUTPUT),
    .formats = ls_command_pages,
    .most = 1,
    .exec = sources,
};
