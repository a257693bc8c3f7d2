/* Tickets and slips of a plan handed out for another one, without a log; and whether one that is
 * recalled could have stayed. */
#pragma once

#include "plan_rules.h"

/* The load at i: those from houses first. */
const ls_load *bound_load(const ls_plan *p, size_t i);

/* Loads of the first days are gone as planned; of the others one of so many was handed out
 * (BOUND_NONE: none), and to each buyer a slip for his firm loads. now is read, not planned yet. */
enum { BOUND_NONE = 100 };
void bound_hand_out(const plan_rules *was, plan_rules *now, int days, unsigned one_of, uint64_t *state);

/* All that a plan with tickets handed out newly says is handed out too, for the same farm read
 * again. */
void bound_hand_out_rest(const plan_rules *was, plan_rules *now);

/* Does a ticket break a limit beside those that stay? */
bool bound_is_broken(const plan_rules *t, const ls_issued *ticket);
