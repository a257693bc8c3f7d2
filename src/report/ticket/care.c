/* Which cautions stand on a ticket, in a driver's words. */
#include "ticket.h"
#include "report/caution.h"

static void caution(ls_report_page *p, ls_report_reminder_list *list, const char *name) {
    ls_report_caution c = ls_report_caution_of(p->view, name);
    if (c.driver == NULL)
        ls_fail("the table of cautions has no words for drivers of %s", name);
    *LS_PUSH(p->arena, list) = (ls_caution){name, c.driver, c.source};
}

/* A reminder of the table of rules, which begins with a small letter and has no full stop. */
static void rule(ls_report_page *p, ls_report_reminder_list *list, const char *name,
                 const char *id) {
    const ls_row *row = ls_table_row(ls_reference_table(p->view->reference, "rule", ""), name);
    const char *words = ls_row_word(row, "text");
    if (words == NULL)
        ls_fail("the table of rules has no row %s", name);
    bool small = words[0] >= 'a' && words[0] <= 'z';
    const char *sentence = ls_arena_printf(
        p->arena, "%c%s.", small ? (char)(words[0] - 'a' + 'A') : words[0], words + 1);
    *LS_PUSH(p->arena, list) = (ls_caution){
        id, sentence, row->source == NULL ? ls_status_words(LS_PRACTICE) : row->source->id};
}

ls_report_reminder_list ls_report_reminders(ls_report_page *p, const ls_load *load) {
    ls_report_reminder_list list = {0};
    bool to_field = load->buyer != NULL;
    if (to_field)
        caution(p, &list, "covered_load");
    caution(p, &list, "raised_bed");
    if (!load->from_stack)
        caution(p, &list, "ammonia");
    caution(p, &list, "dust");
    caution(p, &list, "carcasses");
    if (!to_field || load->from_stack)
        caution(p, &list, "stack_fire");
    if (to_field)
        rule(p, &list, "sheep", "sheep");
    rule(p, &list, "no litter as feed", "no_feed");
    return list;
}

ls_report_facts ls_report_reminder_facts(ls_report_page *p, const ls_report_reminder_list *list) {
    ls_report_facts facts = {0};
    for (size_t i = 0; i < list->n; i++)
        ls_report_fact_add(
            p, &facts, NULL,
            ls_arena_printf(p->arena, "%s (%s)", list->at[i].text, list->at[i].source));
    return facts;
}
