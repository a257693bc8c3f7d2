/* svg: boxes, lines and words of a picture, told apart by pattern, never by color. Every picture is LS_SVG_WIDTH units
 * wide; its words are of one size, 9 points and more where it takes half a letter page. Private to this room. */
#pragma once

#include "littershed/base.h"

enum { LS_SVG_WIDTH = 360, LS_SVG_EDGE = 4, LS_SVG_LINE = 16 };

typedef struct {
    ls_text *text;
    const char *id; /* of the picture in its document */
} ls_svg;

typedef enum { LS_FULL_BOX, LS_HATCHED_BOX, LS_OPEN_BOX } ls_svg_fill;
typedef enum { LS_GRID_LINE, LS_THIN_LINE, LS_THICK_LINE, LS_DASHED_LINE } ls_svg_stroke;

/* Texts are not yet made safe. */
ls_svg ls_svg_begin(ls_arena *a, const char *id, const char *title, const char *description, double height);
const char *ls_svg_end(const ls_svg *s);

void ls_svg_box(const ls_svg *s, double x, double y, double wide, double high, ls_svg_fill fill);
void ls_svg_line(const ls_svg *s, double x, double y, double x2, double y2, ls_svg_stroke stroke);
/* The base of the words is at y; anchor: "start", "middle" or "end" of them is at x. */
void ls_svg_words(const ls_svg *s, double x, double y, const char *anchor, const char *words);
/* The same from x on, cut off where they would be wider than that in a usual face. */
void ls_svg_label(const ls_svg *s, double x, double y, double wide, const char *words);
/* How wide the words are in a usual face. */
double ls_svg_wide(const char *words);
/* What the fills mean, from FULL on, in a line. */
void ls_svg_legend(const ls_svg *s, double y, const char *const *names, size_t n);
