/* Which cautions of the published tables belong to which work. */
#include "books.h"

/* Where a caution counts: one of these is enough. */
enum { IN_HOUSE = 1, UNDER_SLATS = 2, AT_STACK = 4, ON_ROAD = 8, EVERYWHERE = ~0 };

static const struct {
    const char *kind, *row, *id;
    int where;
} table[] = {
    {"caution", "covered_load", "covered_load", ON_ROAD},
    {"caution", "raised_bed", "raised_bed", EVERYWHERE},
    {"caution", "ammonia", "ammonia", IN_HOUSE},
    {"caution", "dust", "dust", EVERYWHERE},
    {"caution", "histoplasmosis", "histoplasmosis", IN_HOUSE},
    {"caution", "gas_in_pit", "gas_in_pit", UNDER_SLATS},
    {"caution", "lifting", "lifting", UNDER_SLATS},
    {"caution", "heat", "heat", EVERYWHERE},
    {"caution", "carcasses", "carcasses", EVERYWHERE},
    {"caution", "stack_fire", "stack_fire", AT_STACK},
    {"rule", "sheep", "sheep", ON_ROAD},
    {"rule", "no litter as feed", "no_feed", EVERYWHERE},
};

static int where_of(const ls_load *load) {
    return (load->from_stack ? AT_STACK : IN_HOUSE) | (load->buyer == NULL ? AT_STACK : ON_ROAD);
}

/* A reminder of the table of rules begins with a small letter and has no full stop. */
static const char *sentence(ls_arena *a, const char *rule) {
    bool small = rule[0] >= 'a' && rule[0] <= 'z';
    return ls_arena_printf(a, "%c%s.", small ? rule[0] - 'a' + 'A' : rule[0], rule + 1);
}

static ls_cautions cautions(const ls_books *books, int where, bool driver) {
    ls_cautions out = {0};
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        bool rule = table[i].kind[0] == 'r';
        const ls_row *row =
            ls_table_row(ls_reference_table(books->reference, table[i].kind, ""), table[i].row);
        if (row == NULL)
            ls_fail("no table has the caution %s", table[i].row);
        const char *words = ls_row_word(row, driver && !rule ? "driver" : "text");
        if (words == NULL || (table[i].where & where) == 0)
            continue;
        const ls_source *s = row->source;
        *LS_PUSH(books->arena, &out) =
            (ls_caution){table[i].id, rule ? sentence(books->arena, words) : words,
                         s == NULL ? ls_status_words(LS_PRACTICE)
                         : driver  ? s->id
                                   : s->who};
    }
    return out;
}

ls_cautions ls_books_load_cautions(const ls_books *books, const ls_load *load) {
    return cautions(books, where_of(load), true);
}

ls_cautions ls_books_plan_cautions(const ls_books *books, const ls_plan *plan) {
    int where = IN_HOUSE | ON_ROAD;
    for (size_t i = 0; i < plan->loads_n + plan->out_n; i++)
        where |= where_of(ls_plan_load(plan, i));
    for (size_t i = 0; i < books->farm->houses.n; i++)
        if (ls_house_share(&books->farm->houses.at[i], LS_SLATS) > 0)
            where |= UNDER_SLATS;
    return cautions(books, where, false);
}
