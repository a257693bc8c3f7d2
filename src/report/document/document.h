/* document: what a page says, in blocks, before it is known whether it will be text, HTML, JSON or
 * CSV. Pages put figures in; the writers round them and give them units. Private to this room.
 *
 * A group is a JSON object, a list an array of groups, a table an array of rows. Every block but
 * words and pictures has a key, its name in JSON. Labels and headings are for people. A cell holds
 * its own copy of number, unit and worksheet key: a document outlives the lines it was made of. */
#pragma once

#include "littershed/report.h"

typedef enum {
    LS_DOC_EMPTY, /* null; "-" on a page */
    LS_DOC_WORDS, /* with a figure for each {} */
    LS_DOC_FIGURE,
    LS_DOC_BOOKED, /* a figure with so many digits that books can be added up */
    LS_DOC_COUNT,
    LS_DOC_POINTS, /* low, likely, high */
    LS_DOC_DAY,
    LS_DOC_MOMENT,
    LS_DOC_FLAG,
    LS_DOC_NAMES, /* a list of texts */
    LS_DOC_GROUP  /* for JSON alone: null, an object, an array */
} ls_doc_kind;

typedef struct ls_doc_group ls_doc_group;

/* Values in base units; NAN: unknown. unit NULL: that of the column. line is read when the cell is
 * put into a document. Texts are not yet made safe. */
typedef struct ls_doc_cell {
    ls_doc_kind kind;
    ls_line line; /* LS_NO_LINE: none */
    const char *unit, *words, *key;
    double value, low, high; /* a figure with low < high is rounded as that range is */
    ls_date day;
    long whole; /* a count, or the second of the day */
    size_t n;   /* figures of words, or names */
    struct ls_doc_cell *parts;
    const char *const *names;
    const ls_doc_group *group;
    size_t number;    /* of the worksheet's entry in the document; 0: none */
    const char *link; /* the id of the block or row that it leads to; NULL: none */
    bool bare;        /* the number alone: the words around it say of what; of a moment the clock */
    bool fine;        /* to six significant digits, not three */
} ls_doc_cell;

/* The shortest that can be written in a row; of a line that is none: empty. In L and Q the unit is
 * the column's. W(NULL) is empty. */
#define W(s) ls_doc_words(s)
#define L(line) ls_doc_of_line(LS_DOC_FIGURE, (line), NULL)
#define F(line, unit) ls_doc_of_line(LS_DOC_FIGURE, (line), (unit))
#define BOOKED(line, unit) ls_doc_of_line(LS_DOC_BOOKED, (line), (unit))
#define V(value, unit) ls_doc_value((value), (unit))
/* A quantity or a day of the farm file; empty if it is not given. */
#define GIVEN(q, unit) ls_doc_given(&(q), (unit))
#define GIVEN_DAY(at) ls_doc_given_day(&(at))
#define C(line) ls_doc_of_line(LS_DOC_COUNT, (line), "")
#define N(n) ls_doc_count((long)(n))
#define Q(q) ls_doc_points((q), NULL)
#define P(q, unit) ls_doc_points((q), (unit))
#define POINT(q, at, unit) ls_doc_point((q), (at), (unit)) /* one point of a range, no finer than the range lets it */
#define DAY(day) ls_doc_day(day)
#define FLAG(yes) ls_doc_flag(yes)
#define G(group) ls_doc_nested(group)
#define BARE(cell) ls_doc_bare(cell)
#define FINE(cell) ls_doc_fine(cell)
#define LINK(cell, id) ls_doc_link((cell), (id))
/* Words with a cell for each {}, none or some; they live as long as the block of code they stand
 * in, those of KEPT as long as the document d. */
#define T(...) LS_DOC_PARTS(__VA_ARGS__, W(NULL))
#define LS_DOC_PARTS(template, ...)                                                                                    \
    ls_doc_template((template), (ls_doc_cell[]){__VA_ARGS__},                                                          \
                    sizeof((ls_doc_cell[]){__VA_ARGS__}) / sizeof(ls_doc_cell) - 1)
/* The words, or none where what they are of is empty: OPTIONAL(", by the rule of {}", W(rule)). */
#define OPTIONAL(template, cell) ls_doc_optional(T((template), (cell)))
#define KEPT(d, ...) ls_doc_keep((d), T(__VA_ARGS__))

ls_doc_cell ls_doc_words(const char *s);
/* Words with a cell for each {}, which must live until the cell is put into a document. */
ls_doc_cell ls_doc_template(const char *s, ls_doc_cell *parts, size_t n);
ls_doc_cell ls_doc_of_line(ls_doc_kind kind, ls_line line, const char *unit);
ls_doc_cell ls_doc_optional(ls_doc_cell words);
ls_doc_cell ls_doc_value(double value, const char *unit);
ls_doc_cell ls_doc_given(const ls_quantity *q, const char *unit);
ls_doc_cell ls_doc_given_day(const ls_day *at);
ls_doc_cell ls_doc_count(long n);
ls_doc_cell ls_doc_points(ls_q q, const char *unit);
ls_doc_cell ls_doc_point(const ls_q *q, double at, const char *unit);
ls_doc_cell ls_doc_day(ls_date day);       /* LS_NO_DATE: empty */
ls_doc_cell ls_doc_moment(ls_moment when); /* to the minute */
ls_doc_cell ls_doc_flag(bool yes);
ls_doc_cell ls_doc_names(const char *const *names, size_t n);
ls_doc_cell ls_doc_bare(ls_doc_cell cell);
ls_doc_cell ls_doc_fine(ls_doc_cell cell);
ls_doc_cell ls_doc_link(ls_doc_cell cell, const char *id);
ls_doc_cell ls_doc_nested(const ls_doc_group *g); /* NULL: empty */
/* The cell with copies of all it needs, for the caller of the function that made it. */
ls_doc_cell ls_doc_keep(const ls_document *d, ls_doc_cell cell);

/* Where a block is seen: on the first screen, on the full page, or in JSON and CSV alone. */
typedef enum { LS_FIRST, LS_FULL, LS_DATA } ls_doc_level;

typedef struct {
    const char *key;     /* in JSON; NULL: the head of a row of a grid */
    const char *heading; /* NULL: the unit alone */
    const char *unit;    /* of its figures; NULL: words, counts, or each cell has its own */
    bool number;         /* counts, or figures with units of their own: at the right */
    bool whole;          /* words that stay on one line, if they are not long */
    bool bar;            /* figures drawn as bars, the largest of the table the longest */
    ls_doc_level level;
} ls_doc_column;
/* The columns of a table, as a const array of that name. */
#define LS_DOC_COLUMNS(name, ...) static const ls_doc_column name[] = {__VA_ARGS__}
/* The usual columns: words, figures in a unit, counts or figures with units of their own; the head
 * of a row, composed of what other columns say; what is data alone. */
#define WORDS(of, head)                                                                                                \
    { .key = (of), .heading = (head) }
#define WHOLE(of, head)                                                                                                \
    { .key = (of), .heading = (head), .whole = true }
#define IN(of, head, in)                                                                                               \
    { .key = (of), .heading = (head), .unit = (in) }
#define NUMBER(of, head)                                                                                               \
    { .key = (of), .heading = (head), .number = true }
/* Bars for text alone, which HTML has as a picture: the figures stand in another column of the row,
 * in any unit but all in one. LS_DOC_ROW(t, columns, W(name), L(tons), F(tons, "ton")). */
#define BARS()                                                                                                         \
    { .bar = true }
#define HEAD(head)                                                                                                     \
    { .heading = (head) }
#define DATA(of)                                                                                                       \
    { .key = (of), .level = LS_DATA }
#define DATA_IN(of, in)                                                                                                \
    { .key = (of), .unit = (in), .level = LS_DATA }

typedef struct {
    const char *key;    /* grids: the row's name in JSON */
    ls_doc_cell *cells; /* NULL: words across the table, for people alone */
    ls_doc_level level;
    ls_doc_cell words;
    const struct ls_doc_entry *entry; /* of a sheet */
    const char *id;                   /* links lead to it; NULL: none does */
} ls_doc_row;

/* How a line of the worksheet is told: key, label, value, and what else there is to say, a line
 * each. Texts are not yet made safe. */
typedef struct ls_doc_entry {
    const char *key, *label;
    ls_doc_cell value;
    size_t number, depth; /* 0: not numbered, not within others */
    bool again;           /* it was told before: JSON leaves it out */
    LS_LIST(const char *) lines;
    LS_LIST(size_t) of; /* numbers of the entries it is made of */
} ls_doc_entry;

typedef enum {
    LS_DOC_OBJECT,
    LS_DOC_LIST,
    LS_DOC_FACT,
    LS_DOC_TABLE,
    LS_DOC_SAY,
    LS_DOC_ITEM,
    LS_DOC_TEXTS, /* the names of the cell, as items under a heading */
    LS_DOC_PICTURE,
    LS_DOC_ITEMS,  /* a table whose rows are told as items under a heading: "first (second)" */
    LS_DOC_SHEET,  /* lines of the worksheet: the rows of a table, told as numbered entries */
    LS_DOC_WRITTEN /* a list whose items are written already */
} ls_doc_block_kind;

typedef struct {
    ls_doc_block_kind kind;
    ls_doc_level level;
    const char *key;
    const char *label;   /* heading, label, caption; NULL: none */
    const char *id;      /* links lead to it, and it stays in one piece on paper; NULL: none does */
    ls_doc_group *group; /* of an object or list */
    ls_doc_cell cell;    /* of a fact, of words */
    size_t n;            /* of a table */
    const ls_doc_column *columns;
    bool by_column; /* a grid: {column: {row: cell}} */
    LS_LIST(ls_doc_row) rows;
    const char *svg, *letters; /* of a picture; NULL: none of that kind */
    ls_form form;              /* of what is written */
    LS_LIST(const char *) written;
} ls_doc_block;

struct ls_doc_group {
    ls_document *document;
    bool is_list;
    LS_LIST(ls_doc_block) blocks;
};

struct ls_document {
    const ls_view *view;
    ls_arena *arena;
    const char *command;
    const char *about; /* what the page is about */
    const char *days;  /* at the foot of each printed page, behind the farm; NULL: none */
    bool sheet_apart;  /* figures have numbers of a worksheet that is not in it */
    const char *more;  /* what --full adds, for the last line of a short page; NULL: not named */
    bool left_out;     /* something was, of what is written already */
    const char *table; /* the table that CSV has unless one is named; NULL: none */
    ls_doc_group *top;
    size_t headings; /* of HTML, in what is written already; and links to its chapters */
    ls_text *links;
};

/* A document of a farm (or, view->farm NULL, of the published tables) with what every document begins with. */
ls_document *ls_document_new(const ls_view *v, const char *command, const char *about);

/* ---- blocks, in the order in which they are put in ---- */

/* An object in g. key NULL: its members are members of g. A key that g has already: they join the
 * members of that object, so that a page may tell it in parts. */
ls_doc_group *ls_doc_object(ls_doc_group *g, ls_doc_level level, const char *key, const char *heading);
/* A list in g; its items are objects put in with key NULL. */
ls_doc_group *ls_doc_list(ls_doc_group *g, ls_doc_level level, const char *key, const char *heading);
/* A list too long to be kept, in d itself: what is put between begin and end (objects with key NULL
 * in the group that begin returns) is written at end in the form in which the whole document will
 * be, and given up. For CSV it is kept. */
typedef struct ls_doc_stream ls_doc_stream;
ls_doc_stream *ls_doc_stream_in(ls_document *d, ls_doc_level level, const char *key, ls_form form);
ls_doc_group *ls_doc_stream_begin(ls_doc_stream *s);
void ls_doc_stream_end(ls_doc_stream *s);
/* An object or a list of none, for a cell of a table; names is its document. */
ls_doc_group *ls_doc_loose_object(ls_doc_group *g);
ls_doc_group *ls_doc_loose_list(ls_doc_group *g);

/* Links lead to the block put in last. */
void ls_doc_name_block(ls_doc_group *g, const char *id);

void ls_doc_fact(ls_doc_group *g, ls_doc_level level, const char *key, const char *label, ls_doc_cell cell);
/* A fact that is data alone. */
void ls_doc_data(ls_doc_group *g, const char *key, ls_doc_cell cell);
/* Several of a level: FACTS(g, LS_FULL, {"crop", "Crop", W(crop)}, ...); several of data alone:
 * MEMBERS(g, {"low", V(low, "ton")}, ...); those of an object for a cell: OBJECT(g, {...}, ...). */
typedef struct {
    const char *key, *label;
    ls_doc_cell cell;
} ls_doc_named;
typedef struct {
    const char *key;
    ls_doc_cell cell;
} ls_doc_member;
void ls_doc_facts_in(ls_doc_group *g, ls_doc_level level, const ls_doc_named *facts, size_t n);
ls_doc_group *ls_doc_members_in(ls_doc_group *g, const ls_doc_member *members, size_t n);
#define FACTS(g, level, ...)                                                                                           \
    ls_doc_facts_in((g), (level), (const ls_doc_named[]){__VA_ARGS__},                                                 \
                    sizeof((const ls_doc_named[]){__VA_ARGS__}) / sizeof(ls_doc_named))
#define MEMBERS(g, ...)                                                                                                \
    ls_doc_members_in((g), (const ls_doc_member[]){__VA_ARGS__},                                                       \
                      sizeof((const ls_doc_member[]){__VA_ARGS__}) / sizeof(ls_doc_member))
#define OBJECT(g, ...) MEMBERS(ls_doc_loose_object(g), __VA_ARGS__)
/* A sentence or more; an item of a list of such. JSON: g's member "words". */
void ls_doc_say(ls_doc_group *g, ls_doc_level level, ls_doc_cell words);
void ls_doc_item(ls_doc_group *g, ls_doc_level level, ls_doc_cell words);
/* The same with the parts of T(): SAY(g, LS_FULL, "No {} is {}.", W(what), W(where)). */
#define SAY(g, level, ...) ls_doc_say((g), (level), T(__VA_ARGS__))
#define ITEM(g, level, ...) ls_doc_item((g), (level), T(__VA_ARGS__))
/* A list of texts under a heading, not shown if it is empty. */
void ls_doc_texts(ls_doc_group *g, ls_doc_level level, const char *key, const char *heading, const char *const *texts,
                  size_t n);
/* svg for HTML and letters for text, markup and lines of the program's own; either may be NULL, and of both nothing is
 * shown. The numbers in it stand in another block. With a key the letters are a member in JSON. */
void ls_doc_picture(ls_doc_group *g, ls_doc_level level, const char *key, const char *caption, const char *svg,
                    const char *letters);

/* A table; columns must outlive the document. Its index among g's blocks: rows go in by it. */
typedef struct {
    ls_doc_group *group;
    size_t index;
} ls_doc_table;
ls_doc_table ls_doc_table_in(ls_doc_group *g, ls_doc_level level, const char *key, const char *caption,
                             const ls_doc_column *columns, size_t n);
/* The table is a grid that is told by its columns: {column: {key of the row: cell}}. */
void ls_doc_by_column(ls_doc_table t);
/* The table is told as items under its caption as a heading. */
void ls_doc_as_items(ls_doc_table t);
#define LS_DOC_TABLE_IN(g, level, key, caption, columns)                                                               \
    ls_doc_table_in((g), (level), (key), (caption), (columns), sizeof(columns) / sizeof *(columns))

/* Add a row; columns: the table's own array, whose length the compiler holds against the cells. */
void ls_doc_row_in(ls_doc_table t, const ls_doc_column *columns, ls_doc_level level, const char *key,
                   const ls_doc_cell *cells);
/* Links lead to the row put in last. */
void ls_doc_name_row(ls_doc_table t, const char *id);
/* Words across the table, above the rows that follow; what they say stands in another block too. */
void ls_doc_words_in(ls_doc_table t, ls_doc_level level, ls_doc_cell words);
/* Of a grid, whose rows are objects: {key: {column: cell}}. A grid without a key is part of its group. */
/* An array of that length cannot be if a row has more or fewer cells than the table columns. */
#define LS_DOC_GRID_ROW(table, columns, level, key, ...)                                                               \
    ((void)sizeof(                                                                                                     \
         char[sizeof((const ls_doc_cell[]){__VA_ARGS__}) / sizeof(ls_doc_cell) == sizeof(columns) / sizeof *(columns)  \
                  ? 1                                                                                                  \
                  : -1]), /* a row needs a cell for each column */                                                     \
     ls_doc_row_in((table), (columns), (level), (key), (const ls_doc_cell[]){__VA_ARGS__}))
#define LS_DOC_ROW(table, columns, ...) LS_DOC_GRID_ROW(table, columns, LS_FIRST, NULL, __VA_ARGS__)
/* A row for JSON and CSV alone. */
#define LS_DOC_DATA_ROW(table, columns, ...) LS_DOC_GRID_ROW(table, columns, LS_DATA, NULL, __VA_ARGS__)

/* The same of a sheet, with how the line is told. */
void ls_doc_entry_in(ls_doc_table t, const ls_doc_column *columns, const ls_doc_cell *cells, const ls_doc_entry *entry);
/* Lines of the worksheet in g. */
ls_doc_table ls_doc_sheet_in(ls_doc_group *g, ls_doc_level level, const char *key, const char *heading,
                             const ls_doc_column *columns, size_t n);

/* Every line that the document shows and all they are made of, as the last block; the figures above
 * get their numbers. Without: the numbers alone. */
void ls_doc_worksheet(ls_document *d, bool without);
/* A line with its own digits: its label, its value, and where it comes from or how it is made. */
ls_doc_entry ls_doc_entry_of(const ls_view *v, ls_line line);
/* The keys of the lines it is made of. */
ls_doc_cell ls_doc_made_of(const ls_view *v, const ls_entry *e);

/* Another document as a member of g, for JSON alone. */
void ls_doc_nest(ls_doc_group *g, const char *key, const ls_document *other);

/* ---- found again ---- */

/* The cell at a place in the JSON ("days.finish"), in objects and grids; NULL: there is none. */
const ls_doc_cell *ls_doc_find(const ls_doc_group *g, const char *path);
/* The tables there, one in each item of the lists on the way. */
typedef LS_LIST(const ls_doc_block *) ls_doc_tables;
ls_doc_tables ls_doc_find_tables(const ls_doc_group *g, const char *path);
/* The column of that key, or, where people alone see it, of that heading; n: there is none. */
size_t ls_doc_column_of(const ls_doc_block *table, const char *name);

/* ---- for the writers ---- */

/* What is written of a list, which must be in that form. */
void ls_doc_add_written(ls_text *to, const ls_doc_block *b, ls_form form, const char *between);
/* Has the block anything to show at that level? */
bool ls_doc_shows(const ls_doc_block *b, ls_doc_level level);
/* A block is told at level: first screen, full page. */
bool ls_doc_is_told(ls_doc_level of, ls_doc_level level);
/* Does the group say more on a full page? */
bool ls_doc_leaves_out(const ls_doc_group *g);
/* The last line of a short page, how to see the rest; "": there is no more. */
const char *ls_doc_more(const ls_document *d);
/* What a cell of a column (or, NULL, alone) says in words; not yet made safe. */
const char *ls_doc_shown(const ls_document *d, const ls_doc_cell *cell, const ls_doc_column *column, bool metric);
/* What a cell would say on this page, for the words of a picture. */
const char *ls_doc_told(const ls_document *d, ls_doc_cell cell);
/* How long a bar is, of one that has most at the largest figure of its column: 0 of none. */
size_t ls_doc_bar(const ls_doc_block *table, size_t row, size_t column, size_t most);
/* "rate, tons/ac". */
const char *ls_doc_heading(const ls_document *d, const ls_doc_column *column, bool metric);
bool ls_doc_is_number(const ls_doc_column *column);
/* The run of facts that begins at block i, as a table; *n: how many blocks it takes. */
const ls_doc_block *ls_doc_facts(const ls_doc_group *g, size_t i, ls_doc_level level, size_t *n);
/* Does its label stand above it as a heading of the page? */
bool ls_doc_is_headed(const ls_doc_block *b);
/* What the block says as items (a sentence, texts, rows as "first (second)"), ended by NULL. */
const char *const *ls_doc_items(const ls_document *d, const ls_doc_block *b, ls_doc_level level);
/* A table without the columns that are not told at level, with those of bars or without. */
const ls_doc_block *ls_doc_told_columns(const ls_document *d, const ls_doc_block *table, ls_doc_level level, bool bars);
