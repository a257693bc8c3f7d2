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

const ls_figure *ls_litter_oxide(const ls_litter_house *h, int element) {
    return elements[element].oxide ? ls_litter_practice(h, elements[element].oxide) : NULL;
}

ls_line ls_litter_oxide_per(ls_litter_house *h, int element) {
    const char *name = elements[element].name, *oxide = ls_nutrient_key(elements[element].nutrient);
    return ls_leaf_figure(h->all, ls_printf(h->all, "whole-farm.%s_per_%s", oxide, name),
                          ls_printf(h->all, "%s per %s", oxide, name), "",
                          ls_litter_oxide(h, element));
}
