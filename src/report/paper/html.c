/* Papers as a document to be printed. */
#include "paper.h"

#include <string.h>

static const char common[] = "*{box-sizing:border-box}"
                             "html{color:#000;background:#fff;font:9.5pt/1.2 Arial,Helvetica,sans-serif}"
                             "body{margin:0}"
                             "h1,h2,h3,p,ul{margin:0;padding:0}"
                             "h1,h2,h3,p,li{overflow-wrap:anywhere}"
                             "li{list-style:none;position:relative;padding-left:1em}"
                             "li::before{content:'\\2022';position:absolute;left:0}"
                             ".lead{font-size:14pt;line-height:1.1}"
                             ".lead p,.fact p{display:flex;gap:.4em;break-inside:avoid}"
                             ".lead b{min-width:5.6em;white-space:nowrap}.fact b,.blanks b{flex:0 0 5em}"
                             "h1{font-size:14pt;margin-bottom:.1in}.d{white-space:nowrap}"
                             "h2{display:flex;flex-wrap:wrap;justify-content:space-between;gap:0 1em;font-size:11pt;"
                             "border:solid #000;border-width:1px 0;margin:.02in 0}"
                             "h3{font-size:9.5pt;line-height:1.1;border-bottom:1px solid #000;margin:.03in 0 .01in}"
                             ".box{border:2px solid #000;padding:.01in .06in;margin-bottom:.02in;font-weight:bold}"
                             ".blanks p{display:flex;gap:.8em;align-items:flex-end;height:.19in}"
                             ".blanks span{flex:1;display:flex;gap:.3em;align-items:flex-end;white-space:nowrap}"
                             ".blank{flex:1;border-bottom:1px solid #000}"
                             "@media screen{body{max-width:7.7in;margin:1em auto;padding:0 1em}}"
                             "@media print{h1{display:none}}";

/* A ticket takes at least half a page (10.5 in) and is never broken: two to a page, and one that
 * needs more than half stands whole on a page of its own. */
static const char tickets[] = "@page{size:letter portrait;margin:.25in .4in}"
                              ".ticket{min-height:5.23in;padding:.04in 0;break-inside:avoid;display:flex;"
                              "flex-direction:column;border-bottom:1px dashed #000;font-size:9pt;line-height:1.1}"
                              ".lead{display:flex;flex-wrap:wrap;gap:0 .3in}"
                              ".fact,.item{columns:2;column-gap:.15in}"
                              ".item li{break-inside:avoid}"
                              ".blanks{margin-top:auto}.end{margin-top:.02in}";

static const char slips[] = "@page{size:letter portrait;margin:.6in .7in}"
                            ".slip{break-after:page;font-size:11pt;line-height:1.3}"
                            ".slip:last-of-type{break-after:auto}"
                            ".slip h2{font-size:12pt}.slip h3{font-size:11pt;margin-top:.2in}"
                            ".lead{font-size:15pt}.blanks p{height:.5in}.slip .blanks b{flex-basis:7em}"
                            ".end{font-size:9pt;margin-top:.4in}";

/* A phone shows what a page prints in one column, in letters of its own size. */
static const char phone[] = "@media(max-width:40rem){html,.ticket{font-size:11pt;line-height:1.25}"
                            ".fact,.item{columns:1}.lead{display:block;font-size:13pt}.ticket .lead b{min-width:4.4em}"
                            ".blanks p{flex-wrap:wrap;height:auto;margin:.4em 0}.blanks span{flex:1 0 40%}}";

/* Lines of one rank stand in one element, each in one of its own. */
static const struct {
    const char *class, *group, *element;
} ranks[LS_PAPER_RANKS] = {
    [LS_PAPER_LEAD] = {"lead", "div", "p"},   [LS_PAPER_NAME] = {NULL, NULL, "h2"},
    [LS_PAPER_BOX] = {"box", "div", "p"},     [LS_PAPER_FACT] = {"fact", "div", "p"},
    [LS_PAPER_HEAD] = {NULL, NULL, "h3"},     [LS_PAPER_ITEM] = {"item", "ul", "li"},
    [LS_PAPER_WORDS] = {"words", "div", "p"}, [LS_PAPER_BLANKS] = {"blanks", "div", "p"},
    [LS_PAPER_END] = {"end", "div", "p"},
};

/* What holds a hyphen, a date or the name of a source, stays in one piece, unless it is long. */
static const char *whole(ls_arena *a, const char *words) {
    enum { LONGEST = 24 };
    ls_text *t = ls_text_new(a);
    while (*words != '\0') {
        size_t n = strcspn(words, " "), blanks = strspn(words + n, " ");
        const char *word = ls_arena_copy_n(a, words, n);
        bool keep = n <= LONGEST && strchr(word, '-') != NULL && n > 1;
        ls_text_addf(t, keep ? "<span class=\"d\">%s</span>" : "%s", ls_text_html(a, word));
        ls_text_add_n(t, words + n, blanks);
        words += n + blanks;
    }
    return t->s;
}

static void inside(ls_report_page *p, const ls_paper_line *l) {
    const char *element = l->rank == LS_PAPER_NAME ? "span" : "b";
    if (l->label != NULL) ls_text_addf(p->text, "<%s>%s</%s> ", element, ls_text_html(p->arena, l->label), element);
    if (l->words != NULL) ls_text_addf(p->text, l->label == NULL ? "%s" : "<span>%s</span>", whole(p->arena, l->words));
    for (size_t k = 0; l->blanks != NULL && l->blanks[k] != NULL; k++)
        ls_text_addf(p->text, "<span>%s<span class=\"blank\">&nbsp;</span></span>",
                     ls_text_html(p->arena, l->blanks[k]));
}

static void paper(ls_report_page *p, const ls_paper *is, const char *kind, size_t number) {
    ls_text_addf(p->text, "<section class=\"%s\" aria-labelledby=\"t%zu\">\n", kind, number);
    for (size_t i = 0; i < is->lines.n; i++) {
        const ls_paper_line *l = &is->lines.at[i];
        const char *group = ranks[l->rank].group, *element = ranks[l->rank].element;
        if (group != NULL && (i == 0 || l[-1].rank != l->rank))
            ls_text_addf(p->text, "<%s class=\"%s\">\n", group, ranks[l->rank].class);
        ls_text_addf(p->text, "<%s", element);
        if (l->rank == LS_PAPER_NAME) ls_text_addf(p->text, " id=\"t%zu\"", number);
        ls_text_add(p->text, ">");
        inside(p, l);
        ls_text_addf(p->text, "</%s>\n", element);
        if (group != NULL && (i + 1 == is->lines.n || l[1].rank != l->rank)) ls_text_addf(p->text, "</%s>\n", group);
    }
    ls_text_add(p->text, "</section>\n");
}

const char *ls_papers_html(const ls_view *v, const ls_papers *all, const char *title, const char *kind) {
    ls_report_page p = {v, v->arena, ls_text_new(v->arena)};
    ls_text_addf(p.text,
                 "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
                 "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
                 "<title>%s</title>\n<style>%s%s%s</style>\n</head>\n<body>\n<main>\n"
                 "<h1>%s of %s</h1>\n",
                 title, common, kind[0] == 't' ? tickets : slips, phone, title,
                 ls_text_html(v->arena, ls_paper_farm(&p)));
    for (size_t i = 0; i < all->n; i++) paper(&p, &all->at[i], kind, i + 1);
    ls_text_add(p.text, "</main>\n</body>\n</html>\n");
    return p.text->s;
}
