/* The parts of making a plan of a farm, file by file. Private to the room. */
#pragma once

#include "planner.h"

/* gather.c: the farm in numbers. False: something is missing or wrong, noted in the farm's diag. */
bool ls_haul_gather(ls_haul_planner *p);
/* litter.c: tons of the lots at each stage; bound loads are there at the high stage. Of several
 * kinds of truck none before they have shares. */
void ls_haul_litter(ls_haul_planner *p);

/* kinds.c: which kind takes litter out of the stack; once times and rates are known, the share of
 * each, as lines too. */
void ls_haul_choose_stack_kind(ls_haul_planner *p);
void ls_haul_share_kinds(ls_haul_planner *p);

/* gone.c: what the haul log tells; and its litter in the stack as lots of their own. */
void ls_haul_number_lots(ls_haul_planner *p);
double ls_haul_stacked_tons(const ls_haul_planner *p);
/* Acres covered by what is gone, once the rates are known: taken off the fields'. */
void ls_haul_take_acres(ls_haul_planner *p);
/* What lies in the stack already, as promised to lie there, put into *to for a stage. */
void ls_haul_promise_stacked(const ls_haul_planner *p, int stage, ls_haul_promise *to);
/* Is the number in use, by a load that is gone? */
bool ls_haul_number_gone(const ls_haul_planner *p, size_t lot, long number, bool from_stack);
/* The first day of what is still to be done. */
ls_date ls_haul_first_day(const ls_haul_planner *p);

/* What the haul log leaves open, as notes: loads whose place it does not tell, slats
 * of lots that are hauled. Once the loads are listed. */
void ls_haul_say_open(ls_haul_planner *p);

/* handed_out.c: tickets that were handed out, once: those whose lot, buyer or field the files name
 * no more are recalled. */
void ls_haul_find_bound(ls_haul_planner *p);
/* So many tons on the drops of a bound load; false: too few for them, which take so many at least. */
bool ls_haul_bound_share(const ls_haul_planner *p, ls_haul_bound *b, double tons);
bool ls_haul_bound_whole(const ls_haul_planner *p, const ls_haul_bound *b);
/* A lot has one part load in the middle case and one more in the high one: is it that of a stage? */
bool ls_haul_is_bound_part(const ls_haul_planner *p, const ls_haul_bound *b, int stage);
double ls_haul_bound_least(const ls_haul_planner *p, const ls_haul_bound *b);
double ls_haul_bound_least_drop(const ls_haul_planner *p, const ls_haul_bound *b, size_t drop);
/* The lot in the stack of what bound loads of a lot of the estimate take there; p->lots: none. */
size_t ls_haul_bound_lot(const ls_haul_planner *p, size_t lot);

/* bound_room.c: so many tons on a bound load, or what its fields, its buyer's order or the stack
 * have room for of them, but no fewer than the least. Why it does not fit; NULL: it does. */
const char *ls_haul_bound_fit(ls_haul_planner *p, ls_haul_bound *b, double tons, double least);
/* What it takes of that room, sign 1, or gives back, -1. */
void ls_haul_bound_take(ls_haul_planner *p, const ls_haul_bound *b, int sign);
/* More tons on it, as far as there is room; never fewer. */
void ls_haul_bound_widen(ls_haul_planner *p, ls_haul_bound *b, double wish);
/* The room that bound loads leave which count at a stage, once it is settled with how many tons
 * each goes; -1: none counts. */
void ls_haul_bound_room(ls_haul_planner *p, int stage);
/* What the answer of a stage leaves of a lot goes on the lot's bound part load to a field, as far
 * as that has room: the lot gets no other. */
void ls_haul_bound_grow(ls_haul_planner *p, const ls_split *rest, int stage);

/* bound.c: in each round the tickets that stay beside so many full loads of slips ([lot in a
 * house]), with the tons they have now; the others are recalled. */
void ls_haul_bind(ls_haul_planner *p, const long *slips);

/* bound_sure.c: loads of slips that are neither gone nor bound (p->owed); false: there are none. */
bool ls_haul_bind_owed(ls_haul_planner *p);
/* How sure bound loads are: firm ones that were so before; then, once slips have got their loads (lot by lot, of the
 * sure ones that are left), the others; and what they leave. False: one more is recalled. */
void ls_haul_bind_firm(ls_haul_planner *p);
bool ls_haul_bind_others(ls_haul_planner *p, const long *promised);
/* The loads a lot is sure of, never more than its low stage holds. */
long ls_haul_sure_loads(const ls_haul_planner *p, size_t lot);

/* merge.c: an answer of the rest with the bound loads of its stage. */
const ls_split *ls_haul_merge(ls_haul_planner *p, const ls_split *rest, int stage);

/* numbers.c: the loads listed in the order in which they are served, each with its ticket; once
 * they have their days, those out of the stack; and what is recalled. */
void ls_haul_number(ls_haul_planner *p);
void ls_haul_number_out(ls_haul_planner *p);

/* stack_room.c: the room of the stack, and what a pile takes of it with its slopes. */
void ls_haul_stack_room(ls_haul_planner *p);
/* What it holds in so many piles, as a line; LS_NO_LINE: the file gives no stack with a roof. */
ls_line ls_haul_room_of_piles(ls_haul_planner *p, size_t piles);
/* Room that is taken: by what lies there by the log; by an answer; and its piles. */
double ls_haul_lies_there(const ls_haul_planner *p);
double ls_haul_stack_used(const ls_haul_planner *p, const ls_split *s);
/* Tons of the pile of a lot of the estimate. */
double ls_haul_in_pile(const ls_haul_planner *p, const ls_split *s, size_t lot);
size_t ls_haul_piles(const ls_haul_planner *p, const ls_split *s);
/* The piles of the middle case and what is left, once the loads have their days. */
void ls_haul_pile_lines(ls_haul_planner *p);

/* ranges.c: the days a lot's loads are expected on. Before anything is decided: all litter of the
 * high stage that could find room, the fastest way. False as ls_haul_days. */
bool ls_haul_first_ranges(ls_haul_planner *p);
/* Does every range hold the days its lot is hauled on? */
bool ls_haul_ranges_hold(const ls_haul_planner *p);
/* The ranges of the next round (0 ...): the days hauled on; in later rounds those and the days
 * before, at last all days hauling could fall on, so that this ends. False as ls_haul_days. */
bool ls_haul_next_ranges(ls_haul_planner *p, int round);

/* stages.c: split firm loads, then the litter of the three stages. */
void ls_haul_stages(ls_haul_planner *p);
/* [lot] Is the part load of the stage bound? */
const bool *ls_haul_bound_parts(const ls_haul_planner *p, int stage);

/* problem.c: what the split is asked, its tons and promises aside; by the plan's aim, or by money. */
ls_split_problem ls_haul_problem(const ls_haul_planner *p);
ls_split_problem ls_haul_money_problem(const ls_haul_planner *p);
/* The same of what bound loads leave. */
ls_split_problem ls_haul_rest_problem(const ls_haul_planner *p);
/* Tons and loads that an answer brings each buyer, added to those; with these, does one get the most it ordered? */
void ls_haul_count(const ls_haul_planner *p, const ls_split *s, double *tons, long *loads);
bool ls_haul_order_full(const ls_split_problem *q, size_t buyer, double tons, long loads);
/* Room of the stack at a stage, for what the rest holds of lots in the stack too. */
double ls_haul_rest_room(const ls_haul_planner *p, int stage);
double ls_haul_smallest_drop(const ls_haul_planner *p); /* ton */
bool ls_haul_has_window(const ls_field *f);
/* When a field can be reached from a lot by way of the stack: the first day; LS_NO_DATE: it cannot. */
ls_date ls_haul_later(const ls_haul_planner *p, size_t lot, const ls_field *f);
/* The same from that day on. */
ls_date ls_haul_later_from(const ls_haul_planner *p, ls_date day, const ls_field *f);

/* listing.c: loads with their certainty; no tickets and no days yet. */
void ls_haul_list(ls_haul_planner *p);
/* pass.c: while a load waits for a truck that is out, others of its lot, as sure and as full, go
 * before it on another kind. */
void ls_haul_pass(ls_haul_planner *p);
/* schedule.c: days of the loads listed. False as ls_haul_days. */
bool ls_haul_schedule(ls_haul_planner *p);
/* Bound loads of a kind that is out until the others are done (p->away), for which the loader
 * would do nothing for a working day, are recalled, and all of the kind after them. False: none. */
bool ls_haul_recall_waiting(ls_haul_planner *p);
/* Bound loads that the calendar puts on a day on which a field is closed are recalled. False: there are none. */
bool ls_haul_recall_outside(ls_haul_planner *p);
/* The first load that lies outside of its field's window; NULL: none. */
const ls_load *ls_haul_outside(const ls_haul_planner *p);

/* standby.c: another field for each load that is not firm, once all loads are listed. */
void ls_haul_stand_by(ls_haul_planner *p);
/* unused.c: why fields get nothing and orders not their least. */
void ls_haul_tell_unused(ls_haul_planner *p);
/* Why no litter may go on a field, in the words of the rates; NULL: that of some lot may. */
const char *ls_haul_no_rate(ls_haul_planner *p, size_t field);
/* relief.c: which single limit would help litter without a home, and what those of the program's
 * own keep without one, found by splitting again. */
void ls_haul_relieve(ls_haul_planner *p);
/* empty.c: when the houses would be empty if all litter had a field; after the workdays. */
void ls_haul_empty_houses(ls_haul_planner *p);
/* goals.c: the goals, the room of the stack and the days as lines, once money has its own. */
void ls_haul_goal_lines(ls_haul_planner *p);
/* What an answer brings in by a problem's money. */
double ls_haul_worth_of(const ls_split_problem *q, const ls_split *s);

/* lines.c and money.c: every figure of the plan as a line. */
void ls_haul_lines(ls_haul_planner *p);
void ls_haul_money(ls_haul_planner *p);
/* break_even.c: how far litter may go to each buyer before it costs more than it is worth there; after money. */
void ls_haul_break_even(ls_haul_planner *p);

/* ---- how long things take on a farm, and the calendar they fall on ---- */

/* loading.c: loading a truck, as lines, once for each house; then the time for so many tons. */
void ls_haul_loading(ls_haul_planner *p, size_t lot);
ls_sim_time ls_haul_load_time(const ls_haul_planner *p, size_t lot, double tons);

/* pace.c: how long things take, as lines; fills the planner's clock but for its days. */
void ls_haul_times(ls_haul_planner *p);
/* A full load of a lot to a field; LS_HAUL_TO_STACK: to the stack. */
#define LS_HAUL_TO_STACK SIZE_MAX
ls_sim_job ls_haul_full_trip(const ls_haul_planner *p, size_t lot, size_t field);
/* A load of an answer of the split, straight from the house. */
ls_sim_job ls_haul_trip_of(const ls_haul_planner *p, const ls_split *s, const ls_split_load *l);

/* calendar.c: the working days from the crew's first on, and what is out in their hours. */
enum { LS_HAUL_MOST_DAYS = 3650 };
void ls_haul_calendar(ls_haul_planner *p);
/* The day a lot can be begun on: the crew is there and the last flock has left. */
ls_date ls_haul_empty(const ls_haul_planner *p, size_t lot);
/* A second of a day as working time: of the night the end or beginning of a day. */
ls_sim_time ls_haul_work_time(const ls_haul_planner *p, ls_date day, ls_sim_time second);
/* When something begins, or ends: the end of a day belongs to that day. */
ls_moment ls_haul_moment(const ls_haul_planner *p, ls_sim_time t);
ls_moment ls_haul_moment_end(const ls_haul_planner *p, ls_sim_time t);

/* days.c */
/* Loads of a lot are gone: its slats are off. */
bool ls_haul_is_begun(const ls_haul_planner *p, size_t lot);
/* The farm's trucks, [kind]. */
size_t *ls_haul_fleet(const ls_haul_planner *p);
/* Simulate trips with so many trucks, [kind]; run keeps them. False: it takes too long. */
bool ls_haul_simulate(const ls_haul_planner *p, const ls_haul_trip *trips, size_t n, const size_t *fleet,
                      ls_haul_run *run);
/* Give every lot the days it is hauled on. False: it takes too long. run may be NULL. */
bool ls_haul_days(ls_haul_planner *p, const ls_haul_trip *trips, size_t n, ls_haul_range *days, ls_haul_run *run);
/* The hours of the days of a run; the days on which anything is done. */
ls_sim_hours *ls_haul_hours(const ls_haul_planner *p, const ls_haul_run *run, size_t *days);
long ls_haul_worked_days(const ls_haul_planner *p, const ls_haul_run *run);

/* workdays.c: what is done on each day, once loads have lines. */
void ls_haul_workdays(ls_haul_planner *p);
/* orders.c: another order of the houses and sides, once the days have lines. */
void ls_haul_orders(ls_haul_planner *p);
/* fleet.c: other numbers of trucks, once the days have lines; which of them serves best. */
void ls_haul_fleets(ls_haul_planner *p);
/* legal.c: the truck's weights against federal limits. */
void ls_haul_weights(ls_haul_planner *p);
