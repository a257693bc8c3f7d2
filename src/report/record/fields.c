/* What went to each field and into the stack, by the haul log. */
#include "sums.h"

/* The tons of all drops on a field (NULL: into the stack, out of houses); *loads: how many they
 * are. */
static ls_line hauled_to(const ls_view *v, const ls_field *field, const char *key,
                         const char *label, size_t *loads) {
    LS_LIST(ls_line) parts = {0};
    *loads = 0;
    for (size_t i = 0; i < v->farm->hauled.n; i++) {
        const ls_hauled *load = &v->farm->hauled.at[i];
        for (size_t k = 0; k < load->n; k++) {
            if (load->drops[k].field != field || (field == NULL && load->from_stack))
                continue;
            ++*loads;
            *LS_PUSH(v->arena, &parts) =
                ls_leaf_exact(v->sheet, ls_words(v->sheet, "%s.part-%zu", key, *loads),
                              ls_words(v->sheet, "of load %s", load->ticket), "ton",
                              load->drops[k].tons, LS_BY_LOG, load->entry);
        }
    }
    return parts.n > 0 ? ls_sum(v->sheet, key, label, "ton", parts.at, parts.n) : LS_NO_LINE;
}

ls_report_place_sums ls_report_hauled_places(const ls_view *v) {
    ls_report_place_sums sums = {0};
    size_t loads;
    for (size_t b = 0; b < v->farm->buyers.n; b++) {
        const ls_buyer *buyer = &v->farm->buyers.at[b];
        for (size_t f = 0; f < buyer->fields.n; f++) {
            const ls_field *field = &buyer->fields.at[f];
            ls_line tons = hauled_to(
                v, field, ls_words(v->sheet, "haul-log.to-%s.%s.tons", buyer->slug, field->slug),
                ls_words(v->sheet, "hauled to %s", field->name.text), &loads);
            if (tons != LS_NO_LINE)
                *LS_PUSH(v->arena, &sums) = (ls_report_place_sum){buyer, field, loads, tons};
        }
    }
    ls_line stacked = hauled_to(v, NULL, "haul-log.to-stack.tons", "hauled into the stack", &loads);
    if (stacked != LS_NO_LINE)
        *LS_PUSH(v->arena, &sums) = (ls_report_place_sum){NULL, NULL, loads, stacked};
    return sums;
}
