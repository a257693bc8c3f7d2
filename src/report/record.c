/* The page of the haul log. */
#include "handed_out.h"
#include "put.h"

#include <math.h>

/* ---- tickets and slips, and what they became ---- */

LS_DOC_COLUMNS(issued_columns, NUMBER("entry", "entry"), WORDS("ticket", "ticket"), WORDS("to", "to"),
               IN("tons", "", "ton"), WORDS("became", "now"), DATA("certainty"), DATA("planned"), DATA("handed_out"),
               DATA("other_entry"));

LS_DOC_COLUMNS(promised_columns, NUMBER("entry", "entry"), WORDS("buyer", "buyer"), NUMBER("loads", "loads"),
               IN("tons", "", "ton"), IN("price", "", "$/ton"), WORDS("handed_out", "handed out"),
               WORDS("became", "now"), DATA("other_entry"));

static bool is_any(const ls_log *log, ls_log_kind of) {
    LS_EACH (const ls_log_entry, e, log->entries)
        if (e->of == of) return true;
    return false;
}

/* The entry that tells what became of it; 0: none does, it stands. */
static long other_entry(const ls_logged *is) {
    return is->entry->replaced_by > 0 ? is->entry->replaced_by : is->hauled_as > 0 ? is->hauled_as : is->again_as;
}

typedef struct {
    const ls_view *v;
    const ls_log_sums *s;
    const ls_handed_out *h; /* by a plan; of none: empty */
    ls_coded_lots lots;
} page;

/* Of a ticket that is out: without a plan only a name that the files lack can call it back. */
static const char *out(const page *p, const ls_issued *is) {
    LS_EACH (const ls_recall, r, p->h->recalled)
        if (r->issued->log_entry == is->log_entry) return ls_arena_printf(p->v->arena, "TAKE BACK, %s", r->why);
    return ls_books_no_longer(is) != NULL ? "TAKE BACK, no longer in the file" : "stands";
}

/* Of a slip that is out. */
static const char *kept(const page *p, long entry) {
    static const char gone[] = ", buyer no longer in the file";
    ls_arena *a = p->v->arena;
    LS_EACH (const ls_promise_kept, x, p->h->promises)
        if (x->slip->log_entry == entry)
            return ls_arena_printf(a, "stands, %s%s", ls_report_kept(p->v, x), x->slip->buyer == NULL ? gone : "");
    LS_EACH (const ls_promise_slip, x, p->v->farm->promised)
        if (x->log_entry == entry)
            return ls_arena_printf(a, "stands, had %ld of %ld loads%s", x->had, x->loads, x->buyer == NULL ? gone : "");
    return "stands";
}

static bool is_elsewhere(const page *p, const ls_issued *is, const ls_log_entry *load) {
    const char *unknown = NULL;
    ls_hauled_drops to = ls_hauled_places(p->v->arena, p->v->farm, load->words[LS_LOG_FIELD], load->tons, &unknown);
    return !ls_books_same_way(is, to.at, to.n);
}

static ls_doc_cell became(const page *p, const ls_logged *is) {
    ls_arena *a = p->v->arena;
    long n = other_entry(is);
    const ls_log_entry *e = is->entry, *other = n > 0 ? p->s->entries[n - 1].entry : NULL;
    if (e->of == LS_LOG_PROMISED && other == NULL) return W(kept(p, e->number));
    ls_issued ticket = ls_issued_of(a, p->v->farm, &p->lots, e);
    return W(other == NULL ? out(p, &ticket)
             : ls_log_stands(other)
                 ? ls_arena_printf(a, "hauled as %ld%s", n, is_elsewhere(p, &ticket, other) ? ", elsewhere" : "")
             : n == is->again_as ? ls_arena_printf(a, "again as %ld, TAKE BACK", n)
             : other->tons > 0   ? ls_arena_printf(a, "again as %ld", n)
                                 : ls_arena_printf(a, "back by %ld", n));
}

/* "Larkspur Hay/Upper Meadow; Larkspur Hay/Barn Field", "stack". */
static ls_doc_cell way(const page *p, const ls_log_entry *e) {
    ls_issued is = ls_issued_of(p->v->arena, p->v->farm, &p->lots, e);
    ls_text *t = ls_text_new(p->v->arena);
    for (size_t i = 0; i < is.n; i++) ls_text_addf(t, "%s%s", i > 0 ? "; " : "", is.drops[i].name);
    return W(is.to_stack ? "stack" : t->s);
}

/* Strikes tell nothing but what became of another. */
static void put(ls_doc_table t, const page *p, ls_log_kind of) {
    LS_EACH_OF (const ls_logged, is, p->s->entries, p->s->log->entries.n) {
        const ls_log_entry *e = is->entry;
        long other = other_entry(is);
        ls_doc_cell entry = other > 0 ? N(other) : W(NULL);
        if (e->of != of || e->tons <= 0) continue;
        if (of == LS_LOG_ISSUED)
            LS_DOC_ROW(t, issued_columns, N(e->number), W(e->ticket.text), way(p, e), BOOKED(is->tons, "ton"),
                       became(p, is), W(ls_log_sure_name(e->sure)), DAY(e->planned), DAY(e->when.day), entry);
        else
            LS_DOC_ROW(t, promised_columns, N(e->number), W(e->words[LS_LOG_FIELD]), N(e->loads),
                       BOOKED(is->tons, "ton"), V(e->price, "$/ton"), DAY(e->when.day), became(p, is), entry);
    }
}

static void handed(ls_doc_group *top, const page *p) {
    bool issued = is_any(p->s->log, LS_LOG_ISSUED), promised = is_any(p->s->log, LS_LOG_PROMISED);
    ls_doc_group *g = ls_doc_object(top, issued ? LS_FIRST : LS_DATA, NULL, "TICKETS HANDED OUT (numbers: entries)");
    put(LS_DOC_TABLE_IN(g, issued ? LS_FIRST : LS_DATA, "issued", NULL, issued_columns), p, LS_LOG_ISSUED);
    g = ls_doc_object(top, promised ? LS_FIRST : LS_DATA, NULL, "LOADS PROMISED (numbers: entries)");
    put(LS_DOC_TABLE_IN(g, promised ? LS_FIRST : LS_DATA, "promised", NULL, promised_columns), p, LS_LOG_PROMISED);
}

/* ---- loads and entries: columns of their own, then what is written down in words ---- */

LS_DOC_COLUMNS(load_columns, NUMBER("entry", "entry"), WORDS("ticket", "ticket"), DATA("lot"), DATA("out_of"),
               WORDS("when", "when"), IN("tons", "", "ton"), HEAD("by"), DATA("weighed"), DATA("cleared"),
               HEAD("what else"));

LS_DOC_COLUMNS(entry_columns, WORDS("entry", NULL), WORDS("replaces", NULL), WORDS("replaced_by", NULL),
               WORDS("ticket", NULL), WORDS("lot", NULL), WORDS("from_stack", NULL), WORDS("when", NULL),
               IN("tons", NULL, "ton"), WORDS("weighed", NULL), WORDS("cleared_pct", NULL), WORDS("kind", NULL),
               IN("acres", NULL, "ac"), WORDS("certainty", NULL), WORDS("planned", NULL), WORDS("loads", NULL),
               IN("price", NULL, "$/ton"));

enum {
    MINUTE = 60, /* seconds */
    LOAD = sizeof load_columns / sizeof *load_columns,
    ENTRY = sizeof entry_columns / sizeof *entry_columns
};

/* The n columns, and one for each kind of words. */
static const ls_doc_column *with_words(ls_arena *a, const ls_doc_column *columns, size_t n) {
    ls_doc_column *all = LS_NEW(a, ls_doc_column, n + LS_LOG_WORDS);
    for (size_t i = 0; i < n; i++) all[i] = columns[i];
    for (int i = 0; i < LS_LOG_WORDS; i++)
        all[n + (size_t)i] = (ls_doc_column){.key = ls_log_column((ls_log_word)i), .level = LS_DATA};
    return all;
}

static void put_words(ls_doc_cell *cells, const ls_log_entry *e) {
    for (int i = 0; i < LS_LOG_WORDS; i++) cells[i] = W(e->words[i][0] == '\0' ? NULL : e->words[i]);
}

/* What else was written down of a load. */
static const char *details(ls_arena *a, const ls_log_entry *e) {
    ls_text *t = ls_text_new(a);
    if (!isnan(e->cleared)) ls_text_addf(t, "cleared by then: %s", ls_log_share_text(a, e->cleared));
    if (!isnan(e->acres)) ls_text_addf(t, "%sacres: %s", t->n > 0 ? "; " : "", ls_log_acres_text(a, e->acres));
    for (int i = LS_LOG_FIELD; i < LS_LOG_WORDS; i++)
        if (e->words[i][0] != '\0')
            ls_text_addf(t, "%s%s: %s", t->n > 0 ? "; " : "", i == LS_LOG_FIELD ? "to" : ls_log_label((ls_log_word)i),
                         e->words[i]);
    return t->s;
}

static ls_doc_cell when_of(const ls_log_entry *e) {
    return e->when.minute < 0 ? DAY(e->when.day) : ls_doc_moment((ls_moment){e->when.day, e->when.minute * MINUTE});
}

static void loads(ls_doc_group *g, const ls_log_sums *s) {
    ls_arena *a = g->document->arena;
    const ls_doc_column *columns = with_words(a, load_columns, LOAD);
    ls_doc_table t = ls_doc_table_in(g, LS_FIRST, "loads", NULL, columns, LOAD + LS_LOG_WORDS);
    LS_EACH_OF (const ls_logged, h, s->hauled, s->n) {
        const ls_log_entry *e = h->entry;
        ls_doc_cell cells[LOAD + LS_LOG_WORDS] = {
            N(e->number), W(e->ticket.text), W(h->lot), W(e->ticket.from_stack ? "stack" : "house"), when_of(e),
            BOOKED(h->tons, "ton"),
            /* for people, and as data */
            W(e->weighed ? "scale" : "eye"), W(e->weighed ? "yes" : "no"),
            W(isnan(e->cleared) ? NULL : ls_log_share_text(a, e->cleared)), W(details(a, e))};
        put_words(cells + LOAD, e);
        ls_doc_row_in(t, columns, LS_FIRST, NULL, cells);
    }
}

static ls_doc_cell of_entry(long n) { return n > 0 ? N(n) : W(NULL); }

static void entries(ls_doc_group *g, const ls_log_sums *s) {
    const ls_doc_column *columns = with_words(g->document->arena, entry_columns, ENTRY);
    ls_doc_table t = ls_doc_table_in(g, LS_DATA, "entries", NULL, columns, ENTRY + LS_LOG_WORDS);
    LS_EACH_OF (const ls_logged, h, s->entries, s->log->entries.n) {
        const ls_log_entry *e = h->entry;
        bool issued = e->of == LS_LOG_ISSUED, promised = e->of == LS_LOG_PROMISED;
        ls_doc_cell cells[ENTRY + LS_LOG_WORDS] = {
            N(e->number), of_entry(e->replaces), of_entry(e->replaced_by), W(e->ticket.text), W(h->lot),
            FLAG(e->ticket.from_stack), when_of(e), BOOKED(h->tons, "ton"), FLAG(e->weighed), V(e->cleared, "%"),
            W(ls_log_kind_name(e->kind)), V(e->acres, "ac"),
            /* of what was handed out */
            W(issued ? ls_log_sure_name(e->sure) : NULL), DAY(issued ? e->planned : LS_NO_DATE), of_entry(e->loads),
            V(promised ? e->price : NAN, "$/ton")};
        put_words(cells + ENTRY, e);
        ls_doc_row_in(t, columns, LS_DATA, NULL, cells);
    }
}

static void corrections(ls_doc_group *top, const ls_log_sums *s) {
    ls_doc_group *g = ls_doc_object(top, LS_FIRST, "corrections", "CORRECTIONS");
    for (size_t i = 0; i < s->log->entries.n; i++) {
        const ls_log_entry *e = s->entries[i].entry;
        if (!ls_log_corrects(e)) continue;
        const ls_logged *old = &s->entries[e->replaces - 1];
        ITEM(g, LS_FIRST, "entry {} {} entry {} ({}, {}, {})", N(e->number), W(e->tons > 0 ? "replaces" : "strikes"),
             N(e->replaces), W(ls_log_about(old->entry)), when_of(old->entry),
             old->entry->tons > 0 ? BOOKED(old->tons, "ton") : W("struck"));
    }
}

/* ---- sums ---- */

LS_DOC_COLUMNS(lot_columns, WORDS("lot", "side"), HEAD("out of"), DATA("from_stack"), NUMBER("loads", "loads"),
               IN("tons", "", "ton"));
LS_DOC_COLUMNS(day_columns, WORDS("day", "day"), HEAD("out of"), DATA("from_stack"), NUMBER("loads", "loads"),
               IN("tons", "", "ton"));
LS_DOC_COLUMNS(place_columns, WORDS("to", "to"), WORDS("buyer", "buyer"), WORDS("field", "field"),
               NUMBER("loads", "loads"), IN("tons", "", "ton"));

/* Tons are 0 where no load went out. */
static void all(ls_doc_group *g, const char *key, const char *label, size_t n, ls_line tons) {
    ls_doc_group *inner = ls_doc_object(g, n > 0 ? LS_FIRST : LS_DATA, key, NULL);
    MEMBERS(inner, {"loads", N(n)}, {"tons", n > 0 ? BOOKED(tons, "ton") : V(0, "ton")});
    if (n > 0) SAY(inner, LS_FIRST, "{}: {}, {}.", W(label), V((double)n, "load"), BOOKED(tons, "ton"));
}

/* A row each, by lot or by day. */
static void each(ls_doc_table t, const ls_doc_column *columns, const ls_log_sum *list, size_t n) {
    LS_EACH_OF (const ls_log_sum, x, list, n) {
        const ls_doc_cell cells[] = {columns == day_columns ? DAY(x->day) : W(x->lot),
                                     W(x->from_stack ? "stack" : "house"), FLAG(x->from_stack), N(x->loads),
                                     BOOKED(x->tons, "ton")};
        ls_doc_row_in(t, columns, LS_FIRST, NULL, cells);
    }
}

static void sums(ls_doc_group *top, const ls_log_sums *s) {
    ls_doc_group *g = ls_doc_object(top, LS_FIRST, NULL, "BY SIDE");
    each(LS_DOC_TABLE_IN(g, LS_FIRST, "lots", NULL, lot_columns), lot_columns, s->lots.at, s->lots.n);
    all(g, "out_of_houses", "Out of all houses", s->house_loads, s->houses);
    all(g, "out_of_stack", "Out of the stack", s->stack_loads, s->stack);
    g = ls_doc_object(top, LS_FIRST, NULL, "BY BUYER AND FIELD");
    ls_doc_table places = LS_DOC_TABLE_IN(g, LS_FIRST, "places", NULL, place_columns);
    static const char *const to[] = {"field", "stack", "not in the files", "not known"};
    LS_EACH (const ls_place_sum, x, s->places)
        LS_DOC_ROW(places, place_columns, W(to[x->kind]), W(x->buyer == NULL ? NULL : x->buyer->name.text),
                   W(x->field == NULL ? NULL : x->field->name.text), N(x->loads), BOOKED(x->tons, "ton"));
    g = ls_doc_object(top, LS_FIRST, NULL, "BY DAY");
    each(LS_DOC_TABLE_IN(g, LS_FIRST, "days", NULL, day_columns), day_columns, s->days.at, s->days.n);
}

const ls_document *ls_report_record(const ls_view *v, const ls_log_sums *s, const ls_handed_out *h) {
    static const ls_handed_out none;
    const page p = {v, s, h == NULL ? &none : h, ls_books_lots(v->arena, v->farm)};
    ls_document *d = ls_document_new(v, "record", ls_arena_printf(v->arena, "Haul log %s", s->log->path));
    d->table = "loads";
    ls_doc_data(d->top, "log", W(s->log->path));
    ls_doc_group *g = ls_doc_object(d->top, LS_FIRST, NULL, "LOADS THAT WENT OUT");
    if (s->n == 0) SAY(g, LS_FIRST, "No load has gone out yet.");
    loads(g, s);
    handed(d->top, &p);
    entries(d->top, s);
    corrections(d->top, s);
    ls_report_put_log(d->top);
    sums(d->top, s);
    return d;
}
