/* The nitrogen a crop needs by the tables: which row is a field's, and what is asked for where none can be told. */
#include "reader.h"

#include <string.h>

/* ---- the row of a field ---- */

static const char nowhere[] = "any";

static const char *word(const ls_row *row, const char *column, const char *none) {
    const char *word = ls_row_word(row, column);
    return word ? word : none;
}

static bool is_of(const ls_row *row, const char *crop) {
    return ls_text_among(word(row, "crop", row->name), crop) &&
           (ls_row_figure(row, "per_bu") || ls_row_figure(row, "least"));
}

/* Hay that is grazed needs what its pasture does. */
static const char *crop_of(ls_arena *a, const ls_field *f) {
    static const char hay[] = " hay";
    const char *crop = f->crop.text;
    return f->use.is > LS_CUT && ls_text_ends(crop, hay)
               ? ls_arena_printf(a, "%.*s pasture", (int)(strlen(crop) - strlen(hay)), crop)
               : crop;
}

static void add_state(ls_arena *a, ls_crop_need *n, const ls_row *row) {
    const char *state = word(row, "state", nowhere);
    for (size_t i = 0; i < n->states.n; i++)
        if (strcmp(n->states.at[i], state) == 0) return;
    if (is_of(row, n->crop) && strcmp(state, nowhere) != 0) *LS_PUSH(a, &n->states) = state;
}

/* Of the rows of the state, else of any, the one for how the crop is grown. */
static void choose(ls_arena *a, ls_crop_need *n, const ls_table *t, const char *grown) {
    const char *in = nowhere;
    for (size_t i = 0; i < n->states.n; i++)
        if (ls_text_same(n->states.at[i], n->state)) in = n->state;
    for (size_t i = 0; n->state && i < t->n; i++) {
        const ls_row *row = &t->rows[i];
        const char *by = ls_row_word(row, "grown");
        if (!is_of(row, n->crop) || strcmp(word(row, "state", nowhere), in) != 0) continue;
        *LS_PUSH(a, &n->choices) = row;
        if (grown ? ls_text_among(by, grown) : !by) n->row = row;
    }
}

ls_crop_need ls_farm_crop_need(ls_arena *a, const ls_reference *r, const ls_farm *farm, const ls_buyer *b,
                               const ls_field *f) {
    const ls_table *t = ls_reference_table(r, "need", "");
    ls_crop_need n = {.crop = crop_of(a, f), .state = b->state.text};
    const ls_row *plain = ls_table_row(t, n.crop);
    if (!n.state && farm->facts) n.state = farm->facts->state.text;
    n.state_given = n.state != NULL;
    for (size_t i = 0; i < t->n; i++) add_state(a, &n, &t->rows[i]);
    if (!n.state && (plain || n.states.n == 0)) n.state = word(plain, "state", nowhere);
    choose(a, &n, t, f->grown.text);
    if (plain && plain->own && is_of(plain, n.crop)) n.row = plain; /* the farm's own serves wherever the field lies */
    return n;
}

/* ---- what is asked for ---- */

/* "80 to 120 lb/ac", "1.2 lb/bu" */
static const char *amount(ls_arena *a, const ls_row *row) {
    const ls_figure *least = ls_row_figure(row, "per_bu"), *most = ls_row_figure(row, "most");
    if (!least) least = ls_row_figure(row, "least");
    const char *to = most ? ls_number_text(a, most->value / most->unit.factor, 4) : "";
    return ls_arena_printf(a, "%s%s%s %s", ls_number_text(a, least->value / least->unit.factor, 4), most ? " to " : "",
                           to, least->unit.text);
}

static const char *choices(ls_arena *a, const ls_crop_need *n) {
    ls_text *t = ls_text_new(a);
    for (size_t i = 0; i < n->choices.n; i++) {
        const char *by = ls_row_word(n->choices.at[i], "grown"), *one;
        ls_text_addf(t, "%s%s", i > 0 ? ", " : "", by ? "" : "without grown");
        for (size_t k = 0; by && (one = ls_farm_part(a, by, k)) != NULL; k++)
            ls_text_addf(t, "%s%s\"", k == 0 ? "\"grown: " : " or \"", one);
        ls_text_addf(t, " (%s)", amount(a, n->choices.at[i]));
    }
    return t->s;
}

#define OWN_FIGURE "write \"nitrogen: ... lb/ac\" from your laboratory or plan"

static void ask(ls_farm_reader *reader, const ls_field *f, const ls_crop_need *n) {
    ls_arena *a = reader->arena;
    const char *states = ls_farm_joined(a, n->states.at, n->states.n), *hint = OWN_FIGURE;
    bool choose = n->choices.n > 0, wrong = choose && f->grown.text, named = n->state && strcmp(n->state, nowhere) != 0;
    if (choose)
        hint = ls_arena_printf(a, OWN_FIGURE ", or how it is grown, one of these: %s", choices(a, n));
    else if (!n->state)
        hint = ls_arena_printf(a,
                               OWN_FIGURE ", or \"state: ...\" for the buyer or the farm, one of "
                                          "these: %s",
                               states);
    else if (n->states.n > 0)
        hint = ls_arena_printf(a, OWN_FIGURE "; there are figures for %s", states);
    LS_FARM_WRONG(reader, wrong ? f->grown.at : f->crop.at, hint, "%s has no nitrogen, and %s %s%s%s needs%s",
                  ls_farm_called(a, "field", f->name), wrong || (n->state && !choose) ? "no table says what" : "what",
                  n->crop, named ? " in " : "", named ? n->state : "",
                  wrong       ? ", grown like this"
                  : choose    ? " depends on how it is grown"
                  : !n->state ? " depends on the state"
                              : "");
}

/* The row goes by the yield: it must be in its unit, and no less than the row is for. */
static void check_yield(ls_farm_reader *reader, const ls_field *f, const ls_row *row) {
    ls_arena *a = reader->arena;
    const ls_figure *low = ls_row_figure(row, "yield_least");
    const char *who = ls_farm_called(a, "field", f->name);
    if (!low && !ls_row_figure(row, "per_bu")) return;
    const char *unit = low ? low->unit.text : "bu/ac",
               *least = ls_unit_amount(a, low ? ls_number_text(a, low->value / low->unit.factor, 4) : "165", unit);
    if (!LS_GIVEN(f->yield))
        LS_FARM_WRONG(reader, f->at, ls_arena_printf(a, "add it, for example \"yield: %s\"", least),
                      "%s has no yield: the crop table gives nitrogen by yield", who);
    else if (!ls_dimension_same(f->yield.unit.dimension, ls_unit_of(unit).dimension))
        LS_FARM_WRONG(reader, f->yield.at, OWN_FIGURE, "%s: the crop table gives nitrogen by a yield in %s", who, unit);
    else if (low && !ls_row_figure(row, "yield_most") && f->yield.value < low->value)
        LS_FARM_WRONG(reader, f->yield.at, OWN_FIGURE, "%s: the crop table's nitrogen is for %s or more", who, least);
}

static bool is_misspelt(const ls_name *name) { return LS_GIVEN(*name) && !name->text; }

void ls_farm_check_needs(ls_farm_reader *reader, const ls_farm *farm) {
    for (size_t i = 0; i < farm->buyers.n; i++)
        for (size_t k = 0; k < farm->buyers.at[i].fields.n; k++) {
            const ls_buyer *b = &farm->buyers.at[i];
            const ls_field *f = &b->fields.at[k];
            if (!f->clean || LS_GIVEN(f->nitrogen) || !f->crop.text || is_misspelt(&b->state) ||
                (farm->facts && is_misspelt(&farm->facts->state)))
                continue;
            const ls_crop_need n = ls_farm_crop_need(reader->arena, reader->reference, farm, b, f);
            if (!n.row)
                ask(reader, f, &n);
            else if (!f->yield_told)
                check_yield(reader, f, n.row);
        }
}
