/* Names as parts of worksheet keys. Parts that the program makes are either marked by a '-', which
 * no slug has, or stand on the list here; a slug that would read like one of them gets a '_' at its
 * end, which no other slug has. So every name may be given. */
#include "reader.h"

#include <string.h>

/* What stands in keys where a name may stand too: first, after a house, after a field. */
static const char words[] =
    " account acres age agreed agronomy ammonium ammonium_share area away bedding "
    "bedding_over_litter"
    " beyond_firm bird_days buy buyer_price cap chance_over cleared combined content counts credit"
    " credits crew density depth disagreement dossier droppings dry_made dry_tons excreted"
    " feed firm found full_loads gone hen_days hens_placed in_feed in_soil interval lab leasts"
    " ledger left_less_on length likely limit litter live_weight loose_density lost made"
    " make_ready manure manure_over_feed mean_birds moisture need need_less_credits nitrogen"
    " no_acres_left on on_less_left one_load organic organic_share outside outside_setbacks"
    " over pan payload payloads per_dry per_ton phosphorus pi placed plan possible potassium "
    "pounds price"
    " rate ratio reached relief removal removed sample setbacks share shares_before short "
    "slat_height"
    " soil solids spreadable stepped table takes ticket times tons trips unusual usable_share value"
    " value_per_ton volume water weighed wet whole_leasts widened width window worth"
    " years_of_removal yield ";

static bool is_word(ls_arena *a, const char *slug) {
    return strstr(words, ls_arena_printf(a, " %s ", slug)) != NULL;
}

const char *ls_farm_key_part(ls_arena *a, const char *slug, bool leads) {
    /* "left" is a usual side; where a side stands, the program has no such part */
    bool taken = is_word(a, slug) || (leads && strcmp(slug, "left") == 0);
    return taken ? ls_arena_printf(a, "%s_", slug) : slug;
}
