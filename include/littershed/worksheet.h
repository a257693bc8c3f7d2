/* worksheet: every figure of the program as a line: an operation over earlier lines, or a leaf that
 * says where it comes from. */
#pragma once

#include "littershed/base.h"
#include "littershed/farm.h"
#include "littershed/reference.h"

/* A line is named by its index, from 1; inputs have lower indices than what is made of them. */
typedef int32_t ls_line;
#define LS_NO_LINE ((ls_line)0) /* none: unknown */

typedef enum {
    LS_OP_LEAF,
    LS_OP_SAME,        /* x under another name */
    LS_OP_SUM,         /* x1 + x2 + ... */
    LS_OP_DIFFERENCE,  /* a - b */
    LS_OP_PRODUCT,     /* x1 * x2 * ... */
    LS_OP_QUOTIENT,    /* a / b */
    LS_OP_COMPLEMENT,  /* 1 - x, of a share */
    LS_OP_LEAST,       /* the least of x1, x2, ... */
    LS_OP_GREATEST,    /* the greatest of them */
    LS_OP_CLIP,        /* x kept within a..b; inputs x, a, b */
    LS_OP_STEP_DOWN,   /* x down to whole steps; inputs x, step. A quotient within 1e-9 of a whole
                          counts as whole */
    LS_OP_STEP_UP,     /* x up to whole steps */
    LS_OP_GEOMEAN,     /* x1^w1 * x2^w2 * ...; inputs x1, w1, x2, w2, ...; the weights sum to 1. A
                          mass that a draw takes below 0 counts as none */
    LS_OP_INTERPOLATE, /* straight line in a stored table, its end values beyond its ends */
    LS_OPS
} ls_op;

typedef enum {
    LS_BY_OPERATION,  /* no leaf */
    LS_BY_FARM,       /* a farm file; at says where */
    LS_BY_TABLE,      /* figure says which row; its status says how well it is known */
    LS_BY_LOG,        /* a log entry; words say which */
    LS_BY_OPTION,     /* a command-line option */
    LS_BY_SPLIT,      /* a decision of the split */
    LS_BY_SIMULATION, /* a point of drawn values */
    LS_BY_DAYS,       /* an outcome of the days simulated load by load */
    LS_BY_FIRST_PASS, /* fixed before drawing: a weight, a between-source spread */
    LS_BY_DEFINITION  /* exact by definition: pi, 1, 0 */
} ls_origin_kind;

typedef struct {
    ls_origin_kind kind;
    ls_place at;             /* farm: place; else LS_NOWHERE */
    const ls_figure *figure; /* table */
    const char *words;       /* what a reader needs beside that; may be NULL */
} ls_origin;

/* The stored table of an interpolation: y at rising x, both in base units. */
typedef struct {
    size_t n;
    const double *x, *y;
} ls_curve;

typedef struct {
    const char *key;   /* "north.left.dry_tons" */
    const char *label; /* plain words */
    ls_unit unit;      /* in which it is shown */
    ls_op op;
    size_t n;
    const ls_line *in;     /* n earlier lines */
    const ls_curve *curve; /* LS_OP_INTERPOLATE */
    double value;          /* base units; the value pass */
    ls_spread spread;      /* leaves */
    ls_origin origin;
    uint64_t hash; /* of key: names the random stream of a leaf */
} ls_entry;

typedef struct ls_worksheet ls_worksheet;

/* An empty worksheet; its lines live in the arena. */
ls_worksheet *ls_worksheet_new(ls_arena *a);
ls_arena *ls_worksheet_arena(ls_worksheet *w);
/* One past the last line. */
size_t ls_worksheet_lines(const ls_worksheet *w);
/* A part of it: the same lines, but a key made or looked for with it is led by the part's own name
 * (made with printf; "" is the name itself), and "%s" in a label stands for of (NULL: for itself).
 * It belongs to the line made next, as ls_printf does. */
ls_worksheet *ls_part(const ls_worksheet *w, const char *of, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
/* The entry stays where it is until it is cut. NULL for LS_NO_LINE. */
const ls_entry *ls_line_at(const ls_worksheet *w, ls_line line);
/* The line with that key, LS_NO_LINE if there is none. */
ls_line ls_line_find(const ls_worksheet *w, const char *key);
/* The value of the value pass, in base units; and as a number of its unit. NaN for LS_NO_LINE. */
double ls_line_value(const ls_worksheet *w, ls_line line);
double ls_line_shown(const ls_worksheet *w, ls_line line);

/* The first mistake made in building lines (units that do not fit, a key used for two things, an
 * input that does not exist, weights that do not sum to 1), NULL if none: "KEY: ft2 x in does not
 * give ton". A fault of the program or of a user's table, never of a value. A faulty line becomes
 * an exact leaf whose value is NaN. The fault is remembered after a cut. */
const char *ls_worksheet_fault(const ls_worksheet *w);

/* Forget every line made after the worksheet had n lines (field lines are made, read and given back), and all ls_printf
 * made since: their memory serves the next lines. Whatever else lives in the arena is left alone. */
void ls_worksheet_cut(ls_worksheet *w, size_t n);
/* A key or label made with printf. It belongs to the line made next, and is cut with it. */
const char *ls_printf(ls_worksheet *w, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* ---- leaves: key, label, unit live as long as the worksheet; values in base units ---- */
ls_line ls_leaf(ls_worksheet *w, const char *key, const char *label, const char *unit, double value, ls_spread spread,
                ls_origin origin);
/* A quantity of the farm file: plain: exact; +/-: normal with sd half/2; a range: rectangular;
 * readings: mean, Student t with scale sd/sqrt(n) and n - 1 degrees of freedom (one reading:
 * exact). A draw below 0 counts as next to nothing. */
ls_line ls_leaf_given(ls_worksheet *w, const char *key, const char *label, const char *unit, const ls_quantity *q);
/* How readings of a kind usually scatter: sd of one reading, in base units or (relative) as a share of it; the degrees
 * of freedom that it counts for; a sample that scatters alone times as much or more stands alone. */
typedef struct {
    double sd, df, alone;
    bool relative;
} ls_usual_scatter;
/* The spread of the mean of n readings (one number: one reading): a Student t with scale s /
 * sqrt(n), s^2 the usual variance and that of the sample, weighted by their degrees of freedom,
 * which add up; of a relative scatter on the log scale. Of other forms as ls_leaf_given has it. */
ls_spread ls_readings_spread(const ls_quantity *q, ls_usual_scatter usual);
/* A quantity of the farm file that was read off: as ls_leaf_given, with that spread. */
ls_line ls_leaf_readings(ls_worksheet *w, const char *key, const char *label, const char *unit, const ls_quantity *q,
                         ls_usual_scatter usual);
/* A count of the farm file, of so many units. */
ls_line ls_leaf_count(ls_worksheet *w, const char *key, const char *label, const char *unit, const ls_count *c);
/* A cell of a table with its own spread. NULL is a fault. */
ls_line ls_leaf_figure(ls_worksheet *w, const char *key, const char *label, const char *unit, const ls_figure *f);
/* A figure that was made of a cell of a table; words say how. */
ls_line ls_leaf_by(ls_worksheet *w, const char *key, const char *label, const char *unit, const ls_figure *f,
                   double value, ls_spread spread, const char *words);
/* An exact figure by definition, or fixed in a first pass, or decided ... (kind), in words. */
ls_line ls_leaf_exact(ls_worksheet *w, const char *key, const char *label, const char *unit, double value,
                      ls_origin_kind kind, const char *words);

/* ---- operations. The dimension of unit must be that of the result. A line made again of the same
 * is that line. What is made of LS_NO_LINE is LS_NO_LINE; sum, least and greatest are of the lines
 * that are known, LS_NO_LINE if none is. ---- */
ls_line ls_same(ls_worksheet *w, const char *key, const char *label, const char *unit, ls_line x);
ls_line ls_sum(ls_worksheet *w, const char *key, const char *label, const char *unit, const ls_line *x, size_t n);
ls_line ls_difference(ls_worksheet *w, const char *key, const char *label, const char *unit, ls_line a, ls_line b);
ls_line ls_product(ls_worksheet *w, const char *key, const char *label, const char *unit, const ls_line *x, size_t n);
ls_line ls_quotient(ls_worksheet *w, const char *key, const char *label, const char *unit, ls_line a, ls_line b);
ls_line ls_complement(ls_worksheet *w, const char *key, const char *label, const char *unit, ls_line x);
ls_line ls_least(ls_worksheet *w, const char *key, const char *label, const char *unit, const ls_line *x, size_t n);
ls_line ls_greatest(ls_worksheet *w, const char *key, const char *label, const char *unit, const ls_line *x, size_t n);
ls_line ls_clip(ls_worksheet *w, const char *key, const char *label, const char *unit, ls_line x, ls_line low,
                ls_line high);
ls_line ls_step_down(ls_worksheet *w, const char *key, const char *label, const char *unit, ls_line x, ls_line step);
ls_line ls_step_up(ls_worksheet *w, const char *key, const char *label, const char *unit, ls_line x, ls_line step);
/* weights[i] belongs to x[i]. */
ls_line ls_geomean(ls_worksheet *w, const char *key, const char *label, const char *unit, const ls_line *x,
                   const ls_line *weights, size_t n);
/* curve must outlive the worksheet; its x are in x's dimension, its y in that of unit. */
ls_line ls_interpolate(ls_worksheet *w, const char *key, const char *label, const char *unit, ls_line x,
                       const ls_curve *curve);

/* Short forms for the usual number of inputs. */
#define LS_SUM(w, key, label, unit, ...) LS_NARY_(ls_sum, w, key, label, unit, __VA_ARGS__)
#define LS_PRODUCT(w, key, label, unit, ...) LS_NARY_(ls_product, w, key, label, unit, __VA_ARGS__)
#define LS_LEAST(w, key, label, unit, ...) LS_NARY_(ls_least, w, key, label, unit, __VA_ARGS__)
#define LS_GREATEST(w, key, label, unit, ...) LS_NARY_(ls_greatest, w, key, label, unit, __VA_ARGS__)
#define LS_NARY_(f, w, key, label, unit, ...)                                                                          \
    f((w), (key), (label), (unit), (const ls_line[]){__VA_ARGS__},                                                     \
      sizeof((const ls_line[]){__VA_ARGS__}) / sizeof(ls_line))

/* How the line comes about, in words and in numbers, in the arena: "slats area x slats depth";
 * "11,059.2 ft2 x 5.58333 in"; both "" for a leaf. Where a leaf comes from: "house.yaml:23",
 * "ncsu-66, North Carolina ..., Table 66 (from memory)", "common practice", ..., then ": " and its
 * words if it has any; "computed" for an operation. d knows the names of files, or is NULL. */
const char *ls_line_formula(ls_arena *a, const ls_worksheet *w, ls_line line);
const char *ls_line_numbers(ls_arena *a, const ls_worksheet *w, ls_line line);
const char *ls_line_origin(ls_arena *a, const ls_worksheet *w, ls_line line, const ls_diag *d);

typedef LS_LIST(ls_line) ls_line_list;

/* What must be said of leaves that come from tables, each once, with "; " between, in the arena;
 * NULL if there is nothing to say.
 *
 * How many figures are from memory and matter, and in brackets their labels: one standard
 * uncertainty of it moves one of the printed lines (LS_NO_LINE among them is passed over) by 1 % of
 * its value or more, by first order, all leaves of one figure together; a figure without a spread
 * counts with 35 % of itself. Tables of the kinds in said ('|' between; "" none) are left out. */
const char *ls_lines_from_memory(ls_arena *a, const ls_worksheet *w, const ls_line_list *printed, const char *said);
/* The farm's own rows, with their place, "removal-ipni/tall fescue hay (my-tables.yaml:12)", of
 * leaves from first on. among[i] false: line i is left out (NULL: none is). */
const char *ls_lines_of_own_rows(ls_arena *a, const ls_worksheet *w, size_t first, const bool *among);

/* ---- first order (JCGM 100): by reverse accumulation over the same lines. ---- */

/* A line that another is made of, and d value(that other) / d value(line). */
typedef struct {
    ls_line line;
    double gradient;
} ls_ancestor;
typedef LS_LIST(ls_ancestor) ls_ancestors;
/* The line itself and every line it is made of, falling; none for LS_NO_LINE. */
ls_ancestors ls_line_ancestors(ls_arena *a, const ls_worksheet *w, ls_line line);
/* Is a line among them? */
bool ls_line_among(const ls_ancestors *of, ls_line line);
/* sqrt of the sum over leaves of (gradient x ls_spread_scale)^2 divided by |value of the line|: its spread on the log
 * scale. Leaves among skip are left out (it may be NULL). NaN for LS_NO_LINE. The derivative of whole steps is that of
 * their mean over all places within a step (1 by x), so that counts keep their spread. */
double ls_line_log_scale(const ls_worksheet *w, ls_line line, const ls_ancestors *skip);

/* ---- spread by drawing ---- */
enum { LS_BLOCK = 10000 };

typedef struct {
    ls_line line;
    double above;          /* in: also count the draws above this (base units); NaN: do not */
    double low, mid, high; /* out: 10, 50 and 90 % points: means over blocks of the order statistics
                              of rank p x LS_BLOCK (of whole numbers the mean may lie between
                              two: callers round); base units */
    double mean, sd;       /* out */
    double share_above;    /* out: 0..1, NaN if not asked. All are NaN if any draw is */
} ls_drawn;

/* A request for the points of a line. */
ls_drawn ls_drawn_of(ls_line line);

/* Draw the n lines wanted, all from the same draws, draws in all: rounded up to whole blocks of LS_BLOCK; fewer than
 * one, to whole columns of 500, the first draws of that block. Only leaves that matter are drawn; each leaf has its own
 * stream named by (seed, its key, block), so that other leaves change nothing. Two threads when there is more than one
 * block: the same bytes as with one. Memory does not grow with draws. Ask for many lines at once rather than one by
 * one: what they share is drawn once. */
void ls_draw(const ls_worksheet *w, uint64_t seed, size_t draws, ls_drawn *wanted, size_t n);

/* One line of a worksheet, to be drawn beside those of others. */
typedef struct {
    const ls_worksheet *w;
    ls_drawn drawn;
} ls_draw_job;

/* LS_BLOCK draws of each job: the answers are those of ls_draw. What is the same in several
 * worksheets is drawn and worked out once. */
void ls_draw_each(ls_draw_job *jobs, size_t n, uint64_t seed);

/* How many draws make the points of all n lines sure to so many significant digits (1 or 2) of their spread: blocks are
 * added until twice the standard error of each point, from its scatter over the blocks, is within the tolerance (the
 * adaptive procedure of JCGM 101:2008, 7.9, on the points instead of mean and standard deviation, as a t of few degrees
 * of freedom has neither), or most draws are reached; *enough tells which. At least two blocks, one if nothing is
 * drawn. The same whatever the number of threads. */
size_t ls_draws_needed(const ls_worksheet *w, uint64_t seed, int digits, size_t most, const ls_line *lines, size_t n,
                       bool *enough);

/* The first-order spread of a line beside the drawn one (JCGM 101:2008, clause 8): would the simple method have been
 * good enough? Uses the 10 and 90 % points: y -+ 1.2816 u against the drawn points. Base units. */
typedef struct {
    double u;                 /* first-order standard uncertainty; a t counts by its scale */
    double low, high;         /* y - 1.2816 u, y + 1.2816 u */
    double off_low, off_high; /* how far they lie from the drawn points */
    double tolerance;         /* half a unit of the last of two significant digits of u */
    bool good;                /* neither is farther off than that */
} ls_first_order;
ls_first_order ls_line_first_order(const ls_worksheet *w, ls_line line, const ls_drawn *drawn);
