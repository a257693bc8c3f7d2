/* A depth grid against the house it was read in. */
#include "reader.h"

static const double wall = 1 + 1e-9; /* a conversion may miss it by a last digit */

/* "from 0 to 12.8 ft across and from 27.2 to 40" */
static const char *where(ls_arena *a, const ls_house *house, ls_zone zone) {
    ls_strip strips[2];
    size_t n = ls_house_strips(house, zone, strips);
    ls_text *text = ls_text_new(a);
    for (size_t i = 0; i < n; i++)
        ls_text_addf(text, "%sfrom %s to %s ft", i > 0 ? " and " : "",
                     ls_number_text(a, strips[i].from * house->width.value, 3),
                     ls_number_text(a, strips[i].to * house->width.value, 3));
    return text->s;
}

static bool within(const ls_house *house, ls_zone zone, double across) {
    ls_strip strips[2];
    size_t n = ls_house_strips(house, zone, strips);
    for (size_t i = 0; i < n; i++)
        if (across >= strips[i].from * house->width.value &&
            across <= strips[i].to * house->width.value * wall)
            return true;
    return false;
}

/* Readings beyond a wall. */
static bool check_walls(ls_farm_reader *reader, const ls_house *house) {
    const ls_depth_grid *g = house->measured->depth.grid;
    ls_arena *a = reader->arena;
    bool inside = true;
    for (size_t k = 0; k < g->across_n * g->along_n; k++) {
        bool wide = g->across[k % g->across_n] > house->width.value * wall;
        bool far = g->along[k / g->across_n] > house->length.value * wall;
        if (!wide && !far)
            continue;
        inside = false;
        LS_FARM_WRONG(reader, g->read_at[k],
                      "places count from the left wall and the front wall; check the numbers and "
                      "their unit",
                      "this reading is outside the house, which is %s ft %s",
                      ls_number_text(a, wide ? house->width.value : house->length.value, 5),
                      wide ? "wide" : "long");
    }
    return inside;
}

/* A part of the floor needs readings of its own: between those of others its depth would be made
 * up. */
static void check_part(ls_farm_reader *reader, const ls_house *house, ls_zone zone) {
    const ls_depth_grid *g = house->measured->depth.grid;
    ls_arena *a = reader->arena;
    size_t n = 0, deep = 0;
    for (size_t k = 0; k < g->across_n * g->along_n; k++)
        if (within(house, zone, g->across[k % g->across_n]))
            n++, deep += g->depth[k] > 0;
    if (n == 0)
        LS_FARM_WRONG(reader, g->file.at,
                      ls_arena_printf(a, "by the shares of the floor it lies %s across",
                                      where(a, house, zone)),
                      "the grid has no reading on the %s", ls_zone_name((int)zone));
    else if (deep == 0)
        LS_FARM_WRONG(reader, g->file.at, "check the column of depths",
                      "every depth read on the %s is 0", ls_zone_name((int)zone));
}

void ls_farm_check_grid(ls_farm_reader *reader, const ls_house *house) {
    if (!LS_GIVEN(house->width) || !LS_GIVEN(house->length) || !check_walls(reader, house))
        return;
    for (int z = LS_SLATS; z < LS_ZONES; z++)
        if (ls_house_share(house, (ls_zone)z) > 0)
            check_part(reader, house, (ls_zone)z);
}
