/* The audit of the farm as a whole and of each load that left it. */
#include "room.h"

static ls_place under_farm(const ls_dossier *d) { return d->farm->facts != NULL ? d->farm->facts->at : LS_NOWHERE; }

static void plan_on_site(ls_dossier *d) {
    const ls_plan_paper *plan = d->farm->facts == NULL ? NULL : d->farm->facts->plan;
    bool here = plan != NULL && plan->on_site.yes;
    ls_dossier_given(d, ls_dossier_add(d, LS_ABOUT_FARM, "plan on site", "the farm"), here,
                     here ? plan->on_site.at : LS_NOWHERE, plan != NULL ? plan->at : under_farm(d),
                     plan == NULL ? "the farm file does not say"
                     : here       ? "a copy is on the farm"
                                  : "the farm file says no",
                     "keep a copy on the farm, and write under farm: \"plan: {on_site: yes, by: "
                     "county plan writer, date: 2025-10-30}\" (your figures)");
}

static void yearly_totals(ls_dossier *d) {
    const ls_farm *farm = d->farm;
    ls_dossier_finding *f = ls_dossier_add(d, LS_ABOUT_FARM, "yearly totals", "the farm");
    const ls_house *bare = NULL;
    LS_EACH (const ls_house, h, farm->houses)
        if (h->flocks.n == 0 && bare == NULL) bare = h;
    ls_dossier_given(d, f, bare == NULL, farm->houses.n == 0 ? LS_NOWHERE : farm->houses.at[0].at,
                     bare == NULL ? LS_NOWHERE : bare->at,
                     bare == NULL ? "made from this file and its haul log"
                                  : ls_arena_printf(d->arena, "no birds are given for %s", bare->name.text),
                     "write under the house: \"flocks: [{birds: broiler, count: 24000, placed: "
                     "2025-12-08, removed: 2026-01-26}]\" (your figures)");
}

static void calibration(ls_dossier *d) {
    const ls_farm *farm = d->farm;
    if (farm->trucks.n == 0 && d->loads.n > 0)
        ls_dossier_given(d, ls_dossier_add(d, LS_ABOUT_FARM, "calibration", "the farm"), false, LS_NOWHERE,
                         under_farm(d), "litter went out, but no truck is named",
                         "write \"trucks: [{name: spreader truck, payload: 11 ton, body: 20 yd3, "
                         "calibrated: 2026-01-20, inspected: 2026-02-14}]\" (your figures)");
    LS_EACH (const ls_truck, t, farm->trucks) {
        bool both = LS_GIVEN(t->calibrated) && LS_GIVEN(t->inspected);
        ls_dossier_finding *f = ls_dossier_add(d, LS_ABOUT_FARM, "calibration", t->name.text);
        ls_dossier_given(d, f, both, t->calibrated.at, t->at,
                         both                      ? ls_arena_printf(d->arena, "calibrated %s, inspected %s",
                                                                     ls_date_words(d->arena, t->calibrated.day, 0),
                                                                     ls_date_words(d->arena, t->inspected.day, 0))
                         : LS_GIVEN(t->calibrated) ? "no inspection date"
                         : LS_GIVEN(t->inspected)  ? "no calibration date"
                                                   : "neither day is given",
                         "write under the truck: \"calibrated: 2026-01-20\" and \"inspected: "
                         "2026-02-14\" (your dates)");
    }
}

void ls_dossier_audit_farm(ls_dossier *d) {
    plan_on_site(d);
    yearly_totals(d);
    calibration(d);
}

/* ---- each load that left ---- */

typedef struct {
    ls_dossier *d;
    const ls_dossier_load *load;
    const ls_buyer *buyer;
    const char *of, *entry;
} transfer;

static ls_dossier_finding *ask(const transfer *t, const char *item) {
    ls_dossier_finding *f = ls_dossier_add(t->d, LS_ABOUT_TRANSFER, item, t->of);
    ls_dossier_about_entry(t->d, f, t->load->hauled->log_entry);
    ls_dossier_tell_apart(t->d, f, t->entry);
    return f;
}

/* The same of what its receiver alone is asked for. */
static ls_dossier_finding *ask_of(const transfer *t, const char *item) {
    ls_dossier_finding *f = ask(t, item);
    f->receiver = t->buyer;
    return f;
}

static ls_dossier_finding *in_log(const transfer *t, const char *item, const char *words, const char *missing,
                                  const char *example) {
    ls_arena *a = t->d->arena;
    ls_dossier_finding *f = ask(t, item);
    bool given = words != NULL && words[0] != '\0';
    f->state = given ? LS_PRESENT : LS_MISSING;
    f->what = given ? words : missing;
    f->where = t->entry;
    if (!given)
        f->mend =
            ls_arena_printf(a, "littershed record FILE... --replaces %ld --%s", t->load->hauled->log_entry, example);
    return f;
}

static void recipient(const transfer *t) {
    ls_dossier *d = t->d;
    const ls_buyer *b = t->buyer;
    ls_arena *a = d->arena;
    ls_dossier_given(
        d, ask_of(t, "recipient"), b->address.text != NULL, b->address.at, b->at,
        b->address.text != NULL ? ls_arena_printf(a, "%s, %s", b->name.text, b->address.text)
                                : ls_arena_printf(a, "%s: no address is given", b->name.text),
        ls_arena_printf(a, "write under the buyer %s: \"address: 212 Ferry Road, Millrace\" (the buyer's own)",
                        b->name.text));
}

/* Of this receiver. */
static const char *fields_of(const transfer *t) {
    ls_text *s = ls_text_new(t->d->arena);
    for (size_t k = 0; k < t->load->n; k++)
        if (t->load->drops[k].buyer == t->buyer)
            ls_text_addf(s, "%s%s", s->n == 0 ? "" : "; ",
                         ls_dossier_name(t->d->arena, t->buyer, t->load->drops[k].field));
    return s->s;
}

static void place_of_use(const transfer *t) {
    ls_dossier *d = t->d;
    const ls_buyer *b = t->buyer;
    ls_arena *a = d->arena;
    ls_dossier_given(d, ask_of(t, "place of use"), b->stream.text != NULL, b->stream.at, b->at,
                     b->stream.text != NULL ? ls_arena_printf(a, "%s; nearest stream: %s", fields_of(t), b->stream.text)
                                            : "no nearest stream is given",
                     ls_arena_printf(a,
                                     "write stream: NAME, or stream: not known, under the buyer "
                                     "%s",
                                     b->name.text));
}

static void of_farm(const transfer *t) {
    ls_dossier *d = t->d;
    ls_arena *a = d->arena;
    const ls_farm_facts *facts = d->farm->facts;
    const ls_crew *crew = d->farm->crew;
    bool permit = facts != NULL && facts->permit.text != NULL;
    bool hauler = crew != NULL && crew->hauler.text != NULL && crew->hauler_permit.text != NULL;
    ls_dossier_given(d, ask(t, "source farm"), permit, permit ? facts->permit.at : LS_NOWHERE, under_farm(d),
                     permit ? ls_arena_printf(a, "%s, permit: %s", facts->name.text, facts->permit.text)
                            : "no permit is given",
                     "write permit: NUMBER, or permit: none, under farm");
    ls_dossier_given(
        d, ask(t, "hauler"), hauler, hauler ? crew->hauler_permit.at : LS_NOWHERE, crew != NULL ? crew->at : LS_NOWHERE,
        hauler ? ls_arena_printf(a, "%s, permit: %s", crew->hauler.text, crew->hauler_permit.text)
        : crew != NULL && crew->hauler.text != NULL ? ls_arena_printf(a, "%s, no permit is given", crew->hauler.text)
                                                    : "no hauler is named",
        "write hauler: NAME and hauler_permit: NUMBER (or none) under crew");
}

/* The first date in the words; LS_NO_DATE: none. */
static ls_date date_in(const char *words) {
    enum { DATE = sizeof "2026-01-29" - 1 };
    ls_date day = LS_NO_DATE;
    for (; strlen(words) >= DATE; words++)
        if (ls_date_parse(words, DATE, &day)) return day;
    return LS_NO_DATE;
}

/* Reports on file of all litter in the load, and the one of that date. */
typedef struct {
    size_t n;
    const ls_lab *of_day; /* NULL: none */
    size_t file;          /* it stands in */
} reports;

static reports reports_of(const transfer *t, ls_date day) {
    reports out = {0, NULL, 0};
    for (size_t k = 0; k < t->load->n; k++)
        for (size_t p = 0; p < t->load->drops[k].litters; p++) {
            const ls_dossier_piece *piece = &t->load->drops[k].litter[p];
            const ls_lot *lot = &ls_dossier_estimate(t->d, piece->file)->lots[piece->lot];
            bool side = lot->side != NULL && lot->side->lab.n > 0;
            const ls_lab_list *all = side ? &lot->side->lab : &lot->house->lab;
            out.n += all->n;
            for (size_t i = 0; day != LS_NO_DATE && i < all->n; i++)
                if (all->at[i].date.day == day && out.of_day == NULL) out.of_day = &all->at[i], out.file = piece->file;
        }
    return out;
}

/* The log tells which went with it, by its date; its laboratory stands in the report of that date.
 */
static void analysis(const transfer *t) {
    const ls_log_entry *e = t->load->entry;
    const ls_house *house = t->load->lot->house;
    const char *handed = e == NULL ? "" : e->words[LS_LOG_ANALYSIS];
    const reports filed = reports_of(t, date_in(handed));
    const ls_lab *lab = filed.of_day, *used = t->load->lot->analysis->report;
    ls_arena *a = t->d->arena;
    bool known = lab != NULL && lab->by.text != NULL;
    if (filed.n == 0 || (lab != NULL && !known)) {
        ls_dossier_finding *f = ask(t, "analysis handed over");
        ls_dossier_given(t->d, f, false, LS_NOWHERE, lab != NULL ? lab->at : house->at,
                         lab != NULL ? "the lab report does not name its laboratory"
                                     : ls_arena_printf(a,
                                                       "%s has no lab report on file to show its date and "
                                                       "laboratory",
                                                       t->load->lot->name),
                         lab != NULL ? "write in the lab report: \"by: NAME OF THE LABORATORY\""
                                     : "write under the house: \"lab: [{date: 2026-01-29, by: NAME OF THE LABORATORY, "
                                       "N: 38 lb/ton, P2O5: 56 lb/ton, ...}]\" (your report's figures)");
        f->where = filed.file > 0 ? ls_dossier_file(t->d, filed.file) : f->where;
    } else
        in_log(t, "analysis handed over",
               !known ? NULL
                      : ls_arena_printf(a, "%s; on file: %s, %s", handed, ls_date_words(a, lab->date.day, 0),
                                        lab->by.text),
               handed[0] == '\0' ? "no analysis is noted"
                                 : ls_arena_printf(a,
                                                   "\"%s\" gives no date of a report on file: which "
                                                   "one was it",
                                                   handed),
               used == NULL ? "analysis \"report of 2026-01-29\""
                            : ls_arena_printf(a, "analysis \"report of %s\"", ls_date_iso(a, used->date.day)));
}

/* It may have left the farm, and is counted on no field. */
static void nowhere(const transfer *t) {
    bool files = t->d->farm->buyers.n > 0;
    const char *mend =
        files ? ls_arena_printf(t->d->arena, "littershed record FILE... --replaces %ld --field \"Buyer/Field\"",
                                t->load->hauled->log_entry)
              : "name the file of the buyers and fields too: littershed dossier farm.yaml "
                "fields.yaml";
    const char *items[] = {"recipient", "applied nutrients"};
    for (size_t i = 0; i < sizeof items / sizeof *items; i++) {
        ls_dossier_finding *f = ask(t, items[i]);
        f->state = LS_MISSING;
        f->what = "its field is not known";
        f->where = t->entry;
        f->mend = mend;
    }
}

/* Tons of the parts that this receiver got. */
static void tons(const transfer *t) {
    const ls_hauled *h = t->load->hauled;
    double all = 0;
    LS_EACH_OF (const ls_hauled_drop, drop, h->drops, h->n) all += drop->buyer == t->buyer ? drop->tons : 0;
    in_log(t, "tons",
           ls_arena_printf(t->d->arena, "%s, %s%s",
                           ls_unit_amount(t->d->arena, ls_log_tons_text(t->d->arena, all), "ton"),
                           h->weighed ? "over a scale" : "judged by eye", h->n > 1 ? ", part of a load" : ""),
           "no tons", "tons 8.5")
        ->receiver = t->buyer;
}

/* In the order in which they are asked: federal items, then those of states. */
static void one_transfer(const transfer *t) {
    ls_arena *a = t->d->arena;
    const ls_log_entry *e = t->load->entry;
    in_log(t, "transfer date", ls_date_words(a, t->load->hauled->day, 0), "no date", "when 2026-02-16");
    recipient(t);
    tons(t);
    analysis(t);
    in_log(t, "acknowledgement", e == NULL ? NULL : e->words[LS_LOG_RECEIVED_BY], "nobody signed for it",
           "received-by NAME");
    of_farm(t);
    place_of_use(t);
}

/* The receivers of a load after the first: what of them is asked for. */
static void other_receivers(const transfer *first) {
    const ls_dossier_load *load = first->load;
    for (size_t k = 0; k < load->n; k++) {
        transfer t = *first;
        t.buyer = load->drops[k].buyer;
        bool told = t.buyer == NULL || ls_dossier_is_own(t.buyer) || t.buyer == first->buyer;
        for (size_t i = 0; i < k; i++) told = told || load->drops[i].buyer == t.buyer;
        if (told) continue;
        t.of = ls_arena_printf(t.d->arena, "%s, to %s", first->of, t.buyer->name.text);
        recipient(&t);
        tons(&t);
        place_of_use(&t);
    }
}

void ls_dossier_audit_transfers(ls_dossier *d) {
    ls_arena *a = d->arena;
    LS_EACH (const ls_dossier_load, load, d->loads) {
        if (load->n > 0 && !ls_dossier_is_transfer(load)) continue;
        transfer t = {d, load, NULL, ls_arena_printf(a, "load %s", load->hauled->ticket),
                      ls_arena_printf(a, "entry %ld", load->hauled->log_entry)};
        for (size_t k = 0; k < load->n && t.buyer == NULL; k++)
            if (!ls_dossier_is_own(load->drops[k].buyer)) t.buyer = load->drops[k].buyer;
        if (load->n == 0)
            nowhere(&t);
        else {
            one_transfer(&t);
            other_receivers(&t);
        }
    }
}
