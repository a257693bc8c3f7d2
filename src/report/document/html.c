/* A document as HTML, in itself complete: no scripts, no network. Prints on letter paper, reads on a phone. */
#include "writers.h"

#include <string.h>

static const char style[] =
    "*{box-sizing:border-box}"
    "html{color:#111;background:#fff;font:16px/1.4 Arial,Helvetica,sans-serif}"
    "body{margin:0}main{max-width:60rem;margin:0 auto;padding:1rem}"
    "h1{font-size:1.6rem;line-height:1.2;margin:.2em 0}"
    "h2{font-size:1.3rem;border-bottom:2px solid #111;margin:2rem 0 .6rem}"
    "h3,h4{font-size:1.08rem;margin:1.4rem 0 .4rem}"
    "h1,h2,h3,h4,p,li,td,th,caption,figcaption{overflow-wrap:anywhere}"
    "p{margin:.4rem 0}ul{margin:.4rem 0;padding-left:1.2rem}"
    "a{color:#12395f;text-decoration:underline dotted}"
    ".unseen{position:absolute;left:-9999px}summary{cursor:pointer}"
    "#contents ul{columns:3 14rem;list-style:none;padding:0}"
    "nav ul{list-style:none;padding:0;display:flex;flex-wrap:wrap;gap:.2rem 1rem}"
    "pre{font-size:.8rem;line-height:1.25;overflow-x:auto}"
    ".lines{white-space:pre-wrap;overflow-wrap:anywhere}"
    "table{border-collapse:collapse;width:100%;margin:.6rem 0 1rem}"
    "caption{text-align:left;font-weight:bold;padding:.2rem 0}"
    "th,td{text-align:left;vertical-align:top;padding:.25rem .6rem .25rem 0;font-weight:normal;"
    "border-bottom:1px solid #767676}"
    "thead th,thead td{font-weight:bold;border-bottom:2px solid #111;overflow-wrap:normal}"
    ".n{text-align:right;white-space:nowrap}thead .n{white-space:normal}.d{white-space:nowrap}"
    ".two{width:auto;min-width:min(26rem,100%)}.two tbody th{min-width:7rem}"
    ".wide th,.wide td{min-width:4.5rem}.some{width:auto}"
    "figure{margin:.8rem 0 1.2rem}"
    ".drawn{display:inline-block;vertical-align:top;width:28rem;max-width:100%}"
    "svg{font-size:13.2px;display:block;width:100%;height:auto}"
    "svg text{fill:#111;stroke:#fff;stroke-width:5px;paint-order:stroke}"
    "figcaption{font-size:.95rem}"
    ".sheet{font-size:.85rem;padding:0}.sheet li{margin:.3rem 0 .3rem 3.2rem}.sheet code{font-size:1em}"
    ".tree{list-style:none;padding:0}.tree li{margin:.4rem 0}"
    "@media(max-width:45rem){.wide thead{position:absolute;left:-9999px}"
    ".wide,.wide caption,.wide tbody,.wide tr,.wide td,.wide tbody th{display:block;width:100%}"
    ".wide tr{border-bottom:2px solid #111;padding:.4rem 0}"
    ".wide td,.wide tbody th{min-width:0;border:0;padding:.1rem 0;text-align:left;"
    "white-space:normal}"
    ".wide tbody th{font-weight:bold}"
    ".wide td::before{content:attr(data-head)\": \";font-weight:bold}"
    ".wide td:empty{display:none}}"
    "@media print,(min-width:62rem){.drawn{width:44%;margin:.2rem 0 .4rem 0}"
    ".short:has(+.drawn){display:inline-table;vertical-align:top;width:auto;min-width:40%;"
    "max-width:54%;margin-right:1%}}"
    "@page{size:letter portrait;margin:.4in .6in .6in;font:7.5pt Arial,Helvetica,sans-serif;"
    "@bottom-left{width:45%;text-align:left}@bottom-right{width:55%;text-align:right}}"
    "@media "
    "print{html{font-size:9pt;line-height:1.25}main{padding:0;max-width:none}nav,.unseen,.foot{"
    "display:"
    "none}"
    "h1{margin:0}h2{margin:1rem 0 .3rem}h3,h4{margin:.5rem 0 .1rem}p{margin:.15rem 0}"
    "th,td{padding:.03rem .6rem .03rem 0}table{margin:.1rem 0 .4rem}"
    "#worksheet{break-before:page}section:not(:has(>h2)),#annual,tr,figure,li,.short{"
    "break-inside:avoid}"
    ".sheet{columns:2;column-gap:1.5rem;font-size:8pt;line-height:1.25}"
    ".sheet li{margin:.15rem 0 .15rem 2.7rem}.sheet li:nth-last-child(-n+8){break-before:avoid-page}"
    "h2,h3,h4,caption,thead{break-after:avoid}thead{display:table-header-group}"
    "a{color:#111;text-decoration:none}"
    "[data-line]::after{content:attr(data-line);font-size:6.5pt;vertical-align:.3em;"
    "line-height:0;margin-left:2pt}}";

typedef struct {
    const ls_document *document;
    ls_doc_level level;
    ls_text *text;
    size_t headings; /* written so far: a heading without a key is named by its count */
    ls_text *links;  /* to the chapters written so far */
    bool list;       /* items are being written */
} writer;

static const char *safe(const writer *w, const char *s) { return ls_text_html(w->document->arena, s); }

static const char *shown(const writer *w, const ls_doc_cell *cell, const ls_doc_column *column) {
    return safe(w, ls_doc_shown(w->document, cell, column, w->document->view->metric));
}

/* ---- tables ---- */

static void add_linked(writer *w, const ls_doc_cell *cell, const ls_doc_column *column);

/* Words with their parts, each with its own link. */
static void add_parts(writer *w, const ls_doc_cell *cell) {
    const char *rest = cell->words, *mark;
    for (size_t i = 0; i < cell->n && (mark = strstr(rest, "{}")) != NULL; i++) {
        ls_text_add(w->text, safe(w, ls_arena_copy_n(w->document->arena, rest, (size_t)(mark - rest))));
        add_linked(w, &cell->parts[i], NULL);
        rest = mark + strlen("{}");
    }
    ls_text_add(w->text, safe(w, rest));
}

/* What a cell says, with a link to where it leads or to the line behind it. */
static void add_linked(writer *w, const ls_doc_cell *cell, const ls_doc_column *column) {
    if (cell->kind == LS_DOC_WORDS && cell->parts != NULL)
        add_parts(w, cell);
    else if (cell->link != NULL)
        ls_text_addf(w->text, "<a href=\"#%s\">%s</a>", safe(w, cell->link), shown(w, cell, column));
    else if (cell->number > 0 && w->document->sheet_apart)
        ls_text_addf(w->text, "<span data-line=\"%zu\">%s</span>", cell->number, shown(w, cell, column));
    else if (cell->number > 0)
        ls_text_addf(w->text, "<a href=\"#w%zu\" data-line=\"%zu\">%s</a>", cell->number, cell->number,
                     shown(w, cell, column));
    else
        ls_text_add(w->text, shown(w, cell, column));
}

/* Days, figures with their unit, and what is one short word, as a ticket number, stand in one
 * piece; so do short words of a column that says so. */
static bool is_whole(const ls_doc_cell *cell, const ls_doc_column *column) {
    enum { LONGEST = 24 };
    if (cell->kind != LS_DOC_WORDS) return cell->kind != LS_DOC_NAMES;
    return cell->parts == NULL && (column->whole || strchr(cell->words, ' ') == NULL) &&
           ls_text_columns(cell->words) <= LONGEST;
}

static const char *heading_of(const writer *w, const ls_doc_column *column) {
    return safe(w, ls_doc_heading(w->document, column, w->document->view->metric));
}

static void add_row(writer *w, const ls_doc_block *b, size_t r) {
    const ls_doc_cell *cells = b->rows.at[r].cells;
    const char *id = b->rows.at[r].id;
    ls_text_addf(w->text, id == NULL ? "<tr>" : "<tr id=\"%s\">", id == NULL ? "" : safe(w, id));
    for (size_t k = 0; k < b->n; k++) {
        if (k == 0)
            ls_text_addf(w->text, "<th scope=\"row\"%s>", is_whole(cells, b->columns) ? " class=\"d\"" : "");
        else
            ls_text_addf(w->text, "<td%s data-head=\"%s\">",
                         ls_doc_is_number(&b->columns[k])      ? " class=\"n\""
                         : is_whole(&cells[k], &b->columns[k]) ? " class=\"d\""
                                                               : "",
                         heading_of(w, &b->columns[k]));
        add_linked(w, &cells[k], &b->columns[k]);
        ls_text_add(w->text, k == 0 ? "</th>" : "</td>");
    }
    ls_text_add(w->text, "</tr>\n");
}

static bool any_head(const writer *w, const ls_doc_block *b) {
    for (size_t k = 0; k < b->n; k++)
        if (heading_of(w, &b->columns[k])[0] != '\0') return true;
    return false;
}

/* Heads of nothing are for those who cannot see the table. */
static void add_heads(writer *w, const ls_doc_block *b) {
    ls_text_addf(w->text, "<thead%s><tr>", any_head(w, b) ? "" : " class=\"unseen\"");
    for (size_t k = 0; k < b->n; k++) {
        const char *head = heading_of(w, &b->columns[k]);
        ls_text_addf(w->text, "<th scope=\"col\"%s>%s</th>", ls_doc_is_number(&b->columns[k]) ? " class=\"n\"" : "",
                     head[0] != '\0' ? head
                     : k == 0        ? "<span class=\"unseen\">item</span>"
                                     : "<span class=\"unseen\">answer</span>");
    }
    ls_text_add(w->text, "</tr></thead>\n");
}

/* Is it wider than a phone? Then its rows stand there as lists. Words wrap, figures do not. */
static bool is_wide(const writer *w, const ls_doc_block *b) {
    enum { PHONE = 40, WORDS_NEED = 12, GAP = 2 };
    size_t all = 0;
    for (size_t k = 0; b->n > 2 && k < b->n; k++) {
        size_t most = 6;
        for (size_t r = 0; r < b->rows.n; r++) {
            if (b->rows.at[r].cells == NULL) continue;
            size_t n = ls_text_columns(shown(w, &b->rows.at[r].cells[k], &b->columns[k]));
            most = n > most ? n : most;
        }
        all += GAP + (ls_doc_is_number(&b->columns[k]) || most < WORDS_NEED ? most : WORDS_NEED);
    }
    return all > PHONE;
}

static void add_table(writer *w, const ls_doc_block *table) {
    enum { FEW_ROWS = 10 };
    const ls_doc_block *b = ls_doc_told_columns(w->document, table, w->level, false);
    ls_text_addf(w->text, "<table class=\"%s%s\">\n",
                 is_wide(w, b) ? "wide"
                 : b->n > 2    ? "some"
                               : "two",
                 b->rows.n <= FEW_ROWS ? " short" : "");
    if (table->label != NULL) ls_text_addf(w->text, "<caption>%s</caption>\n", safe(w, table->label));
    add_heads(w, b);
    ls_text_add(w->text, "<tbody>\n");
    for (size_t r = 0; r < b->rows.n; r++)
        if (b->rows.at[r].cells != NULL)
            add_row(w, b, r);
        else
            ls_text_addf(w->text, "<tr><th colspan=\"%zu\"><b>%s</b></th></tr>\n", b->n,
                         shown(w, &b->rows.at[r].words, NULL));
    ls_text_add(w->text, "</tbody>\n</table>\n");
}

/* ---- the worksheet ---- */

static void add_entry(writer *w, const ls_doc_entry *e) {
    ls_text_add(w->text, "<li");
    if (e->number > 0) ls_text_addf(w->text, " id=\"w%zu\"", e->number);
    if (e->depth > 0) ls_text_addf(w->text, " style=\"margin-left:%zuem\"", e->depth < 12 ? e->depth : 12);
    ls_text_addf(w->text, "><code>%s</code>: %s, <b>%s</b>%s", safe(w, e->key), safe(w, e->label),
                 shown(w, &e->value, NULL), e->again ? " (above)" : "");
    for (size_t i = 0; i < e->lines.n; i++) ls_text_addf(w->text, "<br>%s", safe(w, e->lines.at[i]));
    for (size_t i = 0; i < e->of.n; i++)
        ls_text_addf(w->text, "%s<a href=\"#w%zu\">%zu</a>", i == 0 ? ", of " : " ", e->of.at[i], e->of.at[i]);
    ls_text_add(w->text, "</li>\n");
}

static void add_sheet(writer *w, const ls_doc_block *b) {
    bool numbered = b->rows.n > 0 && b->rows.at[0].entry->number > 0;
    if (numbered)
        ls_text_add(w->text, "<p>Every figure above links to its line (on paper: the small number "
                             "behind it); a line names those it is made of.</p>\n");
    ls_text_add(w->text, numbered ? "<ol class=\"sheet\">\n" : "<ul class=\"tree\">\n");
    for (size_t r = 0; r < b->rows.n; r++) add_entry(w, b->rows.at[r].entry);
    ls_text_add(w->text, numbered ? "</ol>\n" : "</ul>\n");
}

/* ---- blocks ---- */

/* Of a sentence its cell, with links; else what it says. */
static void add_item(writer *w, const ls_doc_cell *cell, const char *s) {
    ls_text_add(w->text, w->list ? "<li>" : "<ul>\n<li>");
    w->list = true;
    if (cell != NULL)
        add_linked(w, cell, NULL);
    else
        ls_text_add(w->text, safe(w, s));
    ls_text_add(w->text, "</li>\n");
}

static void add_sentence(writer *w, const ls_doc_cell *cell) {
    ls_text_add(w->text, "<p>");
    add_linked(w, cell, NULL);
    ls_text_add(w->text, "</p>\n");
}

static void end_list(writer *w) {
    if (w->list) ls_text_add(w->text, "</ul>\n");
    w->list = false;
}

static void add_heading(writer *w, const ls_doc_block *b, size_t depth) {
    size_t level = depth < 2 ? depth + 2 : 4;
    w->headings++;
    const char *id = depth == 0 && b->key != NULL && b->id == NULL
                         ? safe(w, b->key)
                         : ls_arena_printf(w->document->arena, "h%zu", w->headings);
    ls_text_addf(w->text, "<h%zu id=\"%s\">%s</h%zu>\n", level, id, safe(w, b->label), level);
    if (depth == 0) ls_text_addf(w->links, "<li><a href=\"#%s\">%s</a></li>\n", id, safe(w, b->label));
}

static void add_picture(writer *w, const ls_doc_block *b) {
    ls_text_addf(w->text, "<figure%s>\n", b->svg != NULL ? " class=\"drawn\"" : "");
    if (b->svg != NULL)
        ls_text_add(w->text, b->svg);
    else
        ls_text_addf(w->text, "<pre%s>%s</pre>\n", b->key != NULL ? " class=\"lines\"" : "", safe(w, b->letters));
    if (b->label != NULL) ls_text_addf(w->text, "<figcaption>%s</figcaption>\n", safe(w, b->label));
    ls_text_add(w->text, "</figure>\n");
}

static void add_group(writer *w, const ls_doc_group *g, size_t depth);

static void add_block(writer *w, const ls_doc_group *g, size_t *i, size_t depth) {
    const ls_doc_block *b = &g->blocks.at[*i];
    bool headed = ls_doc_is_headed(b);
    size_t n = 1;
    if (b->kind != LS_DOC_ITEM) end_list(w);
    if (b->id != NULL) ls_text_addf(w->text, "<section id=\"%s\">\n", safe(w, b->id));
    if (headed) add_heading(w, b, depth);
    for (const char *const *item = ls_doc_items(w->document, b, w->level); *item != NULL; item++)
        add_item(w, b->kind == LS_DOC_ITEM ? &b->cell : NULL, *item);
    if (b->kind == LS_DOC_OBJECT || b->kind == LS_DOC_LIST)
        add_group(w, b->group, depth + headed);
    else if (b->kind == LS_DOC_FACT)
        add_table(w, ls_doc_facts(g, *i, w->level, &n));
    else if (b->kind == LS_DOC_TABLE)
        add_table(w, b);
    else if (b->kind == LS_DOC_SAY)
        add_sentence(w, &b->cell);
    else if (b->kind == LS_DOC_PICTURE)
        add_picture(w, b);
    else if (b->kind == LS_DOC_SHEET)
        add_sheet(w, b);
    else if (b->kind == LS_DOC_WRITTEN) {
        ls_doc_add_written(w->text, b, LS_HTML, "");
        ls_text_add(w->links, w->document->links->s);
    }
    if (b->id != NULL) {
        end_list(w);
        ls_text_add(w->text, "</section>\n");
    }
    *i += n - 1;
}

static void add_group(writer *w, const ls_doc_group *g, size_t depth) {
    for (size_t i = 0; i < g->blocks.n; i++)
        if (ls_doc_shows(&g->blocks.at[i], w->level)) add_block(w, g, &i, depth);
    end_list(w);
}

/* A string of a style sheet: all but plain letters by their numbers. */
static const char *quoted(const writer *w, const char *s) {
    ls_text *t = ls_text_new(w->document->arena);
    for (; *s != '\0'; s++)
        if (strchr("\"\\<>&'", *s) != NULL || (unsigned char)*s < ' ')
            ls_text_addf(t, "\\%x ", (unsigned)(unsigned char)*s);
        else
            ls_text_add_n(t, s, 1);
    return t->s;
}

/* At the foot of each printed page: whose it is, the words for every page, its number. */
static void add_foot(writer *w) {
    const ls_document *d = w->document;
    const ls_farm_facts *facts = d->view->farm == NULL ? NULL : d->view->farm->facts;
    const char *name = facts == NULL || facts->name.text == NULL ? "" : facts->name.text;
    if (d->view->farm != NULL)
        ls_text_addf(w->text,
                     "@page{@bottom-left{content:\"%s%s%s\"}@bottom-right{content:\"%s Page "
                     "\" counter(page) \" of \" counter(pages)}}",
                     quoted(w, ls_text_plain(d->arena, name)), d->days == NULL ? "" : ". ",
                     d->days == NULL ? "" : quoted(w, d->days), ls_report_closing);
}

static void add_head(writer *w) {
    const ls_document *d = w->document;
    const char *whose = ls_report_whose_farm(d->view);
    const char *name = whose == NULL ? NULL : d->view->farm->facts->name.text;
    ls_text_addf(w->text,
                 "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
                 "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
                 "<title>%s%s%s</title>\n<style>%s",
                 safe(w, d->about), name == NULL ? "" : ": ", name == NULL ? "" : safe(w, name), style);
    add_foot(w);
    ls_text_addf(w->text, "</style>\n</head>\n<body>\n<main>\n<h1>%s</h1>\n", safe(w, d->about));
    if (name != NULL) ls_text_addf(w->text, "<p><b>%s</b>%s</p>\n", safe(w, name), safe(w, whose + strlen(name)));
}

const char *ls_document_html_items(ls_document *d) {
    writer w = {.document = d,
                .level = d->view->full ? LS_FULL : LS_FIRST,
                .text = ls_text_new(d->arena),
                .links = d->links,
                .headings = d->headings};
    add_group(&w, d->top, 0);
    d->headings = w.headings;
    return w.text->s;
}

const char *ls_document_html(const ls_document *d) {
    writer w = {.document = d,
                .level = d->view->full ? LS_FULL : LS_FIRST,
                .text = ls_text_new(d->arena),
                .links = ls_text_new(d->arena),
                .headings = d->headings};
    add_group(&w, d->top, 0);
    const char *body = w.text->s;
    w.text = ls_text_new(d->arena);
    add_head(&w);
    if (w.links->n > 0)
        ls_text_addf(w.text,
                     "<nav aria-label=\"Chapters\"><details><summary>On this page</summary>\n<ul>\n"
                     "%s</ul></details></nav>\n",
                     w.links->s);
    ls_text_add(w.text, body);
    if (d->sheet_apart)
        ls_text_add(w.text, "<p>A small number behind a figure is its line of the worksheet, which "
                            "is apart from this.</p>\n");
    if (d->view->farm != NULL) ls_text_addf(w.text, "<p class=\"foot\">%s</p>\n", ls_report_closing);
    if (ls_doc_more(d)[0] != '\0') ls_text_addf(w.text, "<p>%s</p>\n", safe(&w, ls_doc_more(d)));
    ls_text_add(w.text, "</main>\n</body>\n</html>\n");
    return w.text->s;
}
