/* What several pages tell: cautions, notes of the haul log, what became of the nutrients of a house. */
#include "put.h"

#include <stddef.h>

LS_DOC_COLUMNS(caution_columns, DATA("id"), WORDS("text", NULL), {.key = "source", .level = LS_FULL});

void ls_report_put_cautions(ls_doc_group *g, const ls_cautions *list, size_t first) {
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FIRST, "cautions", "TAKE CARE", caution_columns);
    ls_doc_as_items(t);
    for (size_t i = 0; i < list->n; i++)
        LS_DOC_GRID_ROW(t, caution_columns, i < first ? LS_FIRST : LS_FULL, NULL, W(list->at[i].id),
                        W(list->at[i].text), W(list->at[i].source));
}

void ls_report_put_log(ls_doc_group *top) {
    const ls_log_notes *notes = &top->document->view->log_notes;
    ls_doc_texts(top, LS_FIRST, "log_notes", "HAUL LOG", notes->at, notes->n);
}

const char *ls_report_named(ls_arena *a, const ls_report_list *list) {
    enum { MOST_NAMED = 3 };
    ls_text *t = ls_text_new(a);
    size_t shown = list->n > MOST_NAMED + 1 ? MOST_NAMED : list->n;
    for (size_t i = 0; i < shown; i++) ls_text_addf(t, "%s%s", i > 0 ? ", " : "", list->at[i]);
    if (shown < list->n) ls_text_addf(t, " and %zu more", list->n - shown);
    return t->s;
}

/* ---- nutrients of a house: eaten, gone, found again ---- */

LS_DOC_COLUMNS(fate_columns, HEAD(""), NUMBER("N", "N"), NUMBER("P", "P"), NUMBER("K", "K"));

/* The parts of an element's fate, in lb but for the share that is lost. */
static const struct {
    const char *key, *label, *unit;
    size_t at;
} parts[] = {
    {"eaten_lb", "Eaten", "lb", offsetof(ls_fate, eaten)},
    {"eggs_lb", "gone with the eggs", "lb", offsetof(ls_fate, eggs)},
    {"growth_lb", "kept in the growth of the birds", "lb", offsetof(ls_fate, growth)},
    {"excreted_lb", "Excreted", "lb", offsetof(ls_fate, excreted)},
    {"bedding_lb", "Brought in with the bedding", "lb", offsetof(ls_fate, bedding)},
    {"litter_lb", "in the litter", "lb", offsetof(ls_fate, litter)},
    {"out_lb", "in what was taken out before", "lb", offsetof(ls_fate, out)},
    {"lost_lb", "N to the air; P, K not recovered", "lb", offsetof(ls_fate, lost)},
    {"lost_pct", "lost, % of what was excreted", "%", offsetof(ls_fate, lost_share)},
};

static bool any_found(const ls_account *a) {
    return a->of[LS_ELEMENT_P].found_again.line || a->of[LS_ELEMENT_K].found_again.line;
}

static ls_doc_cell part_of(const ls_account *a, int element, size_t i) {
    ls_line line = *(const ls_line *)((const char *)&a->of[element] + parts[i].at);
    return F(line, parts[i].unit);
}

static bool any_part(const ls_account *a, size_t i) {
    for (int e = 0; e < LS_ELEMENTS; e++)
        if (part_of(a, e, i).kind != LS_DOC_EMPTY) return true;
    return false;
}

static void fates(ls_doc_group *g, const ls_account *a) {
    const ls_fate *n = &a->of[LS_ELEMENT_N], *p = &a->of[LS_ELEMENT_P], *k = &a->of[LS_ELEMENT_K];
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, NULL, NULL, fate_columns);
    ls_doc_by_column(t);
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++)
        LS_DOC_GRID_ROW(t, fate_columns, a->own && any_part(a, i) ? LS_FULL : LS_DATA, parts[i].key, W(parts[i].label),
                        part_of(a, LS_ELEMENT_N, i), part_of(a, LS_ELEMENT_P, i), part_of(a, LS_ELEMENT_K, i));
    LS_DOC_GRID_ROW(t, fate_columns, any_found(a) ? LS_FULL : LS_DATA, "found_again_pct",
                    W("Found in the litter, of what was excreted"), P(n->found_again, "%"), P(p->found_again, "%"),
                    P(k->found_again, "%"));
    LS_DOC_GRID_ROW(t, fate_columns, LS_DATA, "by_balance", W(NULL), FLAG(n->by_balance), FLAG(p->by_balance),
                    FLAG(k->by_balance));
    LS_DOC_GRID_ROW(t, fate_columns, LS_DATA, "source", W(NULL), W(n->source), W(p->source), W(k->source));
}

/* Which figure of excretion is used for which element. */
static void excreted_by(ls_doc_group *g, const ls_account *a) {
    for (int e = 0; e < LS_ELEMENTS; e++)
        ITEM(g, LS_FULL, "{} excreted: {}", W(ls_element_name(e)),
             W(a->of[e].source == NULL ? "no figure; its share of the feed would give one" : a->of[e].source));
}

void ls_report_put_account(ls_doc_group *list, const ls_account *a) {
    ls_doc_group *g =
        ls_doc_object(list, LS_FULL, NULL,
                      ls_arena_printf(list->document->arena, "%s: what became of the nutrients", a->house->name.text));
    MEMBERS(g, {"house", W(a->house->name.text)}, {"reported", FLAG(a->reported)});
    fates(g, a);
    ls_doc_fact(g, a->dry_found.line ? LS_FULL : LS_DATA, "dry_matter_found_pct", "Dry matter found, bedding taken off",
                P(a->dry_found, "%"));
    if (a->own) excreted_by(g, a);
    if (a->own)
        SAY(g, LS_FULL,
            "As elements: P2O5 is 2.29 times P, K2O 1.20 times K. Likely case; a loss below zero "
            "says that a figure is off. In the litter: its tons times {}.",
            W(a->reported ? "what the laboratory found" : "published figures, where no laboratory report is given"));
    if (any_found(a) || a->dry_found.line)
        SAY(g, LS_FULL,
            "Found: by the tons without these elements. Phosphorus does not go to the air: 90 to "
            "100% of it should be there (common practice). Much less or more: a count, a report or "
            "the tons are off.");
}
