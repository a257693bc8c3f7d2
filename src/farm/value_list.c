/* Values that hold several: lists of days, prices, quantities by parts of the floor. */
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
        ls_farm_read_date(reader, item, &day);
        if (day.day != LS_NO_DATE)
            *LS_PUSH(reader->arena, &days) = day;
    }
    memcpy(member, &days, sizeof days);
}

/* A quantity, or the weights it is made of. */
static void read_one(ls_farm_reader *reader, ls_farm_value value, ls_quantity *out) {
    if (value.node->kind == LS_MAPPING && value.key->section == &ls_farm_weights)
        ls_farm_read_weights(reader, value, out);
    else
        ls_farm_read_quantity(reader, value, out);
}

/* Does the mapping hold a key of the section, rather than parts of the floor? */
static bool holds_keys_of(const ls_farm_section *section, const ls_node *node) {
    for (size_t i = 0; section && i < node->n; i++)
        if (ls_farm_key_of(section, node->keys[i]->text))
            return true;
    return false;
}

/* A mapping of zones to quantities, or one quantity for a plain floor; or the key's other form. */
void ls_farm_read_zoned(ls_farm_reader *reader, ls_farm_value value, void *member) {
    ls_zoned *zoned = member;
    bool other = value.node->kind == LS_MAPPING && holds_keys_of(value.key->section, value.node);
    if (other && value.key->section == &ls_farm_grid) {
        ls_farm_read_grid(reader, value, zoned);
        return;
    }
    if (other || value.node->kind != LS_MAPPING) {
        read_one(reader, value, &zoned->of[LS_FLOOR]);
        return;
    }
    for (size_t i = 0; i < value.node->n; i++) {
        const ls_node *zone_key = value.node->keys[i];
        int zone = 0;
        for (int k = 1; k < LS_ZONES; k++)
            if (strcmp(zone_key->text, ls_zone_name(k)) == 0)
                zone = k;
        if (zone == 0) {
            ls_diag_add(reader->diag, LS_ERROR, zone_key->at,
                        ls_farm_suggest(reader->arena, zone_key->text, ls_farm_zones, LS_ZONES - 1,
                                        "write one of these"),
                        "unknown part of the floor \"%s\" under %s", zone_key->text, value.name);
            continue;
        }
        const char *label =
            ls_arena_printf(reader->arena, "%s of %s", value.label, ls_zone_name(zone));
        ls_farm_value item = {value.key, label, ls_zone_name(zone), value.node->items[i]};
        read_one(reader, item, &zoned->of[zone]);
    }
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
            ls_diag_add(reader->diag, LS_ERROR, value.node->keys[i]->at,
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
