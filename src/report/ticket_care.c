/* Which cautions stand on a ticket, in a driver's words. */
#include "ticket.h"

static void caution(ls_report_page *p, ls_report_facts *facts, const char *name) {
    const ls_row *row = ls_table_row(ls_reference_by_id(p->view->reference, "caution"), name);
    const char *words = ls_row_word(row, "driver");
    if (words == NULL)
        ls_fail("the table of cautions has no words for drivers of %s", name);
    const char *who = row->source == NULL ? ls_status_words(LS_PRACTICE) : row->source->id;
    ls_report_fact_add(p, facts, NULL, ls_arena_printf(p->arena, "%s (%s)", words, who));
}

/* A reminder of the table of rules, which begins small and has no full stop. */
static void rule(ls_report_page *p, ls_report_facts *facts, const char *name) {
    const ls_row *row = ls_table_row(ls_reference_table(p->view->reference, "rule", ""), name);
    const char *words = ls_row_word(row, "text");
    if (words == NULL)
        ls_fail("the table of rules has no row %s", name);
    const char *who = row->source == NULL ? ls_status_words(LS_PRACTICE) : row->source->id;
    bool small = words[0] >= 'a' && words[0] <= 'z';
    ls_report_fact_add(p, facts, NULL,
                       ls_arena_printf(p->arena, "%c%s (%s)",
                                       small ? (char)(words[0] - 'a' + 'A') : words[0], words + 1,
                                       who));
}

ls_report_facts ls_report_reminders(ls_report_page *p, const ls_load *load) {
    ls_report_facts facts = {0};
    bool to_field = load->buyer != NULL;
    if (to_field)
        caution(p, &facts, "covered_load");
    caution(p, &facts, "raised_bed");
    if (!load->from_stack)
        caution(p, &facts, "ammonia");
    caution(p, &facts, "dust");
    caution(p, &facts, "carcasses");
    if (!to_field || load->from_stack)
        caution(p, &facts, "stack_fire");
    if (to_field)
        rule(p, &facts, "sheep");
    rule(p, &facts, "no litter as feed");
    return facts;
}
