/* Names: each its own, with a slug of its own, and what tickets and the haul log make of them:
 * codes of lots, and "Buyer/Field". */
#include "reader.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

/* ---- names as parts of worksheet keys ---- */

/* Parts that the program makes are either marked by a '-', which no slug has, or stand on this list; a slug that would
 * read like one of them gets a '_' at its end, which no other slug has. So every name may be given. */

/* What stands in keys where a name may stand too: first, after a house, after a field. */
static const char words[] =
    " account acres age agreed agronomy ammonium ammonium_share area away bedding "
    "bedding_over_litter"
    " beyond_firm bird_days buy buyer_price cap chance_over cleared combined content counts credit"
    " credits crew density depth disagreement dossier droppings dry_made dry_tons excreted"
    " feed firm found full_loads gone hen_days hens_placed in_feed in_soil interval lab leasts"
    " ledger left_less_on length likely limit litter live_weight loose_density lost made"
    " make_ready manure manure_over_feed mean_birds moisture need need_less_credits nitrogen"
    " no_acres_left on on_less_left one_load organic organic_share outside outside_setbacks"
    " over pan payload payloads per_dry per_ton phosphorus pi placed plan possible potassium "
    "pounds price"
    " rate ratio reached relief removal removed sample setbacks share shares_before short "
    "slat_height"
    " soil solids spreadable stepped table takes ticket times tons trips unusual usable_share value"
    " value_per_ton volume water weighed wet whole_leasts widened width window worth"
    " years_of_removal yield ";

static bool is_word(ls_arena *a, const char *slug) { return strstr(words, ls_arena_printf(a, " %s ", slug)) != NULL; }

/* leads: of a house or buyer; else of a side. */
static const char *key_part(ls_arena *a, const char *slug, bool leads) {
    /* "left" is a usual side; where a side stands, the program has no such part */
    bool taken = is_word(a, slug) || (leads && strcmp(slug, "left") == 0);
    return taken ? ls_arena_printf(a, "%s_", slug) : slug;
}

/* ---- lots and fields on tickets and in the haul log ---- */

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
    const char *of_house = house->code.text != NULL ? house->code.text : code_of(a, house->name.text);
    if (side == NULL) return or_x(a, of_house);
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

static void check_told(ls_farm_reader *reader, const told_list *list, const char *hint) {
    const char **called = LS_NEW(reader->arena, const char *, list->n);
    for (size_t i = 0; i < list->n; i++) called[i] = list->at[i].called;
    const size_t *first = ls_text_firsts(reader->arena, called, list->n);
    for (size_t i = 0; i < list->n; i++) {
        const told *one = &list->at[i], *other = &list->at[first[i]];
        if (one != other)
            LS_FARM_WRONG(reader, one->at, hint, "%s and %s, at %s, would both be %s on tickets and in the haul log",
                          one->name, other->name, ls_diag_where(reader->arena, reader->diag, other->at), one->called);
    }
}

/* Side NULL: the whole house. A thing without a name is noted elsewhere. */
static void add_lot(ls_farm_reader *reader, told_list *list, const ls_house *h, const ls_side *side) {
    ls_arena *a = reader->arena;
    if (h->name.text == NULL || (side != NULL && side->name.text == NULL)) return;
    *LS_PUSH(a, list) = (told){side == NULL ? ls_arena_printf(a, "house \"%s\"", h->name.text)
                                            : ls_arena_printf(a, "side \"%s/%s\"", h->name.text, side->name.text),
                               ls_lot_code(a, h, side), side == NULL ? h->name.at : side->name.at};
}

static void check_codes(ls_farm_reader *reader, const ls_farm *farm) {
    told_list lots = {0};
    for (size_t i = 0; i < farm->houses.n; i++) {
        const ls_house *h = &farm->houses.at[i];
        for (size_t k = 0; k < h->sides.n; k++) add_lot(reader, &lots, h, &h->sides.at[k]);
        if (h->sides.n == 0) add_lot(reader, &lots, h, NULL);
    }
    check_told(reader, &lots, "give a house a code of its own, for example \"code: N2\", or a side another name");
}

static void check_places(ls_farm_reader *reader, const ls_farm *farm) {
    told_list fields = {0};
    for (size_t b = 0; b < farm->buyers.n; b++)
        for (size_t f = 0; f < farm->buyers.at[b].fields.n; f++) {
            const ls_name *buyer = &farm->buyers.at[b].name, *name = &farm->buyers.at[b].fields.at[f].name;
            if (buyer->text != NULL && name->text != NULL)
                *LS_PUSH(reader->arena, &fields) =
                    (told){ls_arena_printf(reader->arena, "field \"%s\"", name->text),
                           ls_arena_printf(reader->arena, "%s/%s", buyer->text, name->text), name->at};
        }
    check_told(reader, &fields, "use a dash or a blank in place of a /");
}

static void check_told_apart(ls_farm_reader *reader, const ls_farm *farm) {
    check_codes(reader, farm);
    check_places(reader, farm);
}

/* ---- names ---- */

/* Names of a kind of thing, and their slugs. */
typedef struct {
    LS_LIST(const ls_name *) names;
    LS_LIST(const char *) slugs;
} named_list;

/* Put a name on the list; returns its slug. */
static const char *add(ls_farm_reader *reader, named_list *list, const ls_name *name) {
    if (!name->text) return "_";
    *LS_PUSH(reader->arena, &list->names) = name;
    return *LS_PUSH(reader->arena, &list->slugs) = ls_text_slug(reader->arena, name->text);
}

/* Note all names that are not new; what: "house"; advice: what to do. */
static void check(ls_farm_reader *reader, const named_list *list, const char *what, const char *advice) {
    const size_t *first = ls_text_firsts(reader->arena, list->slugs.at, list->slugs.n);
    for (size_t i = 0; i < list->names.n; i++) {
        const ls_name *entry = list->names.at[i], *earlier = list->names.at[first[i]];
        if (entry == earlier) continue;
        const char *where = ls_diag_where(reader->arena, reader->diag, earlier->at);
        const char *hint = ls_arena_printf(reader->arena, "the first is at %s: %s", where, advice);
        if (strcmp(entry->text, earlier->text) == 0)
            LS_FARM_WRONG(reader, entry->at, hint, "a second %s \"%s\"", what, entry->text);
        else
            LS_FARM_WRONG(reader, entry->at, hint, "%s \"%s\" is too like \"%s\": only signs and capitals differ", what,
                          entry->text, earlier->text);
    }
}

/* Lots are named HOUSE/SIDE. */
static void refuse_slash(ls_farm_reader *reader, const ls_name *name, const char *what) {
    if (name->text && strchr(name->text, '/'))
        LS_FARM_WRONG(reader, name->at, "use a dash or a blank", "the name of a %s must not hold a /", what);
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
        house->sides.at[i].slug = key_part(reader->arena, house->sides.at[i].slug, false);
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
        farm->houses.at[i].slug = key_part(reader->arena, farm->houses.at[i].slug, true);
    for (size_t b = 0; b < farm->buyers.n; b++) {
        ls_buyer *buyer = &farm->buyers.at[b];
        buyer->slug = key_part(reader->arena, buyer->slug, true);
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
    if (ls_diag_count(reader->diag, LS_ERROR) == before) check_told_apart(reader, farm);
}
