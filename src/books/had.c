/* What buyers had: which loads count for a slip, and whose a place of the log is. */
#include "books.h"

#include <string.h>

/* ---- whose it is ---- */

/* Is it the name before a slash that leads the place, and longer than the one before? */
static bool leads(const char *name, const char *place, size_t *n) {
    size_t bytes = name == NULL ? 0 : strlen(name);
    if (bytes <= *n || strncmp(name, place, bytes) != 0 || place[bytes] != '/') return false;
    *n = bytes;
    return true;
}

const ls_buyer *ls_books_owner(const ls_farm *farm, const char *place, size_t *n) {
    const ls_buyer *owner = NULL;
    *n = 0;
    LS_EACH (const ls_buyer, buyer, farm->buyers) {
        bool now = leads(buyer->name.text, place, n), before = leads(buyer->formerly.text, place, n);
        owner = now || before ? buyer : owner;
    }
    for (size_t i = 0; i < farm->promised.n; i++)
        if (leads(farm->promised.at[i].name, place, n)) owner = farm->promised.at[i].buyer;
    *n = *n > 0 ? *n : strcspn(place, "/");
    return owner;
}

bool ls_books_names(const ls_farm *farm, const char *way, const char *buyer) {
    size_t n;
    for (const char *s = way; s != NULL; s = strchr(s, ';')) {
        s += strspn(s, "; ");
        ls_books_owner(farm, s, &n);
        if (n == strlen(buyer) && strncmp(s, buyer, n) == 0) return true;
    }
    return false;
}

/* ---- for which slip ---- */

/* A slip is of the cleanout it was made in. Litter of a house that has a new flock by now counts
 * too: what went out since the slip, and shortly before it unless the flock was there by then. */
static bool counts(const ls_coded_lots *lots, const ls_promise_slip *slip, const ls_hauled *past) {
    enum { SHORTLY = 30 };
    const ls_coded_lot *lot = ls_books_lot(lots, past->lot);
    return slip != NULL && past->day >= slip->day - (lot != NULL && lot->since > slip->day ? SHORTLY : 0);
}

const ls_log_entry *ls_books_entry(const ls_books *books, const ls_hauled *load) {
    return &books->log->entries.at[load->log_entry - 1];
}

ls_books_loads ls_books_loads_for(const ls_books *books, const ls_farm *farm, const ls_promise_slip *slip) {
    ls_arena *a = books->arena;
    ls_coded_lots lots = ls_books_lots(a, farm);
    ls_books_loads list = {0};
    for (size_t i = 0, k = 0; i < farm->hauled.n || k < farm->hauled_before.n;) {
        const ls_hauled *now = i < farm->hauled.n ? &farm->hauled.at[i] : NULL,
                        *past = k < farm->hauled_before.n ? &farm->hauled_before.at[k] : NULL;
        if (past == NULL ||
            (now != NULL && ls_log_order(ls_books_entry(books, now), ls_books_entry(books, past)) < 0)) {
            *LS_PUSH(a, &list) = now;
            i++;
        } else {
            if (counts(&lots, slip, past)) *LS_PUSH(a, &list) = past;
            k++;
        }
    }
    return list;
}

double ls_books_tons_to(const ls_books *books, const ls_farm *farm, const ls_hauled *load,
                        const ls_promise_slip *slip) {
    double tons = 0;
    for (size_t k = 0; slip->buyer != NULL && k < load->n; k++)
        tons += load->drops[k].buyer == slip->buyer ? load->drops[k].tons : 0;
    bool by_name = slip->buyer == NULL && load->n == 0;
    return by_name && ls_books_names(farm, ls_books_entry(books, load)->words[LS_LOG_FIELD], slip->name) ? load->tons
                                                                                                         : tons;
}
