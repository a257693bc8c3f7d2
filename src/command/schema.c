#include "run.h"

static int schema(ls_run *r) {
    return ls_run_write(r, ls_farm_json_schema(r->arena));
}

static const char *const formats[] = {"json", NULL};

const ls_command ls_command_schema = {
    .name = "schema",
    .operands = "",
    .summary = "what a farm file may hold, as JSON Schema",
    .help = "The JSON Schema of a farm file, for editors that check a file while it is written.",
    .options = LS_OPTIONS_OUTPUT,
    .formats = formats,
    .exec = schema,
};
