#include "entry.h"

#include <string.h>

static const ls_command *const table[] = {
    &ls_command_new,     &ls_command_check,   &ls_command_estimate, &ls_command_rates,
    &ls_command_plan,    &ls_command_tickets, &ls_command_record,   &ls_command_dossier,
    &ls_command_explain, &ls_command_sources, &ls_command_schema,
};
enum { COMMANDS = sizeof table / sizeof *table };

const ls_command *ls_command_at(size_t index) { return index < COMMANDS ? table[index] : NULL; }

const ls_command *ls_command_named(const char *name) {
    for (size_t i = 0; i < COMMANDS; i++)
        if (strcmp(table[i]->name, name) == 0) return table[i];
    return NULL;
}

const char *ls_command_near(const char *name) {
    const char *names[COMMANDS];
    for (size_t i = 0; i < COMMANDS; i++) names[i] = table[i]->name;
    return ls_text_nearest(name, names, COMMANDS);
}

const char *const *ls_command_formats(const ls_command *command) {
    static const char *const of_documents[] = {"text", "html", "json", "csv", NULL};
    return command->formats != NULL ? command->formats : of_documents;
}
