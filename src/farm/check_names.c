/* Names: each its own, with a slug of its own. */
#include "reader.h"

#include <stdlib.h>
#include <string.h>

/* One name of a kind of thing. */
typedef struct {
    const ls_name *name;
    const char *slug;
    size_t order;
} named;

typedef LS_LIST(named) named_list;

static int by_slug(const void *left, const void *right) {
    const named *a = left, *b = right;
    int order = strcmp(a->slug, b->slug);
    if (order != 0)
        return order;
    return a->order < b->order ? -1 : a->order > b->order;
}

/* Put a name on the list; returns its slug. */
static const char *add(ls_farm_reader *reader, named_list *list, const ls_name *name) {
    if (!name->text)
        return "_";
    named *entry = LS_PUSH(reader->arena, list);
    *entry = (named){name, ls_text_slug(reader->arena, name->text), list->n};
    return entry->slug;
}

/* Note all names that are not new; what: "house"; advice: what to do. */
static void check(ls_farm_reader *reader, named_list *list, const char *what, const char *advice) {
    if (list->n > 1)
        qsort(list->at, list->n, sizeof *list->at, by_slug);
    for (size_t i = 1, first = 0; i < list->n; i++) {
        const named *entry = &list->at[i], *earlier = &list->at[first];
        if (strcmp(entry->slug, earlier->slug) != 0) {
            first = i;
            continue;
        }
        const char *where = ls_diag_where(reader->arena, reader->diag, earlier->name->at);
        const char *hint = ls_arena_printf(reader->arena, "the first is at %s: %s", where, advice);
        if (strcmp(entry->name->text, earlier->name->text) == 0)
            LS_FARM_WRONG(reader, entry->name->at, hint, "a second %s \"%s\"", what,
                          entry->name->text);
        else
            LS_FARM_WRONG(reader, entry->name->at, hint,
                          "%s \"%s\" is too like \"%s\": only signs and capitals differ", what,
                          entry->name->text, earlier->name->text);
    }
}

/* Lots are named HOUSE/SIDE. */
static void refuse_slash(ls_farm_reader *reader, const ls_name *name, const char *what) {
    if (name->text && strchr(name->text, '/'))
        LS_FARM_WRONG(reader, name->at, "use a dash or a blank",
                      "the name of a %s must not hold a /", what);
}

static void check_house(ls_farm_reader *reader, ls_house *house) {
    named_list sides = {0};
    refuse_slash(reader, &house->name, "house");
    for (size_t i = 0; i < house->sides.n; i++) {
        refuse_slash(reader, &house->sides.at[i].name, "side");
        house->sides.at[i].slug = add(reader, &sides, &house->sides.at[i].name);
        add(reader, &sides, &house->sides.at[i].formerly);
    }
    check(reader, &sides, "side", "give each side a name of its own");
    for (size_t i = 0; i < house->sides.n; i++)
        house->sides.at[i].slug = ls_farm_key_part(reader->arena, house->sides.at[i].slug, false);
}

static void check_fields(ls_farm_reader *reader, ls_buyer *buyer) {
    named_list fields = {0};
    for (size_t i = 0; i < buyer->fields.n; i++) {
        buyer->fields.at[i].slug = add(reader, &fields, &buyer->fields.at[i].name);
        add(reader, &fields, &buyer->fields.at[i].formerly);
    }
    check(reader, &fields, "field", "give each field of a buyer a name of its own");
}

/* Houses lead keys as buyers do: of two with one name the buyer's part is another. */
static void set_leading_parts(ls_farm_reader *reader, ls_farm *farm) {
    for (size_t i = 0; i < farm->houses.n; i++)
        farm->houses.at[i].slug = ls_farm_key_part(reader->arena, farm->houses.at[i].slug, true);
    for (size_t b = 0; b < farm->buyers.n; b++) {
        ls_buyer *buyer = &farm->buyers.at[b];
        buyer->slug = ls_farm_key_part(reader->arena, buyer->slug, true);
        for (size_t i = 0; i < farm->houses.n; i++)
            if (strcmp(farm->houses.at[i].slug, buyer->slug) == 0) {
                buyer->slug = ls_arena_printf(reader->arena, "%s_", buyer->slug);
                break;
            }
    }
}

void ls_farm_check_names(ls_farm_reader *reader, ls_farm *farm) {
    named_list houses = {0}, codes = {0}, trucks = {0}, buyers = {0};
    size_t before = ls_diag_count(reader->diag, LS_ERROR);
    for (size_t i = 0; i < farm->houses.n; i++) {
        farm->houses.at[i].slug = add(reader, &houses, &farm->houses.at[i].name);
        add(reader, &houses, &farm->houses.at[i].formerly);
        add(reader, &codes, &farm->houses.at[i].code);
        check_house(reader, &farm->houses.at[i]);
    }
    for (size_t i = 0; i < farm->trucks.n; i++) {
        add(reader, &trucks, &farm->trucks.at[i].name);
        add(reader, &trucks, &farm->trucks.at[i].formerly);
    }
    for (size_t i = 0; i < farm->buyers.n; i++) {
        farm->buyers.at[i].slug = add(reader, &buyers, &farm->buyers.at[i].name);
        add(reader, &buyers, &farm->buyers.at[i].formerly);
        check_fields(reader, &farm->buyers.at[i]);
    }
    check(reader, &houses, "house", "give each house a name of its own");
    check(reader, &codes, "house code", "give each house a code of its own");
    check(reader, &trucks, "truck", "give each kind of truck a name of its own");
    check(reader, &buyers, "buyer", "give each buyer a name of its own");
    set_leading_parts(reader, farm);
    if (ls_diag_count(reader->diag, LS_ERROR) == before)
        ls_farm_check_told_apart(reader, farm);
}
