/* ticket: what stands on a ticket, the same in text and HTML. Private to this room. */
#ifndef REPORT_TICKET_H
#define REPORT_TICKET_H

#include "report/page.h"

/* Days from spreading until something may come on the field: by the farm file or a caution. */
typedef struct {
    const char *what; /* "cattle", "harvest of organic food", ... */
    ls_interval wait;
} ls_report_wait;
typedef LS_LIST(ls_report_wait) ls_report_wait_list;

/* What goes on one field. */
typedef struct {
    const char *name;
    const char *spread; /* "8.64 ton on 2.88 ac at 3 ton/ac" */
    const char *directions;
    ls_report_facts facts;
} ls_report_drop;

typedef struct {
    const ls_load *load;
    const ls_load_sheet *sheet;
    const char *kind; /* "Litter ticket for Larkspur Hay", ... */
    const char *when; /* day and order of the day */
    const char *tons; /* "8.64 ton"; a part load says so */
    bool part;
    const char *standby; /* NULL: a firm load */
    ls_report_facts who;
    size_t n;
    ls_report_drop *drops;
} ls_report_ticket;

ls_report_ticket ls_report_ticket_of(ls_report_page *p, const ls_ticket_list *list,
                                     const ls_load *load);

/* One field of it. */
ls_report_drop ls_report_drop_of(ls_report_page *p, const ls_tickets *of, const ls_load *load,
                                 size_t k);
/* Counted from the planned day. A caution is told where the farm file's own limit is not as long.
 */
ls_report_wait_list ls_report_waits(const ls_view *v, const ls_earliest *e);
/* Its cautions as items of a list: "Cover the load: ... (ga-load)". */
ls_report_facts ls_report_take_care(ls_report_page *p, const ls_report_ticket *t);

/* N, P2O5 and K2O of a load's litter: a head, the contents of a ton, then what goes on an acre of
 * each field. Cells: words, then three numbers. */
enum { LS_CONTENT_CELLS = 4 };
typedef struct {
    const char *cells[LS_CONTENT_CELLS];
} ls_report_content;
typedef LS_LIST(ls_report_content) ls_report_contents;
ls_report_contents ls_report_contents_of(ls_report_page *p, const ls_report_ticket *t);
/* "by the report of ..., 2026-01-29" or "by published figures ...: no lab report". */
const char *ls_report_whose(ls_report_page *p, const ls_analysis *a);

/* The farm's name, place and permit, as far as they are given. */
const char *ls_report_farm_words(ls_report_page *p);

/* What stands below every slip, and below every ticket. */
extern const char *const ls_report_decide, *const ls_report_ticket_end;

/* What is filled in by hand, in lines of blanks: label, and what stands before each blank. */
enum { LS_MOST_BLANKS = 5 };
typedef struct {
    const char *label;
    const char *blanks[LS_MOST_BLANKS]; /* NULL at the end */
} ls_report_blanks;
/* Of a ticket by index, NULL past the end. */
const ls_report_blanks *ls_report_blanks_at(const ls_report_ticket *t, size_t index);

#endif
