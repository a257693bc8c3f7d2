/* The calibration sheet: each run of a spreader, and the loads that tell the same. */
#include "chapters.h"

LS_DOC_COLUMNS(truck_columns, WORDS("truck", "truck"), WORDS("calibrated", "calibrated"),
               WORDS("inspected", "inspected"));
LS_DOC_COLUMNS(run_columns, WORDS("truck", "truck"), WORDS("date", "date"), WORDS("over", "over"),
               IN("net_lb", "net", "lb"), IN("area_ft2", "area", "ft2"), IN("set_ton_per_ac", "rate set", "ton/ac"),
               IN("found_ton_per_ac", "rate found", "ton/ac"), IN("off_pct", "off by", "%"));
LS_DOC_COLUMNS(setting_columns, WORDS("truck", "truck"), IN("set_ton_per_ac", "rate set", "ton/ac"),
               NUMBER("runs", "runs"), IN("mean_ton_per_ac", "mean found", "ton/ac"), IN("off_pct", "off by", "%"));
LS_DOC_COLUMNS(load_columns, WORDS("entry", "entry"), WORDS("date", "date"), WORDS("truck", "truck"),
               WORDS("field", "field"), IN("tons", NULL, "ton"), IN("ac", NULL, "ac"),
               IN("set_ton_per_ac", "rate of the ticket", "ton/ac"), IN("found_ton_per_ac", "rate found", "ton/ac"),
               IN("off_pct", "off by", "%"));

static const char *name_of(const ls_truck *truck) { return truck == NULL ? NULL : truck->name.text; }

static void runs(ls_doc_group *g, const ls_dossier *d) {
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "runs", "Runs", run_columns);
    for (size_t i = 0; i < d->runs.n && d->runs.at[i].of == NULL; i++) {
        const ls_dossier_run *x = &d->runs.at[i];
        bool tarp = ls_line_at(g->document->view->sheet, x->area)->op == LS_OP_LEAF;
        LS_DOC_ROW(t, run_columns, W(name_of(x->truck)), DAY(x->day), W(tarp ? "tarp" : "distance"), FINE(L(x->net)),
                   L(x->area), L(x->set), FINE(L(x->found)), L(x->off));
    }
    t = LS_DOC_TABLE_IN(g, LS_FULL, "settings", "Mean of the runs at each setting", setting_columns);
    LS_EACH (const ls_dossier_setting, x, d->settings) {
        LS_DOC_GRID_ROW(t, setting_columns, x->n > 1 ? LS_FIRST : LS_DATA, NULL, W(name_of(x->truck)), L(x->set),
                        N(x->n), FINE(L(x->mean)), L(x->off));
    }
}

static void loads(ls_doc_group *g, const ls_dossier *d) {
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "loads", "Loads with acres in the log", load_columns);
    LS_EACH (const ls_dossier_run, x, d->runs) {
        if (x->of == NULL) continue;
        const ls_dossier_load *load = x->of->load;
        LS_DOC_ROW(t, load_columns, N(load->hauled->log_entry), DAY(x->day), ls_dossier_word(load, LS_LOG_TRUCK),
                   W(ls_dossier_drop_place(d->arena, &load->drops[x->of->part])), BOOKED(x->net, NULL), L(x->area),
                   L(x->set), L(x->found), L(x->off));
    }
}

void ls_report_dossier_calibration(ls_doc_group *top, const ls_dossier *d) {
    ls_arena *a = d->arena;
    ls_doc_group *g = ls_doc_object(top, LS_FULL, "calibration", NULL);
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "spreaders", "Spreaders", truck_columns);
    LS_EACH (const ls_truck, truck, d->farm->trucks) {
        LS_DOC_ROW(t, truck_columns, W(truck->name.text), GIVEN_DAY(truck->calibrated), GIVEN_DAY(truck->inspected));
    }
    runs(g, d);
    loads(g, d);
    SAY(g, LS_FULL, "Rate found: net lb x 43,560 / (2,000 x ft2), in tons an acre.");
    t = ls_dossier_put_missing(g);
    LS_EACH (const ls_truck, truck, d->farm->trucks) {
        const char *under = ls_arena_printf(a, "the truck %s", truck->name.text);
        if (truck->only.is == LS_ONLY_ROAD) continue;
        ls_dossier_missing(t, truck->runs.n > 0, "a run to find its rate", under,
                           "runs: [{date: 2026-01-20, set: 2 ton/ac, net: 9.2 lb, tarp: 100 ft2}]");
        ls_dossier_missing(t, LS_GIVEN(truck->inspected), "the day of its inspection", under, "inspected: 2026-02-14");
    }
    ls_dossier_missing(t, d->farm->trucks.n > 0, "the spreader", "the top of the farm file",
                       "trucks: [{name: spreader truck, count: 1, payload: 11 ton, body: 20 yd3}]");
}
