/* Which cautions of the published tables belong to which work. */
#include "books.h"

/* Work and place of loads. A caution counts where one of its own is met. */
enum {
    IN_HOUSE = 1,
    OVER_SLATS = 2,
    OVER_PIT = 4,
    AT_STACK = 8,
    ON_ROAD = 16,
    FOR_STOCK = 32, /* cattle or sheep may eat what grows there */
    WARM = 64,
    ANYWHERE = ~0
};

/* crew: of the work in the house before loads are loaded; tickets leave it out. */
static const struct {
    const char *kind, *row, *id;
    int where;
    bool crew;
} table[] = {
    {"caution", "covered_load", "covered_load", ON_ROAD, false},
    {"caution", "raised_bed", "raised_bed", ANYWHERE, false},
    {"caution", "dust", "dust", ANYWHERE, false},
    {"caution", "histoplasmosis", "histoplasmosis", IN_HOUSE, true},
    {"caution", "ammonia", "ammonia", IN_HOUSE, false},
    {"caution", "gas_in_pit", "gas_in_pit", OVER_PIT, true},
    {"caution", "lifting", "lifting", OVER_SLATS, true},
    {"caution", "heat", "heat", WARM, false},
    {"caution", "stack_fire", "stack_fire", AT_STACK, false},
    {"caution", "carcasses", "carcasses", ANYWHERE, false},
    {"rule", "sheep", "sheep", FOR_STOCK, false},
    {"rule", "no litter as feed", "no_feed", FOR_STOCK | AT_STACK, false},
};

/* Layers' manure falls into a pit, or may where the file does not say how it is kept. */
static int pit_of(const ls_house *h) {
    bool untold = false;
    for (size_t i = 0; i < h->flocks.n; i++)
        untold |= h->manure.is == 0 && ls_bird_is(h->flocks.at[i].birds.is, LS_MANURE_APART);
    return untold || h->manure.is == LS_MANURE_PIT ? OVER_PIT : 0;
}

static int house_of(const ls_house *h) {
    return IN_HOUSE | pit_of(h) | (ls_house_share(h, LS_SLATS) > 0 ? OVER_SLATS : 0);
}

/* April to October, when the heat index of the poultry states passes 103 F; a load out of the
 * stack has no day, so it may be any. */
static int season_of(const ls_load *load) {
    int year = ls_date_year(load->day);
    bool cool = !load->from_stack && (load->day < ls_date_of(year, 4, 1) || load->day >= ls_date_of(year, 11, 1));
    return cool ? 0 : WARM;
}

static int where_of(const ls_load *load) {
    int where = season_of(load) | (load->from_stack ? AT_STACK : house_of(load->lot->house)) |
                (load->buyer == NULL ? AT_STACK : ON_ROAD);
    for (size_t k = 0; k < load->n; k++) where |= ls_agronomy_for_stock(load->drops[k].field) ? FOR_STOCK : 0;
    return where;
}

/* A reminder of the table of rules begins with a small letter and has no full stop. */
static const char *sentence(ls_arena *a, const char *rule) {
    bool small = rule[0] >= 'a' && rule[0] <= 'z';
    return ls_arena_printf(a, "%c%s.", small ? rule[0] - 'a' + 'A' : rule[0], rule + 1);
}

static ls_cautions cautions(const ls_books *books, int where, bool crew) {
    ls_cautions out = {0};
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        bool rule = table[i].kind[0] == 'r';
        const ls_row *row = ls_table_row(ls_reference_table(books->reference, table[i].kind, ""), table[i].row);
        if (row == NULL) ls_fail("no table has the caution %s", table[i].row);
        if ((table[i].where & where) == 0 || (table[i].crew && !crew)) continue;
        const char *words = ls_row_word(row, "text");
        const ls_source *s = row->source;
        *LS_PUSH(books->arena, &out) = (ls_caution){table[i].id, rule ? sentence(books->arena, words) : words,
                                                    s == NULL ? ls_status_words(LS_PRACTICE)
                                                    : crew    ? s->who
                                                              : s->id};
    }
    return out;
}

ls_cautions ls_books_load_cautions(const ls_books *books, const ls_load *load) {
    return cautions(books, where_of(load), false);
}

ls_cautions ls_books_plan_cautions(const ls_books *books, const ls_plan *plan) {
    int where = 0;
    for (size_t i = 0; i < plan->loads_n + plan->out_n; i++) where |= where_of(ls_plan_load(plan, i));
    return cautions(books, where, true);
}
