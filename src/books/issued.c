/* What was handed out, by the haul log: tickets and slips. */
#include "books.h"

ls_had ls_books_had(const ls_farm *farm, const ls_buyer *buyer) {
    ls_had had = {0};
    for (size_t i = 0; i < farm->hauled.n; i++) {
        const ls_hauled *load = &farm->hauled.at[i];
        double before = had.tons;
        for (size_t k = 0; k < load->n; k++)
            had.tons += load->drops[k].buyer == buyer ? load->drops[k].tons : 0;
        had.loads += had.tons > before;
    }
    return had;
}
