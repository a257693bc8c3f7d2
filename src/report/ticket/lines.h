/* ticket_lines: figures that only tickets need, as lines of the worksheet. Private to this room. */
#ifndef REPORT_TICKET_LINES_H
#define REPORT_TICKET_LINES_H

#include "littershed/report.h"

/* What all tickets share. */
#define LS_TICKET_SWATH "ticket.the-swath"         /* width the truck spreads */
#define LS_TICKET_TARP_SIDE "ticket.tarp-side"     /* of the square tarp that is laid out */
#define LS_TICKET_TARP_FACTOR "ticket.tarp-factor" /* 1 lb/ft2, in ton/ac */
#define LS_TICKET_TARP_METRIC "ticket.tarp-metric" /* 1 kg/m2, in tonne/ha */
ls_line ls_report_shared_line(const ls_view *v, const char *key);

/* Of a load: "buckets" (whole ones of the loader that make it), "bucket" (tons in one). Of drop k
 * of it (from 0): "run" (the way spreading), "passes" (the run in lengths of the field), "tarp"
 * (net weight of litter on the tarp when the rate is right), "N", "P2O5", "K2O" (on an acre).
 * LS_NO_LINE: not known. */
ls_line ls_report_load_line(const ls_view *v, const ls_load *load, const char *what);
ls_line ls_report_drop_line(const ls_view *v, const ls_load *load, size_t k, const char *what);

/* One way to a buyer. */
ls_line ls_report_distance_line(const ls_view *v, const ls_buyer *b);

/* When what may come on the field of drop k after the planned day, the days as lines. */
ls_earliest ls_report_earliest_after(const ls_view *v, const ls_load *load, size_t k);

/* The length of a pass on the field. */
ls_line ls_report_length_line(const ls_view *v, const ls_drop *drop);

#endif
