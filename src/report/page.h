/* page: a page of text in the making, as wide as the view. Private to this room. */
#pragma once

#include "littershed/report.h"

enum { LS_REPORT_WIDTH = 80 }; /* of a view that says nothing else */
size_t ls_report_width(const ls_view *v);

/* Finished text goes to text; what is needed only while a line is made lives in arena. */
typedef struct {
    const ls_view *view;
    ls_arena *arena;
    ls_text *text;
} ls_report_page;

/* "Farm, place (prepared by NAME)", not yet made safe; NULL: the farm has no name. */
const char *ls_report_whose_farm(const ls_view *v);
/* A page headed by whose it is and what it is about (view->farm NULL: only that). */
ls_report_page *ls_report_open(const ls_view *v, const char *about);

/* The words that stand under every page of a farm. */
extern const char ls_report_closing[];

/* Close the page with the words that stand under every page of a farm. */
void ls_report_end(ls_report_page *p);

void ls_report_blank(ls_report_page *p);
/* As wide as the page. */
void ls_report_rule(ls_report_page *p);
/* A paragraph wrapped to the page, made safe for a terminal; the same where the view is bold as
 * words that stand out; the same as an item of a list. */
void ls_report_say(ls_report_page *p, const char *words);
void ls_report_strong(ls_report_page *p, const char *words);
void ls_report_item(ls_report_page *p, const char *words);
/* Add s wrapped to the page, its first line led by first and the others by rest (both of the same
 * width). Words wider than the page are broken. s is made safe. */
void ls_report_wrap(ls_report_page *p, const char *first, const char *rest, const char *s);
/* s made safe and wrapped to so many columns, as lines. Words wider than that are broken. */
const char *ls_report_lines(ls_arena *a, const char *s, size_t columns);
/* A name of a file made safe and cut to so many columns. */
const char *ls_report_name(const ls_report_page *p, const char *s, size_t columns);
