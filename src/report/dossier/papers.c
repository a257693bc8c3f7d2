/* The list of papers that go with the records, with their dates. */
#include "chapters.h"

#include "report/put.h"

LS_DOC_COLUMNS(paper_columns, WORDS("paper", "paper"), WORDS("of", "of"), WORDS("by", "by"), WORDS("date", "date"),
               WORDS("kept", "kept"));
LS_DOC_COLUMNS(field_columns, DATA("field"), HEAD("field"), WORDS("tract", "tract"),
               WORDS("soil_report", "soil report"), WORDS("method", "method"), WORDS("rated", "phosphorus rated"),
               WORDS("rated_by", "by"));

static void reports(ls_doc_table t, const char *of, const ls_lab_list *list) {
    for (size_t i = 0; i < list->n; i++)
        LS_DOC_ROW(t, paper_columns, W(ls_attached_name(LS_ATTACHED_LITTER)), W(of), W(list->at[i].by.text),
                   GIVEN_DAY(list->at[i].date), W(NULL));
}

static void papers(ls_doc_group *g, const ls_dossier *d) {
    const ls_farm_facts *facts = ls_dossier_facts(d);
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "papers", "Papers", paper_columns);
    if (facts->plan != NULL)
        LS_DOC_ROW(t, paper_columns, W(ls_attached_name(LS_ATTACHED_PLAN)), W("the farm"), W(facts->plan->by.text),
                   GIVEN_DAY(facts->plan->date), W(facts->plan->on_site.yes ? "on the farm" : NULL));
    if (facts->permit.text != NULL)
        LS_DOC_ROW(t, paper_columns, W(ls_attached_name(LS_ATTACHED_PERMIT)), W(facts->permit.text), W(NULL), W(NULL),
                   W(NULL));
    LS_EACH (const ls_house, h, d->farm->houses) {
        reports(t, h->name.text, &h->lab);
        for (size_t k = 0; k < h->sides.n; k++)
            reports(t, ls_arena_printf(d->arena, "%s/%s", h->name.text, h->sides.at[k].name.text), &h->sides.at[k].lab);
    }
    LS_EACH (const ls_attached_paper, p, facts->papers)
        LS_DOC_ROW(t, paper_columns, W(ls_attached_name(p->paper.is)), W(p->of.text), W(NULL), GIVEN_DAY(p->date),
                   W(p->kept.text));
}

/* Fields that lack something. */
typedef struct {
    ls_report_list tract, soil;
} lacking;

static lacking fields(ls_doc_group *g, const ls_dossier *d) {
    static const ls_soil no_soil;
    static const ls_phosphorus unrated;
    lacking out = {0};
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "fields", "Papers of each field", field_columns);
    for (size_t i = 0; i < d->fields.n; i++) {
        const ls_field *f = d->fields.at[i].field;
        const char *name = ls_dossier_name(d->arena, d->fields.at[i].buyer, f);
        const ls_soil *soil = f->soil != NULL ? f->soil : &no_soil;
        const ls_phosphorus *p = f->phosphorus != NULL ? f->phosphorus : &unrated;
        if (f->tract.text == NULL) *LS_PUSH(d->arena, &out.tract) = name;
        if (f->soil == NULL) *LS_PUSH(d->arena, &out.soil) = name;
        LS_DOC_ROW(t, field_columns, W(name), LINK(W(ls_dossier_field_title(d, i)), ls_dossier_field_id(d, i)),
                   W(f->tract.text), GIVEN_DAY(soil->date), W(soil->method.text), GIVEN_DAY(p->date),
                   W(p->rated_by.text));
    }
    return out;
}

static bool has(const ls_farm_facts *facts, ls_attached paper) {
    for (size_t i = 0; i < facts->papers.n; i++)
        if (facts->papers.at[i].paper.is == (int)paper) return true;
    return false;
}

void ls_report_dossier_papers(ls_doc_group *top, const ls_dossier *d) {
    const ls_farm_facts *facts = ls_dossier_facts(d);
    ls_doc_group *g = ls_doc_object(top, LS_FULL, "attached", NULL);
    papers(g, d);
    lacking of = fields(g, d);
    ls_doc_table t = ls_dossier_put_missing(g);
    ls_dossier_missing(t, facts->plan != NULL, "the nutrient management plan", "farm",
                       "plan: {on_site: yes, by: county plan writer, date: 2025-10-30}");
    ls_dossier_missing(t, facts->permit.text != NULL, "the permit", "farm", "permit: none");
    ls_dossier_missing(t, has(facts, LS_ATTACHED_MAP), "maps of the fields", "farm",
                       "papers: [{paper: map, of: all fields, date: 2025-10-30}]");
    ls_dossier_missing(t, of.tract.n == 0, "tract numbers", ls_report_named(d->arena, &of.tract),
                       "tract: 1482 field 3");
    ls_dossier_missing(t, of.soil.n == 0, "soil reports", ls_report_named(d->arena, &of.soil),
                       "soil: {date: 2025-10-14, method: Mehlich-1, P: 34 lb/ac, K: 160 lb/ac}");
}
