#include "svg.h"

#include <math.h>
#include <string.h>

ls_svg ls_svg_begin(ls_arena *a, const char *id, const char *title, const char *description, double height) {
    ls_svg s = {ls_text_new(a), id};
    ls_text_addf(s.text,
                 "<svg viewBox=\"0 0 %d %.0f\" role=\"img\">\n<title>%s</title>\n"
                 "<desc>%s</desc>\n<defs><pattern id=\"%s-hatch\" width=\"6\" height=\"6\" "
                 "patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\"><rect "
                 "width=\"6\" height=\"6\" fill=\"#fff\"/>"
                 "<rect width=\"2\" height=\"6\" fill=\"#444\"/></pattern></defs>\n",
                 LS_SVG_WIDTH, ceil(height), ls_text_html(a, title), ls_text_html(a, description), id);
    return s;
}

const char *ls_svg_end(const ls_svg *s) {
    ls_text_add(s->text, "</svg>\n");
    return s->text->s;
}

void ls_svg_box(const ls_svg *s, double x, double y, double wide, double high, ls_svg_fill fill) {
    ls_arena *a = s->text->arena;
    const char *with = fill == LS_FULL_BOX   ? "#444"
                       : fill == LS_OPEN_BOX ? "#fff"
                                             : ls_arena_printf(a, "url(#%s-hatch)", s->id);
    ls_text_addf(s->text,
                 "<rect x=\"%.2f\" y=\"%.1f\" width=\"%.2f\" height=\"%.0f\" fill=\"%s\" "
                 "stroke=\"#111\"/>\n",
                 x, y, fmax(wide, 0.5), high, with);
}

void ls_svg_line(const ls_svg *s, double x, double y, double x2, double y2, ls_svg_stroke stroke) {
    static const char *const how[] = {[LS_GRID_LINE] = "stroke=\"#767676\" stroke-width=\"0.5\"",
                                      [LS_THIN_LINE] = "stroke=\"#111\" stroke-width=\"1.5\"",
                                      [LS_THICK_LINE] = "stroke=\"#111\" stroke-width=\"3\"",
                                      [LS_DASHED_LINE] = "stroke=\"#111\" stroke-width=\"2\" stroke-dasharray=\"5 3\""};
    ls_text_addf(s->text, "<path d=\"M%.2f %.1fL%.2f %.1f\" %s/>\n", x, y, x2, y2, how[stroke]);
}

void ls_svg_words(const ls_svg *s, double x, double y, const char *anchor, const char *words) {
    ls_text_addf(s->text, "<text x=\"%.2f\" y=\"%.1f\" text-anchor=\"%s\">%s</text>\n", x, y, anchor,
                 ls_text_html(s->text->arena, words));
}

/* Of a letter in a usual face, rather too much; a sign of several bytes by its first. */
static double letter(unsigned char c) {
    static const struct {
        const char *letters;
        double wide;
    } kinds[] = {{"ijl'|.,:;!", 3.8}, {" tfrI()/-[]\"", 4.9}, {"mM", 11.2}, {"wW@%", 12.8}};
    if (c >= 0x80) return c >= 0xC0 ? 13.2 : 0;
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++)
        if (strchr(kinds[i].letters, c) != NULL) return kinds[i].wide;
    return c >= 'A' && c <= 'Z' ? 9.5 : 7.4;
}

double ls_svg_wide(const char *words) {
    double wide = 0;
    for (; *words != '\0'; words++) wide += letter((unsigned char)*words);
    return wide;
}

void ls_svg_label(const ls_svg *s, double x, double y, double wide, const char *words) {
    enum { MOST = 90 };
    ls_arena *a = s->text->arena;
    const char *plain = ls_text_plain(a, words), *fit = ls_text_fit(a, plain, MOST);
    for (size_t n = ls_text_columns(fit); n > 1 && ls_svg_wide(fit) > wide; n--) fit = ls_text_fit(a, plain, n - 1);
    ls_svg_words(s, x, y, "start", fit);
}

void ls_svg_legend(const ls_svg *s, double y, const char *const *names, size_t n) {
    enum { BOX = 18, HIGH = 10, GAP = 5 };
    double x = LS_SVG_EDGE;
    for (size_t i = 0; i < n; i++) {
        ls_svg_box(s, x, y - HIGH, BOX, HIGH, (ls_svg_fill)i);
        ls_svg_words(s, x + BOX + GAP, y, "start", names[i]);
        x += BOX + 3 * GAP + ls_svg_wide(names[i]);
    }
}
