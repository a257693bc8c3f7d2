/* What growers say for the keys of a farm file, put into its own words: on the trees, before anything is read. Only
 * what can be meant in one way is taken; the rest is asked about by the reader, at the line where it stands. */
#include "reader.h"

#include <string.h>

/* Under a section ("" of said: what stands there bare): other words for a key, or for a key of a section below it after
 * a '.'. Several keys with '|' between: the first that the value fits. unit: what a number without one is in. */
static const struct {
    const char *section, *said, *keys, *unit;
} sayings[] = {
    {"farm file", "name|farm name", "farm.name", NULL},
    {"farm file", "phone", "farm.phone", NULL},
    {"farm file", "address|place|location", "farm.place", NULL},
    {"farm file", "state", "farm.state", NULL},
    {"farm file", "next flock", "farm.next_flock", NULL},
    {"farm file", "stack pad|litter shed|shed|stack shed|stacking shed|storage", "stack", NULL},
    {"farm file", "cleanout crew|hauler|contractor", "crew", NULL},
    {"farm file", "loader", "crew.loader", NULL},
    {"farm section", "", "name", NULL},
    {"costs section", "cleanout|clean out|cleaning out|taking out", "take_out", NULL},
    {"costs section", "hauling|per mile|mileage|$/mile", "haul", NULL},
    {"costs section", "spreading", "spread", NULL},
    {"house", "bird|birds|bird type|type of bird|kind|kind of bird|species", "flocks.birds", NULL},
    {"house",
     "count|head|birds placed|birds per flock|number of birds|flock size|bird count|ducks|pullets|"
     "broilers|toms|turkeys|number of hens|birds per house",
     "flocks.count", NULL},
    {"house", "hens", "flocks.hens|flocks.count", NULL},
    {"house", "males|roosters", "flocks.males", NULL},
    {"house", "age|market age|age at sale|age out|sold at", "flocks.age", NULL},
    {"house", "weight|market weight|live weight|average weight|sale weight|bird weight", "flocks.weight", NULL},
    {"house", "lost|mortality|death loss|losses", "flocks.lost", NULL},
    {"house", "feed|total feed|feed per flock", "flocks.feed", NULL},
    {"house", "placed|housed|date in|chicks in|in|start|placement date|date placed", "flocks.placed", NULL},
    {"house", "removed|sold|date out|out|caught|shipped|end|date sold|sale date", "flocks.removed", NULL},
    {"house", "batches|number of flocks|flocks since cleanout|flocks since last cleanout", "flocks.flocks", NULL},
    {"house", "litter depth|depth of litter", "measured.depth", NULL},
    {"house", "moisture|litter moisture", "measured.moisture", NULL},
    {"house", "shavings|litter material", "bedding", NULL},
    {"house", "cake out|caked out|cake|cake taken out|taken out", "already_out", NULL},
    {"house", "lab report|lab test|analysis|litter test|litter analysis|manure analysis|manure test|test", "lab", NULL},
    {"house", "cleaned|last cleaned|cleaned out|last clean out|last full cleanout", "last_cleanout", NULL},
    {"house", "manure system|housing|system", "manure", NULL},
    {"flock", "", "flocks", NULL},
    {"flock", "bird|kind|type|species|bird type", "birds", NULL},
    {"flock",
     "head|number|number of birds|birds placed|quantity|started|ducks|pullets|broilers|toms|"
     "chicks|poults",
     "count", NULL},
    {"flock", "roosters|cocks", "males", NULL},
    {"flock", "mortality|death loss|losses|loss", "lost", NULL},
    {"flock", "chicks in|date in|in|housed|start|placement|placement date|date placed", "placed", NULL},
    {"flock", "sold|date out|out|caught|processed|shipped|moved|moved out|end|sale date|date sold", "removed", NULL},
    {"flock", "market age|age out|age at sale|days", "age", NULL},
    {"flock", "live weight|market weight|average weight|sold weight|sale weight|weight out", "weight", NULL},
    {"flock", "total feed|feed eaten|feed total", "feed", NULL},
    {"flock", "batches|number of flocks", "flocks", NULL},
    {"feed", "", "eaten|total", NULL},
    {"feed", "feed intake|intake|per day|daily|feed per day", "eaten", NULL},
    {"feed", "P", "phosphorus", NULL},
    {"feed", "K", "potassium", NULL},
    {"bedding", "", "material", NULL},
    {"bedding", "type|kind|what|name", "material", NULL},
    {"bedding", "amount|quantity", "volume|weight|depth", NULL},
    {"bedding", "spread|placed|when", "date", NULL},
    {"last cleanout", "", "date", NULL},
    {"last cleanout", "tons|hauled|weight|amount", "weighed", "ton"},
    {"last cleanout", "when|day", "date", NULL},
    {"removal", "tons|hauled|weight|amount", "weighed", "ton"},
    {"removal", "when|day", "date", NULL},
    {"measured section", "litter depth", "depth", NULL},
    {"measured section", "litter moisture", "moisture", NULL},
    {"lab report", "nitrogen|total nitrogen|total N|TKN", "N", NULL},
    {"lab report", "ammonium N|ammonium nitrogen|NH4 N|ammonia N|ammonia nitrogen", "NH4N", NULL},
    {"lab report", "phosphate", "P2O5", NULL},
    {"lab report", "potash", "K2O", NULL},
    {"lab report", "water", "moisture", NULL},
    {"lab report", "lab|laboratory", "by", NULL},
    {"crew", "name|who|company|contractor|hauled by|crew", "hauler", NULL},
    {"crew", "start|start date|begins|date|first day|coming|comes", "arrives", NULL},
    {"crew", "time|start time|start at|from", "starts", NULL},
    {"crew", "hours|hours per day|hours a day|work hours|working hours", "hours", "h/day"},
    {"crew", "off|no work", "days_off", NULL},
    {"truck", "type|kind|truck", "name", NULL},
    {"truck", "number|how many|quantity|trucks|how many trucks", "count", NULL},
    {"truck", "capacity|holds|legal load|net|haul weight|load size|load|carries|hauls|size|tons per load",
     "payload|body", NULL},
    {"truck", "width|spread width|spreading width|working width|spreader width|throw", "swath", NULL},
    {"truck", "volume|box|bed|body volume", "body", NULL},
    {"truck", "road speed|speed on the road", "road", NULL},
    {"truck", "spreading speed|spread speed|field speed", "spreading", NULL},
    {"buyer", "miles|miles away|miles one way", "distance", "mi"},
    {"buyer", "km|kilometers", "distance", "km"},
    {"buyer", "one way|haul distance|haul|how far", "distance", NULL},
    {"buyer", "pays|pay|paid|$/ton|price per ton", "price", "$/ton"},
    {"buyer", "wants|takes up to|max|maximum|up to|tons", "takes", "ton"},
    {"field", "setback|keep off|buffer|buffers|keep away", "setbacks", NULL},
    {"field", "acres", "area", "ac"},
    {"field", "hectares|ha", "area", "ha"},
    {"field", "acreage|size", "area", NULL},
    {"field", "yield goal|expected yield|target yield|goal", "yield", NULL},
    {"field", "limit|max|maximum|max rate|plan limit|plan rate|top rate", "most", NULL},
    {"field", "window|spreading window|dates|spread dates|open dates", "open", NULL},
    {"field", "soil test", "soil", NULL},
    {"field", "soil P|soil test P|soil phosphorus|soil test phosphorus", "soil.P", NULL},
    {"field", "soil K|soil test K|soil potassium|soil test potassium", "soil.K", NULL},
    {"field", "N|nitrogen need|N rate|N need", "nitrogen", NULL},
    {"field", "P rating|phosphorus rating|P risk|P index rating", "phosphorus.rating", NULL},
    {"stack", "high", "height", NULL},
    {"stack", "roof", "roofed", NULL},
    {"stack", "until", "kept_until", NULL},
    {"phosphorus section", "", "rating", NULL},
};

/* A key and, if it is a section's, the key below it; the unit of a number without one. */
typedef struct {
    const ls_farm_key *key, *below;
    const char *unit;
} place_of;

/* Are they the same but for capitals, an s at the end, and what stands between words? */
static bool alike(const char *a, const char *b) {
    size_t n = strlen(a), m = strlen(b), i = 0;
    n -= n > 2 && a[n - 1] == 's';
    m -= m > 2 && b[m - 1] == 's';
    for (; i < n && i < m; i++) {
        char x = a[i], y = b[i];
        if (strchr(" -_", x) && strchr(" -_", y)) continue;
        if (x >= 'A' && x <= 'Z' && n > 2) x = (char)(x - 'A' + 'a');
        if (y >= 'A' && y <= 'Z' && n > 2) y = (char)(y - 'A' + 'a');
        if (x != y) return false;
    }
    return i == n && i == m;
}

static const ls_node *with_unit(ls_arena *a, const ls_node *node, const char *unit) {
    size_t digits = strspn(node->text, "0123456789.,");
    const char *tail = node->text + digits + strspn(node->text + digits, " ");
    bool bare = unit != NULL && digits > 0 &&
                (tail[0] == '\0' || (unit[0] == 'h' && ls_text_among("h|hr|hour|hours|hrs", tail)));
    ls_node *copy = ls_farm_node_copy(a, node, 0);
    if (bare) copy->text = ls_arena_printf(a, "%.*s %s", (int)digits, node->text, unit);
    return copy;
}

static bool fits(ls_farm_reader *reader, const ls_farm_key *key, const ls_node *node) {
    if (node->kind != LS_SCALAR) return key->section != NULL || key->kind == LS_FARM_ZONED;
    if (key->kind == LS_FARM_COUNT) return ls_farm_whole_number(reader->arena, node->text) != NULL;
    return (key->kind != LS_FARM_QUANTITY && key->kind != LS_FARM_ZONED) ||
           ls_farm_fits(reader, ls_farm_value_of(key, node));
}

/* What a row stands for where this value is behind it. */
static place_of by_row(ls_farm_reader *reader, const ls_farm_section *section, size_t row, const ls_node *node) {
    ls_arena *a = reader->arena;
    const char *part;
    bool several = strchr(sayings[row].keys, '|') != NULL || sayings[row].said[0] == '\0';
    for (size_t i = 0; (part = ls_farm_part(a, sayings[row].keys, i)) != NULL; i++) {
        size_t n = strcspn(part, ".");
        place_of to = {ls_farm_key_of(section, ls_arena_copy_n(a, part, n)), NULL, sayings[row].unit};
        if (part[n] == '.') to.below = ls_farm_key_of(to.key->section, part + n + 1);
        if (!several || fits(reader, to.below ? to.below : to.key, node)) return to;
    }
    return (place_of){NULL, NULL, NULL};
}

static place_of find(ls_farm_reader *reader, const ls_farm_section *section, const char *name, const ls_node *node) {
    place_of to = {ls_farm_key_of(section, name), NULL, NULL};
    for (size_t i = 0; i < sizeof sayings / sizeof *sayings; i++) {
        const char *said = sayings[i].said, *part;
        if (strcmp(sayings[i].section, section->name) != 0) continue;
        bool is = said[0] == '\0' && name[0] == '\0';
        for (size_t k = 0; !is && (part = ls_farm_part(reader->arena, said, k)) != NULL; k++)
            is = name[0] != '\0' && alike(part, name);
        if (is && (to.key == NULL || sayings[i].unit)) return by_row(reader, section, i, node);
    }
    for (size_t i = 0; to.key == NULL && name[0] != '\0' && i < section->n; i++)
        if (alike(section->keys[i].name, name)) to.key = &section->keys[i];
    return to;
}

static const ls_node *named(ls_arena *a, const ls_node *like, const char *name) {
    ls_node *copy = ls_farm_node_copy(a, like, 0);
    copy->text = name;
    return copy;
}

/* Add an entry; there is room. */
static void add(ls_node *to, const ls_node *key, const ls_node *item) {
    to->keys[to->n] = (ls_node *)key;
    to->items[to->n++] = (ls_node *)item;
}

static ls_node *mapping_at(ls_arena *a, const ls_node *at, size_t room) {
    ls_node *node = LS_NEW(a, ls_node, 1);
    *node = (ls_node){.kind = LS_MAPPING, .text = "", .at = at->at};
    node->keys = LS_NEW(a, ls_node *, room);
    node->items = LS_NEW(a, ls_node *, room);
    return node;
}

static const ls_node *in_words(ls_farm_reader *reader, const ls_farm_section *section, const ls_node *node);

/* "saturday and sunday" */
static const ls_node *as_list(ls_arena *a, const ls_node *node) {
    static const char between[] = " ,&";
    ls_node *list = mapping_at(a, node, strlen(node->text) + 1);
    list->kind = LS_SEQUENCE;
    for (const char *s = node->text + strspn(node->text, between); *s != '\0';) {
        size_t n = strcspn(s, between);
        const char *word = ls_arena_copy_n(a, s, n);
        if (strcmp(word, "and") != 0) list->items[list->n++] = (ls_node *)named(a, node, word);
        s += n + strspn(s + n, between);
    }
    return list;
}

/* Readings each with its unit: "[4 in, 5 in]". */
static const ls_node *as_readings(ls_arena *a, const ls_node *node) {
    ls_text *t = ls_text_new(a);
    ls_node *one = mapping_at(a, node, 1);
    for (size_t i = 0; i < node->n; i++) {
        if (node->items[i]->kind != LS_SCALAR) return node;
        ls_text_addf(t, "%s%s", i > 0 ? ", " : "", node->items[i]->text);
    }
    one->kind = LS_SCALAR, one->text = t->s;
    return node->n > 0 ? one : node;
}

static const ls_node *value_in_words(ls_farm_reader *reader, const ls_farm_key *key, const ls_node *node) {
    ls_arena *a = reader->arena;
    bool sections = key->kind == LS_FARM_SECTIONS, section = key->kind == LS_FARM_SECTION;
    if (node->refused) return node;
    if (key->kind == LS_FARM_WEEKDAYS && node->kind == LS_SCALAR) return as_list(a, node);
    if ((key->flags & LS_FARM_READINGS) && node->kind == LS_SEQUENCE) return as_readings(a, node);
    if (!sections && !section) return node;
    if (sections && node->kind == LS_SEQUENCE) {
        ls_node *copy = ls_farm_node_copy(a, node, 0);
        for (size_t i = 0; i < node->n; i++)
            if (node->items[i]->kind == LS_MAPPING)
                copy->items[i] = (ls_node *)in_words(reader, key->section, node->items[i]);
        return copy;
    }
    bool none = key->none && node->kind == LS_SCALAR && strcmp(node->text, key->none) == 0;
    if (node->kind == LS_SCALAR && !none) {
        place_of to = find(reader, key->section, "", node);
        if (to.key == NULL) return node;
        ls_node *bare = mapping_at(a, node, 1);
        add(bare, named(a, node, to.key->name), node);
        return bare;
    }
    if (node->kind != LS_MAPPING) return node;
    const ls_node *in = in_words(reader, key->section, node);
    bool one = sections && !(key->flags & LS_FARM_ONE_OR_MANY) && in->n > 0 &&
               ls_farm_key_of(key->section, in->keys[0]->text) != NULL;
    if (!one) return in;
    ls_node *list = mapping_at(a, node, 1);
    list->kind = LS_SEQUENCE;
    list->items[list->n++] = (ls_node *)in;
    return list;
}

/* Put a key of a section below where it belongs: into all that is there, if it lacks it. False: it
 * stands there already. */
static bool put_below(ls_farm_reader *reader, ls_node *in, place_of to, const ls_node *key, const ls_node *item) {
    ls_arena *a = reader->arena;
    size_t i = 0;
    while (i < in->n && strcmp(in->keys[i]->text, to.key->name) != 0) i++;
    if (i == in->n) {
        const ls_node *like = ls_yaml_get(in, "like");
        ls_node *new = mapping_at(a, key, 2);
        if (like != NULL && ls_farm_key_of(to.key->section, "like")) add(new, named(a, key, "like"), like);
        add(new, named(a, key, to.below->name), item);
        add(in, named(a, key, to.key->name), new);
        return true;
    }
    ls_node *old = ls_farm_node_copy(a, in->items[i], 1);
    bool any = false;
    if (old->kind == LS_MAPPING && ls_yaml_get(old, to.below->name) == NULL) {
        add(old, named(a, key, to.below->name), item);
        any = true;
    }
    for (size_t k = 0; old->kind == LS_SEQUENCE && k < old->n; k++)
        if (old->items[k]->kind == LS_MAPPING && ls_yaml_get(old->items[k], to.below->name) == NULL) {
            old->items[k] = ls_farm_node_copy(a, old->items[k], 1);
            add(old->items[k], named(a, key, to.below->name), item);
            any = true;
        }
    in->items[i] = old;
    return any;
}

static const ls_node *in_words(ls_farm_reader *reader, const ls_farm_section *section, const ls_node *node) {
    ls_arena *a = reader->arena;
    ls_node *out = mapping_at(a, node, node->n + 1);
    out->refused = node->refused;
    for (int below = 0; below <= 1; below++) /* what is there first, then what goes into it */
        for (size_t i = 0; i < node->n; i++) {
            const ls_node *key = node->keys[i];
            place_of to = find(reader, section, key->text, node->items[i]);
            if ((to.below != NULL) != below) continue;
            const ls_farm_key *last = to.below ? to.below : to.key;
            if (last == NULL) {
                add(out, key, node->items[i]);
                continue;
            }
            if (strcmp(last->name, key->text) != 0 && !below &&
                (ls_yaml_get(node, last->name) || ls_yaml_get(out, last->name))) {
                LS_FARM_WRONG(reader, key->at, "keep one of both", "\"%s\" is %s, given here too", key->text,
                              last->name);
                continue;
            }
            const ls_node *item = value_in_words(reader, last, with_unit(a, node->items[i], to.unit));
            if (!below)
                add(out, named(a, key, last->name), item);
            else if (!put_below(reader, out, to, key, item))
                add(out, key, node->items[i]);
        }
    return out;
}

const ls_node *ls_farm_in_its_words(ls_farm_reader *reader, const ls_node *top) {
    return in_words(reader, &ls_farm_top, top);
}
