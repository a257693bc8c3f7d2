/* What must hold of evidence, whatever the bird and the figures: more of it never widens unless it
 * disagrees, and disagreement is said. */
#include "litter_world.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { SURVEY, CLEANOUT, BALANCE, SISTER, KINDS };

/* The line of each kind in dry tons, and its figure in the file: the line is proportional to it,
 * the balance to one over it. */
static const char *const line_of[KINDS] = {"a.depth-survey.dry", "a.last-cleanout.dry", "a.phosphorus.dry",
                                           "a.sister-houses.dry"};

static const struct {
    const char *birds;
    double length; /* ft, of a house 40 ft wide */
    int days;      /* of stay, so many birds placed */
    const char *placed, *removed, *flock;
    bool balance; /* the tables hold what a phosphorus balance needs */
} birds[] = {
    {"broiler breeder", 432, 294, "2025-04-21", "2026-02-09", "hens: 7800, males: 780", true},
    {"breeder pullet", 400, 147, "2025-04-21", "2025-09-15", "count: 10000", false},
    {"broiler", 500, 49, "2025-04-21", "2025-06-09", "count: 22000", false},
    {"layer", 400, 364, "2025-01-01", "2025-12-31", "count: 30000", false},
    {"layer pullet", 400, 119, "2025-04-21", "2025-08-18", "count: 30000", false},
    {"turkey tom", 500, 126, "2025-04-21", "2025-08-25", "count: 5000", false},
    {"turkey hen", 500, 105, "2025-04-21", "2025-08-04", "count: 8000", false},
    {"duck", 400, 39, "2025-04-21", "2025-05-30", "count: 6000", false},
};
enum { BIRDS = sizeof birds / sizeof *birds };

/* A farm of that bird; figures of the kinds of evidence, 0: not there (below 0: a sister house of
 * which nothing is known). */
static litter_world farm_of(size_t bird, const double figure[KINDS]) {
    ls_arena *a = ls_arena_new();
    ls_text *y = ls_text_new(a);
    for (int house = 0; house < (figure[SISTER] != 0 ? 2 : 1); house++) {
        ls_text_addf(y, "%s  - name: %s\n    length: %g ft\n    width: 40 ft\n", house ? "" : "houses:\n",
                     house ? "B" : "A", birds[bird].length);
        ls_text_addf(y,
                     "    bedding: none\n"
                     "    flocks: [{birds: %s, %s, placed: %s, removed: %s, lost: 8 %%",
                     birds[bird].birds, birds[bird].flock, birds[bird].placed, birds[bird].removed);
        if (figure[BALANCE] > 0 && house == 0)
            ls_text_add(y, ", feed: {eaten: 138 g/bird/day, phosphorus: 0.55 %}, eggs: 158 per hen");
        ls_text_add(y, "}]\n");
        ls_text_addf(y, "    measured: {moisture: 30 %% +/- 0.01 %%, density: 32 lb/ft3 "
                        "+/- 0.01 lb/ft3");
        if (figure[SURVEY] > 0 && house == 0) ls_text_addf(y, ", depth: %.9f in +/- 0.01 %%", figure[SURVEY]);
        ls_text_add(y, "}\n");
        ls_text_addf(y,
                     "    lab: [{date: 2026-01-29, by: L, N: 38 lb/ton, P2O5: %.9f lb/ton, K2O: 36 "
                     "lb/ton}]\n",
                     figure[BALANCE] > 0 ? figure[BALANCE] : 56.0);
        double tons = house == 0 ? figure[CLEANOUT] : figure[SISTER];
        if (tons > 0)
            ls_text_addf(y,
                         "    last_cleanout: {date: 2024-12-12, weighed: %.9f ton, bird_days: "
                         "1000000, moisture: 30 %% +/- 0.01 %%}\n",
                         tons);
    }
    litter_world t = litter_farm(y->s, NULL);
    ls_arena_free(a);
    return t;
}

static bool possible(size_t bird, int kind) { return kind != BALANCE || birds[bird].balance; }

/* Of a bird: dry tons by the published figures, and by each kind of evidence of figure 1. */
typedef struct {
    size_t bird;
    double published, by_one[KINDS];
} scale;

static scale scale_of(size_t bird) {
    static scale known[BIRDS]; /* the same for every test, and slow */
    if (known[bird].published > 0) return known[bird];
    scale s = {.bird = bird};
    for (int k = -1; k < KINDS; k++) {
        if (k >= 0 && !possible(bird, k)) continue;
        double figure[KINDS] = {0};
        if (k >= 0) figure[k] = 50;
        litter_world t = farm_of(bird, figure);
        if (k < 0)
            s.published = litter_shown(&t, "a.made.dry");
        else
            s.by_one[k] = litter_shown(&t, line_of[k]) * (k == BALANCE ? 50 : 1 / 50.0);
        litter_end(&t);
    }
    known[bird] = s;
    return s;
}

/* Figures that make each kind give so many dry tons by itself. */
static void figures_for(const scale *s, const double tons[KINDS], double figure[KINDS]) {
    for (int k = 0; k < KINDS; k++)
        figure[k] = tons[k] == 0 || !possible(s->bird, k) ? 0
                    : k == BALANCE                        ? s->by_one[k] / tons[k]
                                                          : tons[k] / s->by_one[k];
}

static bool disagrees(const litter_world *t) { return litter_has(t, "a.combined.disagreement"); }

/* Each kind alone, all together, none. */
static void every_bird_every_kind(void) {
    for (size_t bird = 0; bird < BIRDS; bird++) {
        const scale s = scale_of(bird);
        double tons[KINDS], figure[KINDS], one[KINDS];
        for (int k = 0; k < KINDS; k++) tons[k] = s.published;
        figures_for(&s, tons, figure);
        double alone = 0;
        for (int k = -1; k <= KINDS; k++) {
            for (int i = 0; i < KINDS; i++) one[i] = i == k || k == KINDS ? figure[i] : 0;
            litter_world t = farm_of(bird, one);
            double width = litter_width(&t);
            size_t evidence = 0;
            for (size_t i = 0; i < t.estimate->lots[0].methods_n; i++)
                evidence += t.estimate->lots[0].methods[i].evidence;
            TEST_SAME(evidence, k < 0 ? 0 : k == KINDS ? (birds[bird].balance ? 4 : 3) : possible(bird, k));
            alone = k < 0 ? width : alone;
            CU_ASSERT_TRUE(k < 0 || !possible(bird, k == KINDS ? 0 : k) || width < alone);
            CU_ASSERT_FALSE(disagrees(&t));
            litter_end(&t);
        }
    }
}

/* The width of what is known with some kinds of evidence, and with one more that says the same
 * (draws: within 0.5 %). */
static void one_more(const scale *s, int had, int added) {
    static const double off[KINDS] = {0.92, 1.1, 1.04, 0.97};
    double tons[KINDS] = {0}, figure[KINDS], same[KINDS] = {0}, more[KINDS];
    for (int k = 0; k < KINDS; k++) tons[k] = had & (1 << k) ? s->published * off[k] : 0;
    figures_for(s, tons, figure);
    litter_world before = farm_of(s->bird, figure);
    double width = litter_width(&before);
    same[added] = litter_shown(&before, "a.dry_tons");
    litter_end(&before);
    figures_for(s, same, more);
    figure[added] = more[added];
    litter_world after = farm_of(s->bird, figure);
    if (litter_width(&after) > width * 1.005)
        printf("\n%s, kinds %d, adding %d: %g from %g\n", birds[s->bird].birds, had, added, litter_width(&after),
               width);
    CU_ASSERT_TRUE(litter_width(&after) <= width * 1.005);
    litter_end(&after);
}

/* Evidence at the present median never widens. */
static void more_at_the_median(void) {
    for (size_t bird = 0; bird < BIRDS; bird++) {
        const scale s = scale_of(bird);
        for (int had = 0; had < (1 << KINDS); had++)
            for (int added = 0; added < KINDS; added++)
                if (!(had & (1 << added)) && possible(bird, added) && (bird == 0 || had % 8 == 0))
                    one_more(&s, had, added);
    }
}

/* Taking away evidence that agrees (chi-square before and after) never narrows. */
static void less_never_narrows(void) {
    static const double off[][KINDS] = {
        {1, 1, 1, 1}, {0.9, 1.15, 1.05, 0.95}, {1.1, 0.85, 1, 1.2}, {1.3, 1.1, 1.2, 1.4}, {0.8, 0.9, 0.7, 0.75}};
    for (size_t bird = 0; bird < BIRDS; bird++) {
        const scale s = scale_of(bird);
        for (size_t i = 0; i < (bird == 0 ? 5 : 1); i++) {
            double tons[KINDS], figure[KINDS];
            for (int k = 0; k < KINDS; k++) tons[k] = s.published * off[i][k];
            figures_for(&s, tons, figure);
            litter_world all = farm_of(bird, figure);
            CU_ASSERT_FALSE(disagrees(&all));
            for (int gone = 0; gone < KINDS; gone++) {
                double less[KINDS];
                memcpy(less, figure, sizeof less);
                less[gone] = 0;
                litter_world t = farm_of(bird, less);
                if (!disagrees(&t) && litter_width(&t) < litter_width(&all) * 0.995)
                    printf("\n%s, set %zu, less %d: %g from %g\n", birds[bird].birds, i, gone, litter_width(&t),
                           litter_width(&all));
                CU_ASSERT_TRUE(disagrees(&t) || litter_width(&t) >= litter_width(&all) * 0.995);
                litter_end(&t);
            }
            litter_end(&all);
        }
    }
}

/* Two pieces of evidence, of log sd 10 % and 15 % (practice), all they share settled: chi-square is
 * d^2 / (0.1^2 + 0.15^2) on one degree of freedom, its 95 % point 3.841 (NIST/SEMATECH e-Handbook,
 * 1.3.6.7.4). Widened past that only, by the root of chi-square (Birge). */
static void birge_past_the_point(void) {
    const scale s = scale_of(0);
    size_t widened = 0;
    for (int step = -12; step <= 12; step++) {
        double apart = exp(0.04 * step), tons[KINDS] = {60 * apart, 60, 0, 0}, figure[KINDS];
        figures_for(&s, tons, figure);
        litter_world t = farm_of(0, figure);
        double chi2 = pow(0.04 * step, 2) / (0.1 * 0.1 + 0.15 * 0.15);
        CU_ASSERT_EQUAL(disagrees(&t), chi2 > 3.841);
        if (chi2 > 3.841) {
            widened++;
            TEST_NEAR(litter_shown(&t, "a.disagreement.ratio"), sqrt(chi2), 1e-6);
            TEST_NEAR(litter_shown(&t, "a.disagreement.apart"), exp(fabs(0.04 * step)), 1e-6);
        }
        litter_end(&t);
    }
    CU_ASSERT_TRUE(0 < widened && widened < 20);
}

/* The middle does not jump where the widening begins: only the range does. */
static void widening_keeps_the_middle(void) {
    const scale s = scale_of(0);
    double mid[2];
    for (int i = 0; i < 2; i++) {
        double limit = sqrt(3.841 * 0.0325), tons[KINDS] = {60 * exp(limit * (i ? 1.01 : 0.99)), 60};
        double figure[KINDS];
        figures_for(&s, tons, figure);
        litter_world t = farm_of(0, figure);
        CU_ASSERT_EQUAL(disagrees(&t), i == 1);
        mid[i] = litter_shown(&t, "a.dry_tons");
        litter_end(&t);
    }
    TEST_NEAR(mid[1], mid[0], 0.01);
}

/* A depth survey of twice the last cleanout: said, with both names, and wider than both agreeing
 * and than either alone. A sister house hears less of such evidence too. */
static void contradiction(void) {
    const scale s = scale_of(0);
    static const double tons[][KINDS] = {{60, 60}, {120, 60}, {120}, {0, 60}};
    enum { AGREE, DIFFER, SURVEY_ALONE, CLEANOUT_ALONE, FARMS };
    litter_world t[FARMS];
    double figure[KINDS], width[FARMS], sister[FARMS];
    for (int i = 0; i < FARMS; i++) {
        figures_for(&s, tons[i], figure);
        figure[SISTER] = -1;
        t[i] = farm_of(0, figure);
        width[i] = litter_width(&t[i]);
        const ls_q *q = &t[i].estimate->lots[1].dry_tons;
        sister[i] = q->high / q->low;
    }
    CU_ASSERT_TRUE(disagrees(&t[DIFFER]));
    CU_ASSERT_FALSE(disagrees(&t[AGREE]));
    CU_ASSERT_TRUE(litter_says(&t[DIFFER], "tons by the depth survey are 2 times those by the last "
                                           "cleanout: too far apart"));
    CU_ASSERT_TRUE(litter_says(&t[DIFFER], "birds and bird-days, the bedding, a wet zone, soil"));
    CU_ASSERT_FALSE(litter_says(&t[AGREE], "tons by the depth survey are"));
    CU_ASSERT_TRUE(width[DIFFER] > 1.5 * width[AGREE]);
    CU_ASSERT_TRUE(width[DIFFER] > width[SURVEY_ALONE] && width[DIFFER] > width[CLEANOUT_ALONE]);
    CU_ASSERT_TRUE(log(sister[DIFFER]) > 1.05 * log(sister[AGREE]));
    for (int i = 0; i < FARMS; i++) litter_end(&t[i]);
}

TEST_SUITE(litter_properties) = {
    {"every bird, every kind", every_bird_every_kind},
    {"more at the median never widens", more_at_the_median},
    {"less never narrows", less_never_narrows},
    {"Birge past the 95 % point", birge_past_the_point},
    {"widening keeps the middle", widening_keeps_the_middle},
    {"contradiction", contradiction},
    CU_TEST_INFO_NULL,
};
