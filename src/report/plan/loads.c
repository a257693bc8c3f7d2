/* Load by load: where each goes and when, straight or by way of the stack. */
#include "parts.h"

/* ---- out of the houses ---- */

/* The last one stands there if there are several kinds of truck. */
LS_DOC_COLUMNS(load_columns, WHOLE("ticket", "ticket"), HEAD("for"), IN("tons", NULL, "ton"),
               WORDS("certainty", "sure"), NUMBER("truck", "truck"), NUMBER("start", "load"), NUMBER("there", "there"),
               DATA("back"), DATA("lot"), DATA("to"), DATA("buyer"), DATA("day"), DATA("leave"), DATA("empty"),
               DATA("drops"), DATA("standby"), DATA("issued"), WORDS("truck_name", "called"));

static const ls_doc_group *drops(ls_doc_group *g, const ls_load *load) {
    ls_doc_group *list = ls_doc_loose_list(g);
    for (size_t i = 0; i < load->n; i++) {
        ls_doc_group *one = ls_doc_object(list, LS_DATA, NULL, NULL);
        MEMBERS(one, {"field", W(load->drops[i].field->name.text)}, {"tons", F(load->drops[i].tons, "ton")},
                {"acres", F(load->drops[i].acres, "ac")}, {"ton_per_ac", F(load->drops[i].rate, "ton/ac")});
    }
    return list;
}

/* "Larkspur Hay, Upper Meadow", with what each field gets if there are several. */
static ls_doc_cell place(const ls_document *d, const ls_load *load) {
    if (load->buyer == NULL) return W("the stack");
    ls_doc_cell words = W(load->buyer->name.text);
    for (size_t i = 0; i < load->n; i++) {
        const ls_drop *drop = &load->drops[i];
        ls_doc_cell field = W(drop->field->name.text);
        words = ls_doc_keep(d, load->n == 1
                                   ? T("{}, {}", words, field)
                                   : T("{}{} {} on {} ({} at {})", words, W(i == 0 ? ":" : ";"), F(drop->tons, "ton"),
                                       field, F(drop->acres, "ac"), F(drop->rate, "ton/ac")));
    }
    return load->standby == NULL
               ? words
               : KEPT(d, "{}. Standby: {}, {}", words, W(load->standby_buyer->name.text), W(load->standby->name.text));
}

/* A time of the load's day, or of a later one. */
static ls_doc_cell at(const ls_load *load, ls_moment m) {
    ls_doc_cell cell = ls_doc_moment(m);
    return cell.day == load->day ? BARE(cell) : cell;
}

/* As record --truck knows it. */
static const char *called(const ls_document *d, const ls_load *load) {
    const ls_truck *truck = &d->view->farm->trucks.at[load->kind];
    return load->number < 1 ? truck->name.text : ls_farm_truck_called(d->arena, truck, load->number);
}

static void load_row(ls_doc_table t, const ls_load *load) {
    ls_doc_group *g = t.group;
    LS_DOC_ROW(t, load_columns, W(load->ticket), place(g->document, load), L(load->tons),
               W(ls_certainty_name(load->certainty)), N(load->number), at(load, load->start), at(load, load->there),
               at(load, load->back), W(load->lot->name), W(load->buyer == NULL ? "stack" : "field"),
               W(load->buyer == NULL ? NULL : load->buyer->name.text), DAY(load->day), ls_doc_moment(load->leave),
               ls_doc_moment(load->emptied), G(drops(g, load)),
               load->standby == NULL
                   ? W(NULL)
                   : G(OBJECT(g, {"buyer", W(load->standby_buyer->name.text)}, {"field", W(load->standby->name.text)})),
               load->issued == NULL ? W(NULL) : N(load->issued->log_entry), W(called(g->document, load)));
}

static void day_words(ls_doc_table t, const ls_workday *day) {
    ls_doc_words_in(t, LS_FULL,
                    day->loads == 0 ? T("{}: no loads. {}", DAY(day->day), W(day->work))
                                    : T("{}: {} in {} load{}. {}", DAY(day->day), F(day->tons, "ton"), N(day->loads),
                                        W(day->loads == 1 ? "" : "s"), W(day->work)));
}

static bool any_standby(const ls_plan *plan) {
    for (size_t i = 0; i < plan->loads_n; i++)
        if (plan->loads[i].standby != NULL) return true;
    return false;
}

void ls_report_put_loads(ls_doc_group *top, const ls_plan *plan) {
    ls_doc_group *g = ls_doc_object(top, LS_FULL, NULL, "LOADS DAY BY DAY");
    size_t columns = sizeof load_columns / sizeof *load_columns - (plan->kinds == NULL);
    ls_doc_table t = ls_doc_table_in(g, LS_FULL, "loads", NULL, load_columns, columns);
    for (size_t d = 0; d < plan->days_n; d++) {
        day_words(t, &plan->days[d]);
        for (size_t i = 0; i < plan->loads_n; i++)
            if (ls_load_counted(&plan->loads[i]) && plan->loads[i].day == plan->days[d].day)
                load_row(t, &plan->loads[i]);
    }
    if (plan->high_finish != LS_NO_DATE)
        ls_doc_words_in(
            t, LS_FULL,
            T("Possible loads, if there is that much litter: all done by {}.", ls_doc_moment(plan->high_ends)));
    for (size_t i = 0; i < plan->loads_n; i++)
        if (!ls_load_counted(&plan->loads[i])) load_row(t, &plan->loads[i]);
    if (plan->loads_n == 0) SAY(g, LS_FULL, "No load is to be hauled out of the houses.");
    if (any_standby(plan))
        SAY(g, LS_FULL,
            "Standby: a field with room kept for that load alone, should its own field not be fit "
            "that day. Ask the buyer first. Firm loads stay where they are.");
}

/* ---- the stack ---- */

LS_DOC_COLUMNS(out_columns, WHOLE("ticket", "ticket"), HEAD("for"), IN("tons", NULL, "ton"), WORDS("certainty", "sure"),
               WORDS("from", "not before"), DATA("buyer"), DATA("field"), DATA("issued"));

/* Trips out of the stack with litter of this lot, a row for each field. */
static void out_of_stack(ls_doc_group *g, const ls_plan *plan, const ls_lot *lot) {
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "out", NULL, out_columns);
    LS_EACH_OF (const ls_load, load, plan->out, plan->out_n) {
        for (size_t k = 0; load->lot == lot && k < load->n; k++) {
            ls_doc_cell buyer = W(load->drops[k].buyer->name.text), field = W(load->drops[k].field->name.text);
            LS_DOC_ROW(t, out_columns, W(load->ticket), T("{}, {}", buyer, field), L(load->drops[k].tons),
                       W(ls_certainty_name(load->certainty)), DAY(load->from), buyer, field,
                       load->issued == NULL ? W(NULL) : N(load->issued->log_entry));
        }
    }
}

static bool comes_out(const ls_plan *plan, const ls_lot *lot) {
    for (size_t i = 0; i < plan->out_n; i++)
        if (plan->out[i].lot == lot) return true;
    return false;
}

static void lots(ls_doc_group *g, const ls_plan_sums *s) {
    ls_doc_group *list = ls_doc_list(g, LS_FULL, "stack", NULL);
    for (size_t i = 0; i < s->estimate->n; i++) {
        const ls_lot *lot = &s->estimate->lots[i];
        ls_line in = s->stacked[i];
        if (in == LS_NO_LINE && !comes_out(s->plan, lot)) continue;
        ls_doc_group *one = ls_doc_object(list, LS_FULL, NULL, lot->name);
        ls_doc_data(one, "lot", W(lot->name));
        ls_doc_fact(one, LS_FULL, "in_tons", "Into the stack", in == LS_NO_LINE ? V(0, "ton") : F(in, "ton"));
        out_of_stack(one, s->plan, lot);
    }
}

LS_DOC_COLUMNS(pile_columns, NUMBER("reload", "reload"), WORDS("lot", "pile"), IN("tons", NULL, "ton"),
               IN("length_feet", "of the shed", "ft"), IN("left_tons", "room left", "ton"),
               WORDS("first_out", "first out"), WORDS("last_out", "last out"));

static ls_doc_cell out_day(ls_date day) { return day == LS_NO_DATE ? W("-") : DAY(day); }

/* A pile that may go before one that stands in front of it is gone. */
static void in_the_way(ls_doc_group *g, const ls_plan *plan) {
    for (size_t k = 1; k < plan->piles.n; k++)
        for (size_t i = 0; i < k; i++) {
            const ls_pile *front = &plan->piles.at[i], *back = &plan->piles.at[k];
            if (back->first == LS_NO_DATE || (front->last != LS_NO_DATE && front->last <= back->first)) continue;
            SAY(g, LS_FULL,
                "{} may go out from {}, but {} lies in front of it {}{}: haul {} in last, or keep "
                "a way past.",
                W(back->lot->name), DAY(back->first), W(front->lot->name),
                W(front->last == LS_NO_DATE ? "and stays" : "until "),
                front->last == LS_NO_DATE ? W("") : DAY(front->last), W(back->lot->name));
            return;
        }
}

static void piles(ls_doc_group *g, const ls_plan *plan) {
    bool any = plan->piles.n > 0 && plan->stack_left != LS_NO_LINE;
    ls_doc_table t = LS_DOC_TABLE_IN(g, any ? LS_FULL : LS_DATA, "piles", NULL, pile_columns);
    for (size_t k = 0; k < plan->piles.n; k++) {
        const ls_pile *pile = &plan->piles.at[k];
        LS_DOC_ROW(t, pile_columns, N(k + 1), W(pile->lot->name), L(pile->tons), L(pile->length), L(plan->stack_left),
                   out_day(pile->first), out_day(pile->last));
    }
    if (any)
        SAY(g, LS_FULL,
            "Lots lie apart: each pile slopes at both ends, the first one leans on the back wall. "
            "Last in, first out: reload 1 lies nearest the door. The piles share the room left; "
            "another pile's slopes take {} of it.",
            F(plan->another_pile, "ton"));
    in_the_way(g, plan);
}

void ls_report_put_stack(ls_doc_group *top, const ls_plan_sums *s) {
    const ls_plan *plan = s->plan;
    bool any = plan->out_n > 0 || s->before != LS_NO_LINE;
    size_t n = plan->piles.n > 0 ? plan->piles.n : 1;
    for (size_t i = 0; i < s->estimate->n; i++) any = any || s->stacked[i] != LS_NO_LINE;
    ls_doc_group *g = ls_doc_object(top, any ? LS_FULL : LS_DATA, NULL, "THE STACK");
    ls_doc_level before = s->before != LS_NO_LINE ? LS_FULL : LS_DATA,
                 room = plan->stack_left != LS_NO_LINE ? LS_FULL : LS_DATA;
    FACTS(g, before, {"hauled_into_stack_tons", "Hauled into it already, by the haul log", F(s->before, "ton")},
          {"in_stack_tons", "still there", s->still_stacked == LS_NO_LINE ? V(0, "ton") : F(s->still_stacked, "ton")});
    FACTS(g, room,
          {"stack_room_tons", ls_arena_printf(g->document->arena, "Holds in %zu pile%s", n, n == 1 ? "" : "s"),
           F(plan->stack_room, "ton")},
          {"stack_left_tons", "Room left in the likely case", F(plan->stack_left, "ton")});
    piles(g, plan);
    lots(g, s);
    if (plan->out_n > 0) SAY(g, LS_FULL, "Each goes out of the stack once its field is open.");
}
