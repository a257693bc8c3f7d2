#include "lot.h"

#include "report/figure.h"

#include <string.h>

static const ls_report_column point_columns[] = {
    {"", 42, true}, {"low", 9, false}, {"middle", 9, false}, {"high", 9, false}};
enum { POINT_COLUMNS = sizeof point_columns / sizeof *point_columns };

void ls_report_points_heads(ls_report_page *p, const char *head) {
    ls_report_row(p, point_columns, POINT_COLUMNS, (const char *[]){head, "low", "middle", "high"});
}

void ls_report_points_row(ls_report_page *p, const char *label, ls_q q, const char *unit) {
    const char *cells[POINT_COLUMNS] = {label, NULL, "unknown", NULL};
    if (q.line != LS_NO_LINE) {
        cells[1] = ls_report_number(p, q.low, unit);
        cells[2] = ls_report_number(p, q.mid, unit);
        cells[3] = ls_report_number(p, q.high, unit);
    }
    ls_report_row(p, point_columns, POINT_COLUMNS, cells);
}

static void points(ls_report_page *p, const char *label, ls_q q, const char *unit) {
    ls_report_points_row(p, ls_arena_printf(p->arena, "%s, %s", label, ls_report_unit(p, unit)), q,
                         unit);
}

static const ls_report_column content_columns[] = {
    {"", 16, true},     {"low", 7, false},    {"middle", 7, false}, {"high", 7, false},
    {"low", 10, false}, {"middle", 8, false}, {"high", 8, false}};
enum { CONTENT_COLUMNS = sizeof content_columns / sizeof *content_columns };

static void content_row(ls_report_page *p, const char *label, ls_q per_ton, ls_q pounds) {
    const char *cells[CONTENT_COLUMNS] = {
        label,
        ls_report_number(p, per_ton.low, "lb/ton"),
        ls_report_number(p, per_ton.mid, "lb/ton"),
        ls_report_number(p, per_ton.high, "lb/ton"),
        ls_report_number(p, pounds.low, "lb"),
        ls_report_number(p, pounds.mid, "lb"),
        ls_report_number(p, pounds.high, "lb"),
    };
    ls_report_row(p, content_columns, CONTENT_COLUMNS, cells);
}

static void contents(ls_report_page *p, const ls_lot *lot) {
    ls_report_say(p, 2, "What is in it, by the %s:", ls_report_analysis(p, lot->analysis));
    const char *heads[CONTENT_COLUMNS] = {
        NULL,
        NULL,
        NULL,
        ls_report_unit(p, "lb/ton"),
        NULL,
        NULL,
        ls_arena_printf(p->arena, "%s in all", ls_report_unit(p, "lb"))};
    ls_report_row(p, content_columns, CONTENT_COLUMNS, heads);
    ls_report_heads(p, content_columns, CONTENT_COLUMNS);
    for (int i = 0; i < LS_NUTRIENTS; i++)
        if (lot->per_ton[i].line != LS_NO_LINE)
            content_row(p, ls_report_nutrient(i), lot->per_ton[i], lot->pounds[i]);
}

/* ---- how the tons are known ---- */

static const ls_report_column method_columns[] = {{"", 33, true},
                                                  {"weight", 7, false},
                                                  {"low", 9, false},
                                                  {"middle", 9, false},
                                                  {"high", 9, false}};
enum { METHOD_COLUMNS = sizeof method_columns / sizeof *method_columns };

static void method_row(ls_report_page *p, const ls_method *method) {
    const char *cells[METHOD_COLUMNS] = {
        ls_arena_printf(p->arena, "  %s%s", method->name, method->memory ? " (memory)" : ""),
        ls_report_line_number(p, method->weight, "%"), ls_report_number(p, method->tons.low, "ton"),
        ls_report_number(p, method->tons.mid, "ton"),
        ls_report_number(p, method->tons.high, "ton")};
    ls_report_row(p, method_columns, METHOD_COLUMNS, cells);
}

static size_t count_methods(const ls_lot *lot, bool evidence) {
    size_t n = 0;
    for (size_t i = 0; i < lot->methods_n; i++)
        n += lot->methods[i].evidence == evidence;
    return n;
}

static void method_group(ls_report_page *p, const ls_lot *lot, bool evidence, const char *head) {
    if (count_methods(lot, evidence) == 0)
        return;
    const char *cells[METHOD_COLUMNS] = {head, "weight,%", "low", "middle", "high"};
    ls_report_row(p, method_columns, METHOD_COLUMNS, cells);
    for (size_t i = 0; i < lot->methods_n; i++)
        if (lot->methods[i].evidence == evidence)
            method_row(p, &lot->methods[i]);
}

static void published_words(ls_report_page *p, const ls_lot *lot) {
    if (count_methods(lot, true) > 0)
        ls_report_say(p, 4, "Taken together they count for %s beside what was found here.",
                      ls_report_line(p, lot->prior_weight, "%"));
    else if (count_methods(lot, false) > 0)
        ls_report_say(
            p, 4,
            lot->analysis->report
                ? "No tons or depths were measured in this house: its tons rest on published "
                  "figures and on what the laboratory found."
                : "Nothing was measured in this house: its tons rest on published figures alone.");
}

static bool same_methods(const ls_lot *a, const ls_lot *b) {
    if (a->house != b->house || a->methods_n != b->methods_n)
        return false;
    for (size_t i = 0; i < a->methods_n; i++)
        if (a->methods[i].dry != b->methods[i].dry || a->methods[i].weight != b->methods[i].weight)
            return false;
    return true;
}

static void methods(ls_report_page *p, const ls_estimate *e, size_t at) {
    const ls_lot *lot = &e->lots[at];
    if (lot->methods_n == 0)
        return;
    ls_report_blank(p);
    if (at > 0 && same_methods(lot, &e->lots[at - 1])) {
        ls_report_say(p, 2, "How the tons are known: as for %s.",
                      ls_report_name(p, e->lots[at - 1].name, 40));
        return;
    }
    ls_report_say(
        p, 2, "How the tons are known (%s of this lot, each way alone):", ls_report_unit(p, "ton"));
    method_group(p, lot, true, "Found in this house or a sister");
    method_group(p, lot, false, "Published, of houses in general");
    published_words(p, lot);
}

bool ls_report_uses_method(const ls_lot *lot, const char *name) {
    for (size_t i = 0; i < lot->methods_n; i++)
        if (!lot->methods[i].evidence && strcmp(lot->methods[i].name, name) == 0)
            return true;
    return false;
}

void ls_report_estimate_lot(ls_report_page *p, const ls_estimate *e, size_t at) {
    const ls_lot *lot = &e->lots[at];
    ls_report_heading(p, "%s", lot->name);
    ls_report_points_heads(p, "");
    if (lot->gone != LS_NO_LINE) {
        points(p, "All of it, hauled or not", lot->made, "ton");
        ls_report_row(p, point_columns, POINT_COLUMNS,
                      (const char *[]){ls_arena_printf(p->arena, "Hauled already, by the log, %s",
                                                       ls_report_unit(p, "ton")),
                                       NULL, ls_report_line_number(p, lot->gone, "ton"), NULL});
    }
    points(p, lot->gone == LS_NO_LINE ? "Litter as hauled" : "Litter still to be hauled", lot->tons,
           "ton");
    points(p, "Dry litter in it", lot->dry_tons, "ton");
    points(p, "Moisture", lot->moisture, "%");
    if (lot->payload.line != LS_NO_LINE)
        points(p,
               lot->volume_binds ? "One truck load, full by volume"
                                 : "One truck load, full by weight",
               lot->payload, "ton/load");
    ls_report_blank(p);
    contents(p, lot);
    methods(p, e, at);
}
