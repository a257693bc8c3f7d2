/* Moisture by weights: each sample weighed wet and dried makes one reading. */
#include "reader.h"

/* The moisture of one sample, 1 - dry/wet; false and a note if it cannot be. */
static bool reading_of(ls_farm_reader *reader, ls_farm_value value, const ls_weights *weights, size_t i, double *out) {
    ls_arena *a = reader->arena;
    double wet = weights->wet.readings[i], dry = weights->dry.readings[i];
    *out = wet > 0 ? 1 - dry / wet : 0;
    double shown = 100 * *out;
    if (shown >= value.key->least && shown <= value.key->most) return true;
    if (dry > wet)
        return LS_FARM_MISTAKE(reader, value, "check which weight is which: both in the same order",
                               "%s: sample %zu weighs more dry than wet", value.label, i + 1);
    return LS_FARM_MISTAKE(reader, value, "check both weights, and that the dish is taken off",
                           "%s: sample %zu comes to %s%%, not to between %s and %s%%", value.label, i + 1,
                           ls_number_text(a, shown, 3), ls_number_text(a, value.key->least, 3),
                           ls_number_text(a, value.key->most, 3));
}

static bool same_number(ls_farm_reader *reader, ls_farm_value value, const ls_weights *weights) {
    if (weights->wet.n == weights->dry.n) return true;
    return LS_FARM_MISTAKE(reader, value, "give each sample both weights, in the same order",
                           "%s has %zu weight%s wet and %zu dry", value.label, weights->wet.n,
                           weights->wet.n == 1 ? "" : "s", weights->dry.n);
}

void ls_farm_read_weights(ls_farm_reader *reader, ls_farm_value value, const ls_weights *weights, ls_quantity *out) {
    ls_arena *a = reader->arena;
    if (!same_number(reader, value, weights)) return;
    size_t n = weights->wet.n;
    double *readings = LS_NEW(a, double, n), sum = 0;
    ls_text *how = ls_text_new(a);
    ls_text_addf(how, "by weights, 1 - dry/wet of each sample:");
    bool good = true;
    for (size_t i = 0; i < n; i++) {
        good &= reading_of(reader, value, weights, i, &readings[i]);
        sum += readings[i];
        ls_text_addf(how, " %s", ls_number_text(a, 100 * readings[i], 3));
    }
    ls_text_add(how, " %");
    if (!good) return;
    out->form = n > 1 ? LS_READINGS : LS_PLAIN;
    out->value = sum / (double)n;
    out->readings = readings;
    out->n = n;
    out->unit = ls_unit_of("%");
    out->how = how->s;
}
