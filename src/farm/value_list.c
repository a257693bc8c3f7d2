/* Values that hold several: lists of days, prices, names of files. */
#include "reader.h"

#include <string.h>

static bool is_list(ls_farm_reader *reader, ls_farm_value value) {
    if (value.node->kind != LS_SEQUENCE)
        LS_FARM_MISTAKE(reader, value, ls_farm_for_example(reader, value.key), "%s must be a list",
                        value.label);
    return value.node->kind == LS_SEQUENCE;
}

void ls_farm_read_weekdays(ls_farm_reader *reader, ls_farm_value value, void *member) {
    enum { DAYS = 7 };
    unsigned *set = member;
    const char *names[DAYS];
    for (int k = 0; k < DAYS; k++)
        names[k] = ls_weekday_name(k);
    for (size_t i = 0; is_list(reader, value) && i < value.node->n; i++) {
        ls_farm_value item = {value.key, "a day off", value.name, value.node->items[i]};
        if (!ls_farm_is_scalar(reader, item))
            continue;
        unsigned bit = 0;
        for (int k = 0; k < DAYS; k++)
            if (strcmp(item.node->text, names[k]) == 0)
                bit = 1U << k;
        *set |= bit;
        if (bit == 0)
            LS_FARM_MISTAKE(
                reader, item,
                ls_farm_suggest(reader->arena, item.node->text, names, DAYS, "write one of these"),
                "unknown weekday \"%s\"", item.node->text);
    }
}

void ls_farm_read_dates(ls_farm_reader *reader, ls_farm_value value, void *member) {
    LS_LIST(ls_day) days = {0};
    for (size_t i = 0; is_list(reader, value) && i < value.node->n; i++) {
        ls_farm_value item = {value.key, value.label, value.name, value.node->items[i]};
        ls_day day;
        ls_farm_read_as(reader, LS_FARM_DATE, item, &day);
        if (day.day != LS_NO_DATE)
            *LS_PUSH(reader->arena, &days) = day;
    }
    memcpy(member, &days, sizeof days);
}

/* Prices by product, put in the order of the table. */
void ls_farm_read_prices(ls_farm_reader *reader, ls_farm_value value, void *member) {
    LS_LIST(ls_price) prices = {0};
    if (value.node->kind != LS_MAPPING) {
        LS_FARM_MISTAKE(reader, value, ls_farm_for_example(reader, value.key),
                        "%s needs keys of its own", value.label);
        return;
    }
    ls_farm_names products = ls_farm_names_in(reader, value.key->tables, true);
    for (size_t i = 0; i < value.node->n; i++)
        if (!ls_farm_holds(&products, value.node->keys[i]->text))
            LS_FARM_WRONG(reader, value.node->keys[i]->at,
                          ls_farm_suggest(reader->arena, value.node->keys[i]->text, products.at,
                                          products.n, "the tables hold"),
                          "unknown product \"%s\"", value.node->keys[i]->text);
    for (size_t k = 0; k < products.n; k++)
        for (size_t i = 0; i < value.node->n; i++) {
            if (strcmp(value.node->keys[i]->text, products.at[k]) != 0)
                continue;
            ls_price *price = LS_PUSH(reader->arena, &prices);
            price->product = (ls_name){products.at[k], value.node->keys[i]->at};
            ls_farm_value item = {value.key, products.at[k], products.at[k], value.node->items[i]};
            ls_farm_read_quantity(reader, item, &price->price);
        }
    memcpy(member, &prices, sizeof prices);
}

/* Names under own_tables. A name that is no text is noted. */
void ls_farm_read_files(ls_farm_reader *reader, ls_farm_value value, void *member) {
    enum { MOST_FILES = 100 };
    LS_LIST(ls_name) names = {0};
    bool list = value.node->kind == LS_SEQUENCE;
    if (list && (value.node->n == 0 || value.node->n > MOST_FILES)) {
        LS_FARM_MISTAKE(reader, value, ls_farm_for_example(reader, value.key),
                        value.node->n == 0 ? "the list %s is empty"
                                           : "%s names more than 100 files",
                        value.label);
        return;
    }
    for (size_t i = 0; i < (list ? value.node->n : 1); i++) {
        ls_farm_value item = {value.key, value.label, value.name,
                              list ? value.node->items[i] : value.node};
        if (!ls_farm_is_scalar(reader, item))
            continue;
        if (strcmp(item.node->text, "-") == 0)
            LS_FARM_MISTAKE(reader, item, ls_farm_for_example(reader, value.key),
                            "%s must name a file, not standard input", value.label);
        else
            *LS_PUSH(reader->arena, &names) = (ls_name){item.node->text, item.node->at};
    }
    memcpy(member, &names, sizeof names);
}
