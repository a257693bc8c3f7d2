/* Three days of hauling on the demo farm, as a grower lives them: plan, haul, log, plan again,
 * until houses and stack are empty. Every weight is kept here in whole pounds beside the program,
 * and the program's books must agree with these to the pound. */
#include "story_world.h"

#include "littershed/command.h"
#include "littershed/record.h"

#include <math.h>
#include <string.h>

/* ---- checks that hold at any time ---- */

/* Hauled as booked, and what was made less what is hauled is what is left. */
static void check_estimate(story *s, json_t *e) {
    static const char *const points[] = {"low", "mid", "high"};
    size_t i;
    json_t *lot;
    TEST_SAME(json_array_size(json_object_get(e, "lots")), 4);
    json_array_foreach(json_object_get(e, "lots"), i, lot) {
        long lb = story_booked(s, story_word(lot, "lot"), NULL, NULL, false, NULL);
        TEST_SAME(story_pounds(lot, "hauled_tons"), lb);
        for (int k = 0; k < 3; k++) {
            double made = story_number(json_object_get(lot, "made_tons"), points[k]) * STORY_LB;
            double left = story_number(json_object_get(lot, "tons"), points[k]) * STORY_LB;
            TEST_NEAR(made - left - (double)lb, 0, 0.5); /* six digits are shown */
        }
    }
    TEST_SAME(story_pounds(json_object_get(e, "total"), "hauled_tons"),
              story_booked(s, NULL, NULL, NULL, false, NULL));
}

/* Tickets that the earlier plan had for certain and that have not gone keep number and way. */
static size_t check_kept(story *s, json_t *before, json_t *now) {
    size_t i, kept = 0;
    json_t *was;
    json_array_foreach(before, i, was) {
        bool is_gone = false;
        for (size_t k = 0; k < s->n; k++)
            is_gone = is_gone || strcmp(s->at[k].ticket, story_word(was, "ticket")) == 0;
        if (is_gone || strcmp(story_word(was, "certainty"), "firm") != 0)
            continue;
        json_t *same = story_find(now, "ticket", story_word(was, "ticket"));
        TEST_TEXT(story_word(same, "ticket"), story_word(was, "ticket"));
        TEST_TEXT(story_word(same, "lot"), story_word(was, "lot"));
        TEST_TEXT(story_place(s, same), story_place(s, was));
        TEST_TEXT(story_word(same, "certainty"), "firm");
        kept++;
    }
    for (size_t k = 0; k < s->n; k++) /* and no number is given out twice */
        CU_ASSERT_PTR_NULL(story_find(now, "ticket", s->at[k].ticket));
    return kept;
}

/* ---- the days ---- */

/* Plan and tickets of the first morning. */
static json_t *first_morning(story *s) {
    json_t *plan = story_document(s, "plan"), *planned, *out;
    const char *tickets = story_page(s, "tickets");
    size_t i, k, n = 0, sheets = 0;
    json_array_foreach(json_object_get(plan, "loads"), i, planned) {
        TEST_HOLDS(tickets, ls_arena_printf(s->a, "TICKET  %s ", story_word(planned, "ticket")));
        n++;
    }
    json_array_foreach(json_object_get(plan, "stack"), i, planned) {
        json_array_foreach(json_object_get(planned, "out"), k, out) {
            TEST_HOLDS(tickets, ls_arena_printf(s->a, "TICKET  %s ", story_word(out, "ticket")));
            n++;
        }
    }
    for (const char *at = tickets; (at = strstr(at, "TICKET  ")) != NULL; at++)
        sheets++;
    TEST_SAME(sheets, n);
    json_t *loads = json_incref(json_object_get(plan, "loads"));
    json_decref(plan);
    return loads;
}

/* A scale shows 20 lb steps; the loads come a little lighter than planned. */
static long scale(json_t *planned, long less) {
    return lround(story_number(planned, "tons") * 100) * 20 - less;
}

/* Nine loads. The first does not tell where it went: the plan does. */
static void day_one(story *s, json_t *loads) {
    static const long less[] = {440, 60, 180, 20, 520, 140, 300, 80, 240};
    for (size_t i = 0; i < 9; i++) {
        json_t *planned = json_array_get(loads, i);
        story_haul(s, (story_load){.ticket = story_word(planned, "ticket"),
                                   .lot = story_word(planned, "lot"),
                                   .place = story_place(s, planned),
                                   .when = ls_arena_printf(s->a, "2026-02-16T%02zu:10", 8 + i),
                                   .lb = scale(planned, less[i]),
                                   .told = i != 0});
    }
}

/* Firm loads of the first plan behind its first nine. */
static size_t firm_left(json_t *loads) {
    size_t i, n = 0;
    json_t *planned;
    json_array_foreach(loads, i, planned) {
        n += i >= 9 && strcmp(story_word(planned, "certainty"), "firm") == 0;
    }
    return n;
}

/* What the second morning's pages say. */
static void second_morning(story *s, json_t *loads) {
    json_t *e = story_document(s, "estimate"), *tickets = story_document(s, "tickets");
    check_estimate(s, e);
    TEST_SAME(check_kept(s, loads, json_object_get(tickets, "tickets")), firm_left(loads));
    const char *plan = PROGRAM(s->a, "plan", s->house, s->fields, FEW, "--full").out;
    TEST_HOLDS(plan, "The rest is planned from Tue, Feb 17");
    json_t *same = story_parsed(PROGRAM(s->a, "plan", s->house, s->fields, FEW, "--format", "json",
                                        "--from", "2026-02-16"));
    TEST_TEXT(story_word(json_object_get(same, "days"), "start"), "2026-02-16");
    json_decref(same);
    long stacked = story_booked(s, NULL, "stack", NULL, false, NULL);
    if (stacked > 0)
        TEST_HOLDS(test_joined(s->a, plan),
                   ls_arena_printf(s->a, "Hauled into it already, by the haul log %s tons",
                                   ls_number_text(s->a, (double)stacked / STORY_LB, 2)));
    json_decref(tickets);
    json_decref(e);
}

/* Entry 4 was misread: it was 540 lb less. */
static void correct(story *s) {
    story_gone *fourth = &s->at[3];
    s->misread = fourth->lb;
    fourth->lb -= 540;
    const char *tons = ls_number_text(s->a, (double)fourth->lb / STORY_LB, 6);
    test_run run = PROGRAM(s->a, "record", s->house, s->fields, "--replaces", "4", "--tons", tons,
                           "--weighed");
    TEST_SAME(run.status, LS_DONE);
    TEST_HOLDS(run.out,
               ls_arena_printf(s->a,
                               "entry 10: in place of entry 4, ticket %s of %s, %s tons weighed, "
                               "2026-02-16T11:10, to %s",
                               fourth->ticket, fourth->lot, tons, fourth->place));
    s->entries++;
    run = PROGRAM(s->a, "record", s->house, s->fields, "--replaces", "4", "--tons", "8");
    TEST_SAME(run.status, LS_MISTAKE);
    TEST_HOLDS(run.err, "entry 4 is replaced already, by entry 10");
    run = PROGRAM(s->a, "record", s->house, s->fields, "--replaces", "10", "--tons", "11.4");
    TEST_SAME(run.status, LS_MISTAKE); /* the payload is 11 tons */
    TEST_HOLDS(run.err, "11.4 tons is more than the truck may carry");
}

/* Barn Field opens on 1 April: a load on it in February is asked about, and not written down. */
static void too_early(story *s) {
    test_run run =
        PROGRAM(s->a, "record", s->house, s->fields, "--ticket", s->at[8].ticket, "--again",
                "--tons", "5", "--when", "2026-02-16", "--field", "Larkspur Hay/Barn Field");
    TEST_SAME(run.status, LS_MISTAKE);
    TEST_HOLDS(run.err, "Barn Field is closed on 2026-02-16 (open 2026-04-01 to 2026-08-31)");
    TEST_TEXT(run.out, "");
}

static double width(json_t *e, const char *lot) {
    json_t *tons = json_object_get(story_find(json_object_get(e, "lots"), "lot", lot), "tons");
    return story_number(tons, "high") - story_number(tons, "low");
}

/* The tickets of a lot that are still to go out of its house, the possible ones aside. */
static size_t still_to_go(json_t *tickets, const char *lot, json_t *to_go[STORY_MOST]) {
    size_t i, n = 0;
    json_t *t;
    json_array_foreach(json_object_get(tickets, "tickets"), i, t) {
        if (strcmp(story_word(t, "lot"), lot) == 0 &&
            strcmp(story_word(t, "certainty"), "possible") != 0 &&
            !json_is_true(json_object_get(t, "from_stack")))
            to_go[n++] = t;
    }
    return n;
}

/* The rest of North/right: its first load goes elsewhere than planned, with the last the side is
 * empty. */
static json_t *day_two(story *s) {
    const char *lot = "North/right", *strip = "Osgood Row Crops/Wheat Strip";
    json_t *before = story_document(s, "estimate"), *tickets = story_document(s, "tickets");
    json_t *to_go[STORY_MOST];
    size_t n = still_to_go(tickets, lot, to_go);
    check_estimate(s, before);
    CU_ASSERT_FATAL(n >= 3);
    for (size_t i = 0; i < n; i++)
        story_haul(s, (story_load){.ticket = story_word(to_go[i], "ticket"),
                                   .lot = lot,
                                   .place = i == 0 ? strip : story_place(s, to_go[i]),
                                   .when = ls_arena_printf(s->a, "2026-02-17T%02zu:35", 8 + i),
                                   .cleared = i + 1 == n ? "all" : NULL,
                                   .lb = scale(to_go[i], 40 * (long)(1 + i)),
                                   .told = true});
    json_decref(tickets);
    json_t *e = story_document(s, "estimate");
    check_estimate(s, e);
    /* all that was made of it is known to the pound */
    double made = (double)story_booked(s, lot, NULL, NULL, false, NULL) / STORY_LB;
    json_t *right = story_find(json_object_get(e, "lots"), "lot", lot);
    TEST_NEAR(story_number(json_object_get(right, "made_tons"), "low"), made, 1e-6);
    TEST_NEAR(story_number(json_object_get(right, "made_tons"), "high"), made, 1e-6);
    TEST_NEAR(width(e, lot), 0, 0);
    /* the other side is what the house holds less this: no surer than the house, hardly wider than
     * the half of it was (its share is known to 5 points, common practice) */
    CU_ASSERT_TRUE(width(e, "North/left") < 1.1 * width(before, "North/left"));
    json_decref(before);
    json_decref(e);
    /* Wheat Strip takes 1.5 ton/ac on 22 ac, 33 ton, what lies there already among them */
    tickets = story_document(s, "tickets");
    double on_strip = (double)story_booked(s, NULL, strip, NULL, false, NULL) / STORY_LB;
    size_t i;
    json_t *t;
    json_array_foreach(json_object_get(tickets, "tickets"), i, t) {
        if (strcmp(story_place(s, t), strip) == 0)
            on_strip += story_number(t, "tons");
    }
    CU_ASSERT_TRUE(on_strip <= 33.01);
    return tickets;
}

/* All loads out of the houses as the tickets say, a little lighter; the last of a lot clears it. */
static void day_three(story *s, json_t *tickets) {
    size_t i, k;
    json_t *t, *later;
    json_array_foreach(tickets, i, t) {
        if (json_is_true(json_object_get(t, "from_stack")))
            continue;
        bool last = true;
        json_array_foreach(tickets, k, later) {
            if (k > i && strcmp(story_word(later, "lot"), story_word(t, "lot")) == 0 &&
                !json_is_true(json_object_get(later, "from_stack")))
                last = false;
        }
        story_haul(s, (story_load){.ticket = story_word(t, "ticket"),
                                   .lot = story_word(t, "lot"),
                                   .place = story_place(s, t),
                                   .when = ls_arena_printf(s->a, "%sT%02zu:15",
                                                           story_word(t, "day"), 7 + i % 12),
                                   .cleared = last ? "all" : NULL,
                                   .lb = scale(t, 20 * (long)(1 + i % 4)),
                                   .told = true});
    }
}

/* ---- the log's own sums ---- */

static void check_sum(story *s, json_t *sum, const char *lot, const char *place, const char *day,
                      bool stack) {
    long loads, lb = story_booked(s, lot, place, day, stack, &loads);
    TEST_SAME(story_pounds(sum, "tons"), lb);
    TEST_SAME(story_number(sum, "loads"), loads);
}

/* By lot and by day; they cover every pound. */
static void check_sums(story *s, json_t *d, const char *list, const char *name) {
    size_t i;
    json_t *sum;
    long all = 0;
    json_array_foreach(json_object_get(d, list), i, sum) {
        bool stack = json_is_true(json_object_get(sum, "from_stack")), lot = name[0] == 'l';
        check_sum(s, sum, lot ? story_word(sum, name) : NULL, NULL,
                  lot ? NULL : story_word(sum, name), stack);
        all += story_pounds(sum, "tons");
    }
    TEST_SAME(all, story_booked(s, NULL, NULL, NULL, false, NULL) +
                       story_booked(s, NULL, NULL, NULL, true, NULL));
}

/* By buyer and field, and into the stack: out of the houses and out of the stack together. */
static void check_places(story *s, json_t *d) {
    size_t i;
    json_t *sum;
    long all = 0;
    json_array_foreach(json_object_get(d, "places"), i, sum) {
        bool stack = strcmp(story_word(sum, "to"), "stack") == 0;
        const char *place = stack ? "stack"
                                  : ls_arena_printf(s->a, "%s/%s", story_word(sum, "buyer"),
                                                    story_word(sum, "field"));
        long lb = story_booked(s, NULL, place, NULL, false, NULL);
        if (!stack)
            lb += story_booked(s, NULL, place, NULL, true, NULL);
        TEST_SAME(story_pounds(sum, "tons"), lb);
        all += lb;
    }
    TEST_SAME(all, story_booked(s, NULL, NULL, NULL, false, NULL) +
                       story_booked(s, NULL, NULL, NULL, true, NULL));
}

/* "2026-02-16T11:10" as a page says it, but for am and pm, which may stand a line below: "Mon, Feb
 * 16, 11:10". */
static const char *when_words(story *s, const char *iso) {
    ls_when when = {LS_NO_DATE, 0};
    const char *either;
    CU_ASSERT_TRUE(ls_when_parse(s->a, iso, &when, &either));
    return ls_arena_printf(s->a, "%s, %.5s", ls_date_words(s->a, when.day, ls_date_year(when.day)),
                           ls_clock_words(s->a, when.minute * 60L));
}

/* The entries that stand, one by one: JSON, text and CSV say the same. */
static void check_entries(story *s, json_t *d, const char *text, const char *csv) {
    size_t i, n = 0;
    json_t *e;
    json_array_foreach(json_object_get(d, "entries"), i, e) {
        bool stands = json_is_null(json_object_get(e, "replaced_by"));
        const char *tons = ls_number_text(s->a, story_number(e, "tons"), 6);
        const char *row =
            ls_arena_printf(s->a, "\r\n%zu,%s,%s,%s,%s,%s,yes,", i + 1, story_word(e, "ticket"),
                            story_word(e, "lot"),
                            json_is_true(json_object_get(e, "from_stack")) ? "stack" : "house",
                            story_word(e, "when"), tons);
        const char *line = ls_arena_printf(s->a, " %zu %s %s", i + 1, story_word(e, "ticket"),
                                           when_words(s, story_word(e, "when"))),
                   *weight = ls_arena_printf(s->a, " %.2f scale ", story_number(e, "tons")),
                   *at = strstr(text, line);
        CU_ASSERT_EQUAL(strstr(csv, row) != NULL, stands);
        CU_ASSERT_EQUAL(at != NULL, stands);
        CU_ASSERT_EQUAL(at != NULL && strstr(at, weight) != NULL &&
                            strstr(at, weight) <= at + strlen(line) + strlen(" am"),
                        stands);
        n += stands;
        for (size_t k = 0; stands && k < s->n; k++)
            if (strcmp(s->at[k].ticket, story_word(e, "ticket")) == 0) {
                TEST_SAME(story_pounds(e, "tons"), s->at[k].lb);
                TEST_TEXT(story_word(e, "field"), s->at[k].place);
            }
    }
    TEST_SAME(i, s->entries);
    TEST_SAME(n, s->n);
    size_t rows = 0;
    for (const char *at = csv; (at = strstr(at, "\r\n")) != NULL; at += 2)
        rows++;
    TEST_SAME(rows, s->n + 1); /* and the head */
}

static void check_log(story *s) {
    json_t *d =
        story_parsed(PROGRAM(s->a, "record", s->house, s->fields, "--list", "--format", "json"));
    test_run text = PROGRAM(s->a, "record", s->house, s->fields, "--list");
    test_run csv = PROGRAM(s->a, "record", s->house, s->fields, "--list", "--format", "csv");
    TEST_SAME(text.status, LS_DONE);
    TEST_SAME(csv.status, LS_DONE);
    const char *page = test_joined(s->a, text.out);
    check_entries(s, d, page, csv.out);
    check_sums(s, d, "lots", "lot");
    check_sums(s, d, "days", "day");
    check_places(s, d);
    check_sum(s, json_object_get(d, "out_of_houses"), NULL, NULL, NULL, false);
    check_sum(s, json_object_get(d, "out_of_stack"), NULL, NULL, NULL, true);
    double houses = (double)story_booked(s, NULL, NULL, NULL, false, NULL) / STORY_LB;
    TEST_HOLDS(page, "Out of all houses: ");
    TEST_HOLDS(page, ls_arena_printf(s->a, ", %.2f tons.", houses));
    TEST_HOLDS(page, ls_arena_printf(
                         s->a, "entry 10 replaces entry 4 (%s, Mon, Feb 16, 11:10 am, %s tons)",
                         s->at[3].ticket, ls_number_fixed(s->a, (double)s->misread / STORY_LB, 2)));
    json_decref(d);
}

/* ---- after the houses ---- */

static void check_empty_houses(story *s) {
    size_t i;
    json_t *lot, *e = story_document(s, "estimate");
    check_estimate(s, e);
    json_array_foreach(json_object_get(e, "lots"), i, lot) {
        TEST_NEAR(story_number(json_object_get(lot, "tons"), "high"), 0, 0);
    }
    json_decref(e);
}

/* The plan holds loads out of the stack alone, and they are what was
 * hauled in, lot by lot. They go on the day their field opens. */
static void out_of_stack(story *s) {
    json_t *plan = story_document(s, "plan"), *lot, *out;
    TEST_SAME(json_array_size(json_object_get(plan, "loads")), 0);
    size_t i, k;
    json_array_foreach(json_object_get(plan, "stack"), i, lot) {
        long lb = story_booked(s, story_word(lot, "lot"), "stack", NULL, false, NULL);
        TEST_NEAR(story_number(lot, "in_tons"), 0, 0);
        json_array_foreach(json_object_get(lot, "out"), k, out) {
            lb -= story_pounds(out, "tons");
            story_haul(
                s, (story_load){.ticket = story_word(out, "ticket"),
                                .lot = story_word(lot, "lot"),
                                .place = ls_arena_printf(s->a, "%s/%s", story_word(out, "buyer"),
                                                         story_word(out, "field")),
                                .when = ls_arena_printf(s->a, "%sT09:%02zu",
                                                        story_word(out, "from"), 10 + k),
                                .lb = story_pounds(out, "tons"),
                                .told = true,
                                .from_stack = true});
        }
        TEST_SAME(lb, 0);
    }
    json_decref(plan);
}

static void nothing_left(story *s) {
    json_t *plan = story_document(s, "plan");
    TEST_SAME(json_array_size(json_object_get(plan, "loads")), 0);
    TEST_SAME(json_array_size(json_object_get(plan, "stack")), 0);
    TEST_NEAR(story_number(json_object_get(plan, "unplaced_tons"), "high"), 0, 0);
    TEST_SAME(story_booked(s, NULL, "stack", NULL, false, NULL),
              story_booked(s, NULL, NULL, NULL, true, NULL));
    json_decref(plan);
}

static void three_days(void) {
    story s = story_begin();
    json_t *loads = first_morning(&s);
    day_one(&s, loads);
    second_morning(&s, loads);
    correct(&s);
    too_early(&s);
    json_t *tickets = day_two(&s);
    day_three(&s, json_object_get(tickets, "tickets"));
    check_empty_houses(&s);
    check_log(&s);
    out_of_stack(&s);
    nothing_left(&s);
    check_log(&s);
    json_decref(tickets);
    json_decref(loads);
    story_end(&s);
}

TEST_SUITE(story) = {{"three days of hauling, to the pound", three_days}, CU_TEST_INFO_NULL};
