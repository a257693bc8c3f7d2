/* What the first truck carries by weight, and its body: lines that all houses share. */
#include "house.h"

ls_line ls_litter_body(ls_worksheet *all, const ls_truck *truck) {
    return ls_leaf_given(all, "truck-1.body", "struck volume of the body", "yd3", &truck->body);
}

/* The most a truck may carry by weight: its payload, or gross less tare, the lesser of those given.
 */
ls_line ls_litter_payload(ls_worksheet *all, const ls_truck *truck) {
    ls_worksheet *w = ls_part(all, NULL, "truck-1");
    if (!LS_GIVEN(truck->gross) || !LS_GIVEN(truck->tare))
        return ls_leaf_given(w, "payload", "payload by weight", "ton", &truck->payload);
    ls_line gross =
        ls_leaf_given(w, "gross", "most the truck may weigh loaded", "lb", &truck->gross);
    ls_line tare = ls_leaf_given(w, "tare", "weight of the empty truck", "lb", &truck->tare);
    if (!LS_GIVEN(truck->payload))
        return ls_difference(w, "payload", "payload by weight: gross less tare", "ton", gross,
                             tare);
    ls_line legal = ls_difference(w, "payload-by-gross", "gross less tare", "ton", gross, tare);
    ls_line given =
        ls_leaf_given(w, "payload-given", "payload by weight as given", "ton", &truck->payload);
    return LS_LEAST(w, "payload", "payload by weight: the lesser of both", "ton", given, legal);
}
