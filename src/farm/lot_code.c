/* What tickets and the haul log call lots and fields: codes, and "Buyer/Field". */
#include "reader.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

static const char *code_of(ls_arena *a, const char *name) {
    ls_text *t = ls_text_new(a);
    for (const char *s = ls_text_slug(a, name); *s; s++) {
        unsigned char c = (unsigned char)*s;
        char up = (char)toupper(c);
        if (c < 0x80 && isalnum(c))
            ls_text_add_n(t, &up, 1);
        else if (c == '_')
            ls_text_add(t, "-");
    }
    return t->s;
}

/* X where nothing else is left. */
static const char *or_x(ls_arena *a, const char *code) {
    return code[strspn(code, "-")] == '\0' ? ls_arena_printf(a, "X%s", code) : code;
}

const char *ls_lot_code(ls_arena *a, const ls_house *house, const ls_side *side) {
    const char *of_house =
        house->code.text != NULL ? house->code.text : code_of(a, house->name.text);
    if (side == NULL)
        return or_x(a, of_house);
    const char *of_side = code_of(a, side->name.text);
    return house->code.text != NULL ? ls_arena_printf(a, "%s-%s", of_house, or_x(a, of_side))
                                    : or_x(a, ls_arena_printf(a, "%s-%s", of_house, of_side));
}

/* Something with a name of its own, and what it is called beside the farm file. */
typedef struct {
    const char *name, *called;
    ls_place at;
} told;
typedef LS_LIST(told) told_list;

/* In the order of the file among those called alike. */
static int by_called(const void *left, const void *right) {
    const told *a = left, *b = right;
    int order = strcmp(a->called, b->called);
    if (order == 0)
        order = (a->at.line > b->at.line) - (a->at.line < b->at.line);
    return order != 0 ? order : (a->at.column > b->at.column) - (a->at.column < b->at.column);
}

static void check_told(ls_farm_reader *reader, told_list *list, const char *hint) {
    if (list->n > 1)
        qsort(list->at, list->n, sizeof *list->at, by_called);
    for (size_t i = 1; i < list->n; i++) {
        const told *one = &list->at[i], *other = &list->at[i - 1];
        if (strcmp(one->called, other->called) == 0)
            LS_FARM_WRONG(reader, one->at, hint,
                          "%s and %s, at %s, would both be %s on tickets and in the haul log",
                          one->name, other->name,
                          ls_diag_where(reader->arena, reader->diag, other->at), one->called);
    }
}

/* Side NULL: the whole house. A thing without a name is noted elsewhere. */
static void add_lot(ls_farm_reader *reader, told_list *list, const ls_house *h,
                    const ls_side *side) {
    ls_arena *a = reader->arena;
    if (h->name.text == NULL || (side != NULL && side->name.text == NULL))
        return;
    *LS_PUSH(a, list) =
        (told){side == NULL ? ls_arena_printf(a, "house \"%s\"", h->name.text)
                            : ls_arena_printf(a, "side \"%s/%s\"", h->name.text, side->name.text),
               ls_lot_code(a, h, side), side == NULL ? h->name.at : side->name.at};
}

static void check_codes(ls_farm_reader *reader, const ls_farm *farm) {
    told_list lots = {0};
    for (size_t i = 0; i < farm->houses.n; i++) {
        const ls_house *h = &farm->houses.at[i];
        for (size_t k = 0; k < h->sides.n; k++)
            add_lot(reader, &lots, h, &h->sides.at[k]);
        if (h->sides.n == 0)
            add_lot(reader, &lots, h, NULL);
    }
    check_told(reader, &lots,
               "give a house a code of its own, for example \"code: N2\", or a side another name");
}

static void check_places(ls_farm_reader *reader, const ls_farm *farm) {
    told_list fields = {0};
    for (size_t b = 0; b < farm->buyers.n; b++)
        for (size_t f = 0; f < farm->buyers.at[b].fields.n; f++) {
            const ls_name *buyer = &farm->buyers.at[b].name,
                          *name = &farm->buyers.at[b].fields.at[f].name;
            if (buyer->text != NULL && name->text != NULL)
                *LS_PUSH(reader->arena, &fields) = (told){
                    ls_arena_printf(reader->arena, "field \"%s\"", name->text),
                    ls_arena_printf(reader->arena, "%s/%s", buyer->text, name->text), name->at};
        }
    check_told(reader, &fields, "use a dash or a blank in place of a /");
}

void ls_farm_check_told_apart(ls_farm_reader *reader, const ls_farm *farm) {
    check_codes(reader, farm);
    check_places(reader, farm);
}
