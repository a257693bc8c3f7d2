#include "chart.h"

#include "svg.h"

#include <math.h>

/* Units of the drawing; a row is a bar, and above or left of it its label. */
enum { LEFT = LS_SVG_EDGE, RIGHT = LS_SVG_WIDTH - LS_SVG_EDGE, BAR = 14, GAP = 7, TOP = 4 };

typedef struct {
    const ls_report_page *page;
    const ls_chart_frame *frame;
    ls_svg svg;
    double left, right;       /* of the axis */
    double least, most, step; /* base units */
    double end;               /* of the rows */
} drawing;

static double place(const drawing *d, double x) {
    double share = (x - d->least) / (d->most - d->least);
    return d->most > d->least && isfinite(x) ? d->left + (d->right - d->left) * share : d->left;
}

static double most_of(const ls_chart_rows *rows) {
    double most = 0;
    LS_EACH (const ls_chart_row, r, *rows) most = fmax(most, fmax(fmax(r->high, r->value), r->limit));
    return most;
}

/* ---- the axis ---- */

/* 1, 2 or 5 of a power of ten: at most so many steps. */
static double step_of(double span, double steps) {
    double power = pow(10, floor(log10(span / steps))), times = span / steps / power;
    return power * (times <= 1 ? 1 : times <= 2 ? 2 : times <= 5 ? 5 : 10);
}

static void scale(drawing *d, const ls_chart_rows *rows) {
    double unit = ls_unit_of(ls_report_unit(d->page, d->frame->unit)).factor;
    d->most = fmax(fmax(most_of(rows), d->frame->most), d->frame->rule);
    LS_EACH (const ls_chart_row, r, *rows) d->least = fmin(d->least, fmin(r->low, r->value));
    if (!(d->most > d->least)) d->most = unit;
    d->step = step_of((d->most - d->least) / unit, d->frame->labels > 0 ? 4 : 5) * unit;
    d->least = floor(d->least / d->step + 1e-9) * d->step;
}

static void axis(const drawing *d) {
    for (double x = d->least; x <= d->most + d->step * 1e-9; x += d->step) {
        bool last = x + d->step > d->most + d->step * 1e-9;
        double value = fabs(x) < d->step / 2 ? 0 : x;
        ls_svg_line(&d->svg, place(d, x), TOP, place(d, x), d->end + 3, LS_GRID_LINE);
        ls_svg_words(&d->svg, place(d, x), d->end + LS_SVG_LINE, "middle",
                     last ? ls_report_amount(d->page, value, d->frame->unit)
                          : ls_report_number(d->page, value, d->frame->unit));
    }
}

static void rule(const drawing *d) {
    double x = place(d, d->frame->rule);
    ls_svg_line(&d->svg, x, TOP, x, d->end + 3, LS_DASHED_LINE);
    ls_svg_words(&d->svg, x > LS_SVG_WIDTH / 2.0 ? RIGHT : LEFT, d->end + 2 * LS_SVG_LINE + 2,
                 x > LS_SVG_WIDTH / 2.0 ? "end" : "start", d->frame->rule_words);
}

/* ---- rows, drawn over the axis ---- */

static void bar(const drawing *d, const ls_chart_row *r, double y) {
    double from = place(d, fmin(r->low, r->value)), to = place(d, fmax(r->low, r->value));
    ls_svg_box(&d->svg, from, y, to - from, BAR, r->hatched ? LS_HATCHED_BOX : LS_FULL_BOX);
    if (r->limit > 0) ls_svg_line(&d->svg, place(d, r->limit), y - 3, place(d, r->limit), y + BAR + 3, LS_THICK_LINE);
}

static void range(const drawing *d, const ls_chart_row *r, double y) {
    double from = place(d, r->low), at = place(d, r->value);
    ls_svg_box(&d->svg, from, y, place(d, r->high) - from, BAR, r->hatched ? LS_HATCHED_BOX : LS_FULL_BOX);
    ls_svg_box(&d->svg, at - 2, y - 2, 4, BAR + 4, LS_OPEN_BOX);
}

static double row(const drawing *d, const ls_chart_row *r, double y) {
    bool above = d->frame->labels <= 0;
    double beside = above ? ls_svg_wide(r->shown) + GAP : 0;
    ls_svg_label(&d->svg, LEFT, y + 12, above ? RIGHT - LEFT - beside : d->frame->labels, r->label);
    ls_svg_words(&d->svg, RIGHT, y + 12, "end", r->shown);
    y += above ? LS_SVG_LINE : 0;
    (r->range ? range : bar)(d, r, y);
    return y + BAR + GAP;
}

void ls_chart_numbers(ls_text *to, const char *title, const ls_chart_rows *rows) {
    ls_text_addf(to,
                 "<table class=\"unseen\"><caption>%s</caption><thead><tr><th "
                 "scope=\"col\">item</th><th scope=\"col\">answer</th></tr></thead><tbody>\n",
                 ls_text_html(to->arena, title));
    LS_EACH (const ls_chart_row, r, *rows)
        ls_text_addf(to, "<tr><th scope=\"row\">%s</th><td>%s</td></tr>\n", ls_text_html(to->arena, r->label),
                     ls_text_html(to->arena, r->shown));
    ls_text_add(to, "</tbody></table>\n");
}

const char *ls_chart(const ls_view *v, const ls_chart_frame *frame, const ls_chart_rows *rows) {
    if (rows->n == 0) return NULL;
    const ls_report_page page = {v, v->arena, NULL};
    double high = BAR + GAP + (frame->labels > 0 ? 0 : LS_SVG_LINE), beside = 0;
    for (size_t i = 0; i < rows->n && frame->labels > 0; i++)
        beside = fmax(beside, ls_svg_wide(rows->at[i].shown) + GAP);
    drawing d = {.page = &page,
                 .frame = frame,
                 .left = LEFT + fmax(frame->labels, GAP),
                 .right = RIGHT - fmax(beside, 5 * GAP),
                 .end = TOP + (double)rows->n * high};
    scale(&d, rows);
    const char *const fills[] = {frame->full, frame->hatched};
    double below = d.end + (frame->rule > 0 ? 2 : 1) * LS_SVG_LINE + 5;
    d.svg = ls_svg_begin(v->arena, frame->id, frame->title, frame->description,
                         below + (frame->full != NULL ? LS_SVG_LINE : 0));
    axis(&d);
    if (frame->rule > 0) rule(&d);
    double y = TOP;
    for (size_t i = 0; i < rows->n; i++) y = row(&d, &rows->at[i], y);
    if (frame->full != NULL) ls_svg_legend(&d.svg, below + 12, fills, 2);
    ls_svg_end(&d.svg);
    ls_chart_numbers(d.svg.text, frame->title, rows);
    return d.svg.text->s;
}

/* ---- in letters ---- */

enum { LETTERS = 30, LABEL = 26 };

static size_t letter(double x, double most) {
    return most > 0 && isfinite(x) ? (size_t)lround((LETTERS - 1) * fmax(x, 0) / most) : 0;
}

/* "   ----O-----" of a range, "######" of a bar. */
static const char *drawn(ls_arena *a, const ls_chart_row *r, double most) {
    size_t from = r->range ? letter(r->low, most) : 0, at = letter(r->value, most),
           to = r->range ? letter(r->high, most) : at;
    ls_text *t = ls_text_new(a);
    for (size_t i = 0; i <= to && (r->range || r->value > 0); i++)
        ls_text_add(t, i < from ? " " : !r->range ? "#" : i == at ? "O" : "-");
    return t->s;
}

const char *ls_chart_letters(ls_arena *a, const ls_chart_rows *rows) {
    size_t widest = 0;
    ls_text *t = ls_text_new(a);
    for (size_t i = 0; i < rows->n; i++) {
        size_t n = ls_text_columns(ls_text_fit(a, ls_text_plain(a, rows->at[i].label), LABEL));
        widest = n > widest ? n : widest;
    }
    for (size_t i = 0; i < rows->n; i++) {
        ls_text_add(t, "  ");
        ls_text_left(t, ls_text_fit(a, ls_text_plain(a, rows->at[i].label), LABEL), widest);
        ls_text_addf(t, "  %s\n", drawn(a, &rows->at[i], most_of(rows)));
    }
    return rows->n == 0 ? NULL : t->s;
}
