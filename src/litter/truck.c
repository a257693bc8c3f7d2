/* What the first truck carries by weight, and its body: lines that all houses share. */
#include "house.h"

/* A figure of the truck, the same for all houses. */
static ls_line of_truck(ls_worksheet *w, const char *what, const char *label, const char *unit,
                        const ls_quantity *q) {
    const char *key = ls_printf(w, "truck-1.%s", what);
    ls_line known = ls_line_find(w, key);
    return known != LS_NO_LINE ? known : ls_leaf_given(w, key, label, unit, q);
}

/* The most a truck may carry by weight: its payload, or gross less tare, the lesser of those given.
 */
ls_line ls_litter_body(ls_worksheet *w, const ls_truck *truck) {
    return of_truck(w, "body", "struck volume of the body", "yd3", &truck->body);
}

ls_line ls_litter_payload(ls_worksheet *w, const ls_truck *truck) {
    ls_line known = ls_line_find(w, "truck-1.payload");
    if (known != LS_NO_LINE)
        return known;
    if (!LS_GIVEN(truck->gross) || !LS_GIVEN(truck->tare))
        return of_truck(w, "payload", "payload by weight", "ton", &truck->payload);
    ls_line gross = of_truck(w, "gross", "most the truck may weigh loaded", "lb", &truck->gross);
    ls_line tare = of_truck(w, "tare", "weight of the empty truck", "lb", &truck->tare);
    if (!LS_GIVEN(truck->payload))
        return ls_difference(w, "truck-1.payload", "payload by weight: gross less tare", "ton",
                             gross, tare);
    ls_line legal =
        ls_difference(w, "truck-1.payload-by-gross", "gross less tare", "ton", gross, tare);
    ls_line given =
        of_truck(w, "payload-given", "payload by weight as given", "ton", &truck->payload);
    return LS_LEAST(w, "truck-1.payload", "payload by weight: the lesser of both", "ton", given,
                    legal);
}
