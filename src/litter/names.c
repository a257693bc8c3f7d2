/* Nutrients as a laboratory reports them, and the elements in them. */
#include "house.h"

const char *ls_nutrient_name(int nutrient) {
    static const char *const names[] = {"N", "NH4-N", "P2O5", "K2O"};
    return names[nutrient];
}

const char *ls_nutrient_key(int nutrient) {
    static const char *const keys[] = {"N", "NH4N", "P2O5", "K2O"};
    return keys[nutrient];
}

/* Elements in the order of LS_ELEMENT_N. */
static const struct element {
    const char *name, *word, *oxide;
    int nutrient;
} elements[LS_ELEMENTS] = {
    {"N", "nitrogen", NULL, LS_N},
    {"P", "phosphorus", "P to P2O5", LS_P2O5},
    {"K", "potassium", "K to K2O", LS_K2O},
};

const char *ls_element_name(int element) {
    return elements[element].name;
}

const char *ls_litter_element_word(int element) {
    return elements[element].word;
}

int ls_litter_element_nutrient(int element) {
    return elements[element].nutrient;
}

const char *ls_litter_element_oxide(int element) {
    return elements[element].oxide;
}

ls_line ls_litter_oxide_per(ls_litter_house *h, int element) {
    const struct element *e = &elements[element];
    const char *key =
        ls_printf(h->w, "whole-farm.%s_per_%s", ls_nutrient_key(e->nutrient), e->name);
    return ls_litter_shared(h, key,
                            ls_printf(h->w, "%s per %s", ls_nutrient_name(e->nutrient), e->name),
                            "", ls_litter_practice(h, e->oxide));
}
