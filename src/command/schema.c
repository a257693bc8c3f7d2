#include "run.h"

static int schema(ls_run *r) { return ls_run_write(r, ls_farm_json_schema(r->arena, r->books.published)); }

static const char *const formats[] = {"json", NULL};

const ls_command ls_command_schema = {
    .name = "schema",
    .operands = "",
    .summary = "what a farm file may hold, as JSON Schema",
    .help = "The JSON Schema of a farm file, for editors. Write it beside the farm file with -o "
            "littershed.schema.json, the name in the first line of a starter file: an editor that "
            "speaks to a YAML language server then completes keys, shows what each is, and marks "
            "mistakes while you write.",
    .options = LS_OPTIONS_OUTPUT,
    .formats = formats,
    .exec = schema,
};
