#include "chart.h"

#include <math.h>

/* Units of the drawing; a row is a label and a bar below it. */
enum { WIDTH = 400, LEFT = 4, RIGHT = 396, END = 310, ROW = 36, BAR = 14, TOP = 8, LEGEND = 22 };

static double place(double x, double most) {
    return most > 0 && isfinite(x) ? LEFT + (END - LEFT) * fmax(x, 0) / most : LEFT;
}

static double most_of(const ls_chart_rows *rows, double rule) {
    double most = isfinite(rule) ? rule : 0;
    for (size_t i = 0; i < rows->n; i++)
        most = fmax(most, fmax(rows->at[i].high, rows->at[i].value));
    return most;
}

static void bar(ls_text *t, const ls_chart_row *r, const char *id, double y, double most) {
    double x = place(r->value, most);
    ls_text_addf(t,
                 "<rect x=\"%d\" y=\"%.1f\" width=\"%.1f\" height=\"%d\" fill=\"%s%s%s\" "
                 "stroke=\"#111\"/>\n",
                 LEFT, y, fmax(x - LEFT, 0.5), BAR, r->hatched ? "url(#" : "#444",
                 r->hatched ? id : "", r->hatched ? "-hatch)" : "");
}

static void range(ls_text *t, const ls_chart_row *r, double y, double most) {
    double a = place(r->low, most), b = place(r->high, most), m = place(r->value, most);
    ls_text_addf(t,
                 "<path d=\"M%.1f %.1fH%.1fM%.1f %.1fv%dM%.1f %.1fv%d\" stroke=\"#111\" "
                 "stroke-width=\"%d\" fill=\"none\"/>\n<circle cx=\"%.1f\" cy=\"%.1f\" r=\"5\" "
                 "fill=\"#fff\" stroke=\"#111\" stroke-width=\"2\"/>\n",
                 a, y + BAR / 2.0, b, a, y, BAR, b, y, BAR, r->hatched ? 5 : 2, m, y + BAR / 2.0);
}

static void head(ls_arena *a, ls_text *t, const char *id, const char *title,
                 const char *description, double height) {
    ls_text_addf(t,
                 "<svg viewBox=\"0 0 %d %.0f\" role=\"img\">\n<title>%s</title>\n"
                 "<desc>%s</desc>\n<defs><pattern "
                 "id=\"%s-hatch\" width=\"6\" height=\"6\" patternUnits=\"userSpaceOnUse\" "
                 "patternTransform=\"rotate(45)\"><rect width=\"6\" height=\"6\" fill=\"#fff\"/>"
                 "<rect width=\"2\" height=\"6\" fill=\"#444\"/></pattern></defs>\n",
                 WIDTH, height, ls_text_html(a, title), ls_text_html(a, description), id);
}

static void row(ls_arena *a, ls_text *t, const ls_chart_row *r, const char *id, double y,
                double most) {
    enum { MOST_LABEL = 34 };
    ls_text_addf(t,
                 "<text x=\"%d\" y=\"%.1f\" fill=\"#111\">%s</text>\n<text x=\"%d\" y=\"%.1f\" "
                 "text-anchor=\"end\" fill=\"#111\">%s</text>\n",
                 LEFT, y + 12,
                 ls_text_html(a, ls_text_fit(a, ls_text_plain(a, r->label), MOST_LABEL)), RIGHT,
                 y + 12, ls_text_html(a, r->shown));
    if (r->range)
        range(t, r, y + 16, most);
    else
        bar(t, r, id, y + 16, most);
}

const char *ls_chart(ls_arena *a, const char *id, const char *title, const char *description,
                     const ls_chart_rows *rows, double rule, const char *rule_words) {
    if (rows->n == 0)
        return NULL;
    ls_text *t = ls_text_new(a);
    double most = most_of(rows, rule), end = TOP + (double)rows->n * ROW;
    head(a, t, id, title, description, end + (isfinite(rule) ? LEGEND : 4));
    for (size_t i = 0; i < rows->n; i++)
        row(a, t, &rows->at[i], id, TOP + (double)i * ROW, most);
    if (isfinite(rule)) {
        double x = place(rule, most);
        ls_text_addf(t,
                     "<path d=\"M%.1f %dV%.1f\" stroke=\"#111\" stroke-width=\"2\" "
                     "stroke-dasharray=\"5 3\"/>\n<text x=\"%.1f\" y=\"%.1f\" "
                     "text-anchor=\"%s\" fill=\"#111\">%s</text>\n",
                     x, TOP, end + 2, x, end + 16, x > WIDTH / 2.0 ? "end" : "start",
                     ls_text_html(a, rule_words));
    }
    ls_text_add(t, "</svg>\n");
    return t->s;
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
        ls_text_addf(t, "  %s\n", drawn(a, &rows->at[i], most_of(rows, NAN)));
    }
    return rows->n == 0 ? NULL : t->s;
}
