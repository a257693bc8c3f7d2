#include "check_odd.h"
#include "page.h"

#include <string.h>

enum { NAME = 40 };

static const char *name(const ls_report_page *p, ls_name n) {
    return n.text == NULL ? "?" : ls_report_name(p, n.text, NAME);
}

/* ---- what was read ---- */

static const char *birds(ls_report_page *p, const ls_flock *f) {
    bool breeders = LS_GIVEN(f->hens);
    ls_text *t = ls_text_new(p->arena);
    ls_text_addf(t, "%s, %s %s", ls_bird_name(f->birds.is),
                 ls_number_text(p->arena, (double)(breeders ? f->hens.n : f->count.n), 6),
                 breeders ? "hens" : "birds");
    if (LS_GIVEN(f->males))
        ls_text_addf(t, " and %s males", ls_number_text(p->arena, (double)f->males.n, 6));
    ls_text_addf(t, ", %s to %s", ls_date_iso(p->arena, f->placed.day),
                 ls_date_iso(p->arena, f->removed.day));
    return t->s;
}

static void house(ls_report_page *p, const ls_house *h) {
    ls_text *t = ls_text_new(p->arena);
    ls_text_addf(t, "house %s", name(p, h->name));
    for (size_t i = 0; i < h->sides.n; i++)
        ls_text_addf(t, "%s%s", i == 0 ? ", sides " : " and ", name(p, h->sides.at[i].name));
    ls_report_item(p, 2, "%s", t->s);
    for (size_t i = 0; i < h->flocks.n; i++)
        ls_report_item(p, 4, "%s", birds(p, &h->flocks.at[i]));
    const ls_depth_grid *g = h->measured == NULL ? NULL : h->measured->depth.grid;
    if (g != NULL)
        ls_report_item(p, 4, "depths on a grid of %zu x %zu readings, %s", g->across_n, g->along_n,
                       name(p, g->file));
    for (size_t i = 0; i < h->lab.n; i++)
        ls_report_item(p, 4, "laboratory report%s%s", LS_GIVEN(h->lab.at[i].date) ? " of " : "",
                       LS_GIVEN(h->lab.at[i].date) ? ls_date_iso(p->arena, h->lab.at[i].date.day)
                                                   : "");
}

static void buyer(ls_report_page *p, const ls_buyer *b) {
    ls_report_item(p, 2, "buyer %s", name(p, b->name));
    for (size_t i = 0; i < b->fields.n; i++) {
        const ls_field *f = &b->fields.at[i];
        ls_text *t = ls_text_new(p->arena);
        ls_text_addf(t, "field %s, %s", name(p, f->name), name(p, f->crop));
        if (LS_GIVEN(f->open))
            ls_text_addf(t, ", open %s to %s", ls_date_iso(p->arena, f->open.days.from),
                         ls_date_iso(p->arena, f->open.days.to));
        ls_report_item(p, 4, "%s", t->s);
    }
}

static void what_was_read(ls_report_page *p, const ls_farm *f) {
    size_t fields = 0;
    for (size_t i = 0; i < f->buyers.n; i++)
        fields += f->buyers.at[i].fields.n;
    ls_report_heading(p, "READ");
    ls_report_say(p, 2, "Houses: %zu. Kinds of truck: %zu. Buyers: %zu. Fields: %zu.", f->houses.n,
                  f->trucks.n, f->buyers.n, fields);
    for (size_t i = 0; i < f->own_tables.n; i++)
        ls_report_item(p, 2, "tables of the farm's own: %s", name(p, f->own_tables.at[i]));
    for (size_t i = 0; i < f->houses.n; i++)
        house(p, &f->houses.at[i]);
    for (size_t i = 0; i < f->buyers.n; i++)
        buyer(p, &f->buyers.at[i]);
}

/* ---- what is missing ---- */

static bool has_lab(const ls_house *h) {
    bool sides = h->sides.n > 0;
    for (size_t i = 0; i < h->sides.n; i++)
        sides = sides && h->sides.at[i].lab.n > 0;
    return h->lab.n > 0 || sides;
}

static bool has_depth(const ls_measured *m) {
    for (int z = LS_SLATS; m != NULL && z < LS_ZONES; z++)
        if (LS_GIVEN(m->depth.of[z]))
            return true;
    return m != NULL && m->depth.grid != NULL;
}

static void house_gaps(ls_report_page *p, const ls_house *h) {
    const char *house = name(p, h->name);
    if (!has_lab(h))
        ls_report_item(p, 2,
                       "house %s: no laboratory report (lab): published nutrient figures are used, "
                       "and rates are set "
                       "lower to be safe",
                       house);
    if (!has_depth(h->measured) && h->last_cleanout.n == 0 &&
        !(h->measured != NULL && LS_GIVEN(h->measured->weighed)))
        ls_report_item(p, 2,
                       "house %s: no depth readings (measured) and no last_cleanout: its tons rest "
                       "on published figures",
                       house);
}

static void rating_gaps(ls_report_page *p, const ls_field *f) {
    if (f->phosphorus->rated_by.text == NULL || !LS_GIVEN(f->phosphorus->date))
        ls_report_item(p, 2, "field %s: who rated the phosphorus, and when (rated_by, date)",
                       name(p, f->name));
    if (LS_GIVEN(f->phosphorus->bank) && f->phosphorus->ledger.n == 0)
        ls_report_item(p, 2,
                       "field %s: phosphorus is banked, and no ledger says what went on and was "
                       "taken off in the years before; the plan writer has it",
                       name(p, f->name));
}

static void field_gaps(ls_report_page *p, const ls_field *f) {
    if (f->phosphorus == NULL)
        ls_report_item(
            p, 2,
            "field %s: no phosphorus rating: it is taken as high, with no bank; the plan "
            "writer gives it",
            name(p, f->name));
    else
        rating_gaps(p, f);
    if (f->setbacks.n == 0)
        ls_report_item(p, 2, "field %s: no setbacks: all of it is taken as spreadable",
                       name(p, f->name));
    if (!LS_GIVEN(f->most))
        ls_report_item(p, 2, "field %s: the plan's cap (most) is not given", name(p, f->name));
    if (f->soil == NULL && !(LS_GIVEN(f->phosphate) && LS_GIVEN(f->potash)))
        ls_report_item(p, 2,
                       "field %s: no soil test, and no phosphate and potash that a laboratory asks "
                       "for: what to buy beside the litter leaves them out",
                       name(p, f->name));
    if (!LS_GIVEN(f->open))
        ls_report_item(p, 2, "field %s: no dates when it may be spread (open)", name(p, f->name));
}

/* A soil test that nothing reads. */
static bool has_unread_soil(const ls_farm *f) {
    if (f->tables != NULL && f->tables->soil.text != NULL)
        return false;
    for (size_t b = 0; b < f->buyers.n; b++)
        for (size_t i = 0; i < f->buyers.at[b].fields.n; i++) {
            const ls_field *field = &f->buyers.at[b].fields.at[i];
            if (field->soil != NULL && !(LS_GIVEN(field->phosphate) && LS_GIVEN(field->potash)))
                return true;
        }
    return false;
}

static void farm_gaps(ls_report_page *p, const ls_farm *f) {
    if (has_unread_soil(f))
        ls_report_item(p, 2,
                       "no soil table (soil under tables, piedmont for example): soil tests are "
                       "given, but what they call for in P2O5 and K2O is not worked out");
    if (f->trucks.n == 0)
        ls_report_item(p, 2, "no trucks: loads stay unknown, and there is no plan");
    if (f->crew == NULL)
        ls_report_item(p, 2, "no crew: there is no plan");
    if (f->buyers.n == 0)
        ls_report_item(p, 2, "no buyers: no rates and no plan");
    if (f->stack == NULL)
        ls_report_item(p, 2, "no stack: what no open field can take has no home");
    if (f->costs == NULL)
        ls_report_item(p, 2, "no costs: the plan cannot weigh the money");
    if (f->fertilizer.n == 0)
        ls_report_item(p, 2, "no fertilizer prices: the worth of the litter stays unknown");
    if (f->facts == NULL || !LS_GIVEN(f->facts->next_flock))
        ls_report_item(p, 2, "no next_flock: the plan cannot tell the days to spare");
}

static void gaps(ls_report_page *p, const ls_farm *f) {
    size_t before = p->text->n;
    ls_report_heading(p, "NOT IN THE FILES");
    size_t headed = p->text->n;
    farm_gaps(p, f);
    for (size_t i = 0; i < f->houses.n; i++)
        house_gaps(p, &f->houses.at[i]);
    for (size_t i = 0; i < f->buyers.n; i++)
        for (size_t k = 0; k < f->buyers.at[i].fields.n; k++)
            field_gaps(p, &f->buyers.at[i].fields.at[k]);
    if (p->text->n > headed)
        return;
    p->text->n = before; /* nothing is missing: no heading */
    p->text->s[before] = '\0';
}

/* Messages are lines of their own: a caret stands under its place only if they stay so. */
static void messages(ls_report_page *p, const char *text, bool estimated) {
    if (text[0] == '\0')
        return;
    ls_report_heading(p, estimated ? "LOOK AT" : "LOOK AT; NO ESTIMATE CAN BE MADE YET");
    for (const char *line = text; *line != '\0';) {
        size_t n = strcspn(line, "\n");
        const char *one = ls_arena_copy_n(p->arena, line, n);
        if (ls_text_columns(one) <= LS_REPORT_WIDTH)
            ls_text_addf(p->text, "%s\n", one);
        else
            ls_report_wrap(p, "", "", one);
        line += n + (line[n] == '\n');
    }
}

static void cautions(ls_report_page *p, const ls_estimate *e) {
    if (e->cautions.n == 0)
        return;
    ls_report_heading(p, "TAKE CARE");
    for (size_t i = 0; i < e->cautions.n; i++)
        ls_report_item(p, 2, "%s (%s)", e->cautions.at[i].text, e->cautions.at[i].source);
}

const char *ls_report_check_text(const ls_view *v, const ls_estimate *e, const char *diagnostics) {
    ls_report_page *p = ls_report_begin(v, "The farm files: what was read, and what is missing");
    what_was_read(p, v->farm);
    messages(p, diagnostics, e != NULL);
    ls_report_left_of_starter(p);
    ls_report_odd_figures(p);
    gaps(p, v->farm);
    if (e != NULL) {
        cautions(p, e);
        ls_report_list(p, "TAKEN WHERE THE FILE IS SILENT, AND WHAT DISAGREES", e->notes.at,
                       e->notes.n);
    }
    ls_report_blank(p);
    ls_report_say(p, 0,
                  e != NULL && e->cautions.n > 0
                      ? "No mistakes found; look at what stands under TAKE CARE."
                      : "No mistakes found.");
    return ls_report_end(p);
}
