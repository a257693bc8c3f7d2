/* Houses that had the same flocks as another house of the files. */
#include "reader.h"

#include <string.h>

static ls_house *house_named(ls_farm *farm, const char *name) {
    for (size_t i = 0; i < farm->houses.n; i++)
        if (farm->houses.at[i].name.text && strcmp(farm->houses.at[i].name.text, name) == 0)
            return &farm->houses.at[i];
    return NULL;
}

static void note_unknown(ls_farm_reader *reader, const ls_farm *farm, const ls_house *house) {
    ls_farm_names names = {0};
    for (size_t i = 0; i < farm->houses.n; i++)
        if (farm->houses.at[i].name.text && &farm->houses.at[i] != house)
            *LS_PUSH(reader->arena, &names) = farm->houses.at[i].name.text;
    const char *hint = names.n > 0 ? ls_farm_suggest(reader->arena, house->flocks_as.text, names.at,
                                                     names.n, "the other houses are")
                                   : "there is no other house";
    LS_FARM_WRONG(reader, house->flocks_as.at, hint, "there is no house \"%s\"",
                  house->flocks_as.text);
}

/* The house at the end of the way: one with flocks of its own. NULL: there is none, that is noted.
 */
static const ls_house *source_of(ls_farm_reader *reader, ls_farm *farm, const ls_house *house) {
    const ls_house *from = house;
    for (size_t steps = 0; from && from->flocks_as.text && from->flocks.n == 0; steps++) {
        if (steps == farm->houses.n || (steps > 0 && from == house)) {
            LS_FARM_WRONG(reader, house->flocks_as.at, "give one of the houses its flocks",
                          "these flocks lead back to the house itself");
            return NULL;
        }
        const ls_house *next = house_named(farm, from->flocks_as.text);
        if (!next && from == house)
            note_unknown(reader, farm, house);
        from = next;
    }
    return from;
}

void ls_farm_take_on_flocks(ls_farm_reader *reader, ls_farm *farm) {
    for (size_t i = 0; i < farm->houses.n; i++) {
        ls_house *house = &farm->houses.at[i];
        if (!house->flocks_as.text || house->flocks.n > 0)
            continue;
        const ls_house *from = source_of(reader, farm, house);
        if (from && from->flocks.n > 0)
            house->flocks = from->flocks;
        else if (from)
            LS_FARM_WRONG(reader, house->flocks_as.at, "name a house that has them",
                          "house \"%s\" has no flocks", house->flocks_as.text);
    }
}
