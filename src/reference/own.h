/* What a farm's own tables may hold beyond what any table file may. Each check returns false after
 * noting a mistake with its place and what to do. Private to this room. */
#pragma once

#include "columns.h"
#include "tables.h"

/* There is room for one more source, table or row, which stands at the node. */
bool ls_reference_own_room(ls_reference_reader *r, const ls_node *at);

/* A table of that kind and name may be there: t has its id, kind and name. */
bool ls_reference_own_table(ls_reference_reader *r, const ls_reference_kind *kind,
                            const ls_node *node, const ls_table *t);

/* The program knows the column: also where a kind takes columns of any name. */
bool ls_reference_own_column(ls_reference_reader *r, const ls_reference_kind *kind,
                             const ls_node *key);

/* The row as read, with its name at key and its columns in node: it is one that can be used, names
 * a source, and its figures are of the dimension of those they stand in for and possible. */
bool ls_reference_own_row(ls_reference_reader *r, const ls_reference_kind *kind, const ls_table *t,
                          const ls_node *key, const ls_node *node, const ls_row *row);
