/* A list too long to be kept: its items are written as soon as they are made. */
#include "writers.h"

struct ls_doc_stream {
    ls_document *document;
    size_t index;      /* of the list among the blocks of the document */
    ls_document *item; /* of the items that are being made */
};

ls_doc_stream *ls_doc_stream_in(ls_document *d, ls_doc_level level, const char *key, ls_form form) {
    ls_doc_stream *s = LS_NEW(d->arena, ls_doc_stream, 1);
    *s = (ls_doc_stream){.document = d, .index = d->top->blocks.n};
    ls_doc_list(d->top, level, key, NULL);
    ls_doc_block *b = &d->top->blocks.at[s->index];
    b->form = form;
    if (form != LS_CSV) b->kind = LS_DOC_WRITTEN;
    return s;
}

static ls_doc_block *block_of(const ls_doc_stream *s) { return &s->document->top->blocks.at[s->index]; }

ls_doc_group *ls_doc_stream_begin(ls_doc_stream *s) {
    if (block_of(s)->kind == LS_DOC_LIST) return block_of(s)->group;
    ls_arena *a = ls_arena_new();
    s->item = LS_NEW(a, ls_document, 1);
    *s->item = *s->document;
    s->item->arena = a;
    s->item->top = LS_NEW(a, ls_doc_group, 1);
    *s->item->top = (ls_doc_group){.document = s->item, .is_list = true};
    return s->item->top;
}

void ls_doc_stream_end(ls_doc_stream *s) {
    static const char *(*const written[])(ls_document *) = {
        [LS_TEXT] = ls_document_text_items, [LS_HTML] = ls_document_html_items, [LS_JSON] = ls_document_json_items};
    ls_doc_block *b = block_of(s);
    if (b->kind == LS_DOC_LIST) return;
    ls_arena *a = s->document->arena;
    *LS_PUSH(a, &b->written) = ls_arena_copy(a, written[b->form](s->item));
    s->document->headings = s->item->headings;
    s->document->left_out = s->document->left_out || ls_doc_leaves_out(s->item->top);
    ls_arena_free(s->item->arena);
}
