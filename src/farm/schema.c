#include "schema_rows.h"

static const ls_farm_key make_ready_keys[] = {
    QUANTITY(ls_make_ready, wash, 0, "days", 0, 365, "3 days", "washing, disinfecting and drying the houses"),
    QUANTITY(ls_make_ready, repairs, 0, "days", 0, 365, "2 days", "repairs"),
    QUANTITY(ls_make_ready, bedding, 0, "days", 0, 365, "1 day", "bedding down and setting up"),
};
static const ls_farm_section make_ready_section = KEYS_OF(ls_make_ready, make_ready_keys, "make_ready section");

static const ls_farm_key plan_keys[] = {
    YESNO(ls_plan_paper, on_site, REQUIRED, "yes", "is a copy of the nutrient management plan kept on the farm?"),
    TEXT(ls_plan_paper, by, 0, "county plan writer", "who wrote the plan"),
    DATE(ls_plan_paper, date, 0, "2025-10-30", "date of the plan"),
    WORD(ls_plan_paper, records, 0, ls_farm_records, "federal",
         "whose records the plan or permit asks of this farm; left out: the federal ones if "
         "the farm is large by its birds"),
};
static const ls_farm_section plan_section = KEYS_OF(ls_plan_paper, plan_keys, "plan section");

static const ls_farm_key mortality_keys[] = {
    TEXT(ls_mortality, method, REQUIRED, "composted in bins", "what is done with dead birds"),
    TEXT(ls_mortality, place, 0, "behind the house South", "where"),
    TEXT(ls_mortality, by, 0, "a rendering service", "who takes them, if they leave the farm"),
    TEXT(ls_mortality, permit, 0, "none", "permit or registration for it, or none"),
    TEXT(ls_mortality, record, 0, "house sheets in the office", "where the daily count of dead birds is kept"),
};
static const ls_farm_section mortality_section = KEYS_OF(ls_mortality, mortality_keys, "mortality section");

static const ls_farm_key paper_keys[] = {
    WORD(ls_attached_paper, paper, REQUIRED, ls_farm_papers, "map", "what it is"),
    TEXT(ls_attached_paper, of, 0, "all fields", "what it is about"),
    DATE(ls_attached_paper, date, 0, "2025-10-30", "date on it"),
    TEXT(ls_attached_paper, kept, 0, "binder tab 2", "where it is kept"),
};
static const ls_farm_section paper_section = KEYS_OF(ls_attached_paper, paper_keys, "paper");

static const ls_farm_key earlier_files_keys[] = {
    TEXT(ls_earlier_files, file, REQUIRED, "2025.yaml",
         "the farm file of that year, from this file's folder; its haul log lies beside it", .names = LS_NAMED_FARM),
    TEXT(ls_earlier_files, fields, 0, "2025-fields.yaml", "a second file that belongs to it", .names = LS_NAMED_FARM),
};
static const ls_farm_section earlier_files_section =
    KEYS_OF(ls_earlier_files, earlier_files_keys, "earlier farm file", .only = "file");

static const ls_farm_key facts_keys[] = {
    TEXT(ls_farm_facts, name, REQUIRED, "Cedar Fork Flocks", "name of the farm"),
    TEXT(ls_farm_facts, place, 0, "near Millrace, Alabama", "where it is"),
    ROW(ls_farm_facts, state, 0, "state", "Georgia",
        "the state of the fields, for what crops need; a buyer's own goes before it"),
    TEXT(ls_farm_facts, phone, 0, "555-0142", "the farm's phone; printed on tickets and slips"),
    TEXT(ls_farm_facts, permit, 0, "none", "permit number, or none"),
    TEXT(ls_farm_facts, prepared_by, 0, "R. Alder", "who prepared this file"),
    SECTION(ls_farm_facts, plan, 0, &plan_section, "{on_site: yes, by: county plan writer, date: 2025-10-30}",
            "the nutrient management plan as a paper"),
    SECTION(ls_farm_facts, mortality, 0, &mortality_section,
            "{method: composted in bins, place: behind the house South, record: house sheets}",
            "what becomes of dead birds"),
    SECTIONS(ls_farm_facts, papers, 0, &paper_section,
             "[{paper: map, of: all fields, date: 2025-10-30, kept: binder tab 2}]",
             "papers that go with the records; lab reports and soil reports of the file need no "
             "mention"),
    SECTIONS(ls_farm_facts, earlier, 0, &earlier_files_section, "[2025.yaml, 2024.yaml]",
             "farm files of earlier years, in any order. With their haul logs they join the ledgers of phosphorus and "
             "nitrogen that rates go by, the stack, and the dossier's totals; where ledger: or earlier_litter: of the "
             "field say less, the greater counts"),
    DATE(ls_farm_facts, next_flock, 0, "2026-03-23", "day the next flock comes"),
    SECTION(ls_farm_facts, make_ready, 0, &make_ready_section, "{wash: 3 days, repairs: 2 days, bedding: 1 day}",
            "days the empty houses need, one after the other, between the cleanout and the "
            "next flock"),
    TEXT(ls_farm_facts, haul_log, 0, "2026-spring.haul.csv",
         "the file of the haul log, from this file's folder; left out: beside this file, "
         "named after it (farm.haul.csv)",
         .names = LS_NAMED_LOG),
    YESNO(ls_farm_facts, quarantine, 0, "no",
          "yes while the farm is under a disease control order: every page says so first, and no "
          "tickets are printed; left out: no"),
};
static const ls_farm_section facts_section = KEYS_OF(ls_farm_facts, facts_keys, "farm section");

static const ls_farm_key tables_keys[] = {
    TABLE(ls_table_names, removal, 0, "removal", "omafa-25", "what a crop takes off the field"),
    TABLE(ls_table_names, nitrogen, 0, "nitrogen", "psu-pan", "share of the nitrogen a crop can use in the first year"),
    TABLE(ls_table_names, ammonium, 0, "ammonium", "alberta", "share of the ammonium kept, by delay and weather"),
    TABLE(ls_table_names, carryover, 0, "carryover", "cornell-n", "nitrogen released in the years after"),
    TABLE(ls_table_names, phosphate_and_potash, 0, "nitrogen", "osu-pan",
          "share of the phosphate and potash a crop can use in the first year; left out: all"),
    TABLE(ls_table_names, soil, 0, "soil", "piedmont", "classes of soil-test phosphorus and potassium"),
};
static const ls_farm_section tables_section = KEYS_OF(ls_table_names, tables_keys, "tables section");

static const ls_farm_key costs_keys[] = {
    QUANTITY(ls_costs, take_out, STARTED, "$/ton", 0, 10000, "9 $/ton",
             "taking litter out of the house, and loading it unless load is given"),
    QUANTITY(ls_costs, load, 0, "$/ton", 0, 10000, "3 $/ton",
             "loading trucks at the house, if it is paid for by itself"),
    QUANTITY(ls_costs, haul, STARTED, "$/mi", 0, 1000, "2.10 $/mi",
             "a truck's cost for each mile driven, full or empty"),
    QUANTITY(ls_costs, spread, STARTED, "$/ton", 0, 10000, "8 $/ton", "spreading"),
    QUANTITY(ls_costs, reload, STARTED, "$/ton", 0, 10000, "4 $/ton", "loading again out of the stack"),
    QUANTITY(ls_costs, stacking, 0, "$/ton", 0, 10000, "2 $/ton", "putting litter into the stack"),
    QUANTITY(ls_costs, crew, 0, "$/h", 0, 10000, "180 $/h",
             "the crew with its loader for an hour at work; only to compare numbers of trucks"),
    QUANTITY(ls_costs, truck, 0, "$/h", 0, 10000, "95 $/h",
             "one truck with its driver for an hour on the job; only to compare numbers of "
             "trucks"),
};
static const ls_farm_section costs_section = KEYS_OF(ls_costs, costs_keys, "costs section");

static const ls_farm_key top_keys[] = {
    {.section = &facts_section,
     KEY_AS("farm", SECTION, ls_farm, facts, STARTED, "{name: Cedar Fork Flocks, next_flock: 2026-03-23}",
            "the farm itself")},
    SECTIONS(ls_farm, houses, STARTED, &ls_farm_house, "[{name: North, length: 432 ft, width: 40 ft}]",
             "the houses to be emptied"),
    SECTIONS(ls_farm, trucks, LATER, &ls_farm_truck, "[{name: spreader truck, count: 2, payload: 11 ton}]",
             "the spreader trucks"),
    SECTION(ls_farm, crew, LATER, &ls_farm_crew, "{arrives: 2026-02-16, hours: 9 h/day}", "the cleanout crew"),
    SECTIONS(ls_farm, buyers, LATER, &ls_farm_buyer, "[{name: Larkspur Hay, distance: 6.5 mi, price: 31 $/ton}]",
             "who takes the litter, and their fields"),
    SECTION(ls_farm, stack, 0, &ls_farm_stack,
            "{roofed: yes, length: 80 ft, width: 40 ft, height: 6 ft, kept_until: 2026-09-30}",
            "where litter can wait for a field to open"),
    SECTION(ls_farm, costs, LATER, &costs_section,
            "{take_out: 9 $/ton, haul: 2.10 $/mi, spread: 8 $/ton, reload: 4 $/ton}", "what the work costs"),
    PRICES(ls_farm, fertilizer, LATER | ABOVE, "$/ton", 0, 100000,
           "{urea: 610 $/ton, DAP: 790 $/ton, muriate of potash: 480 $/ton}", "local prices, to value the nutrients by",
           .tables = "fertilizer"),
    SECTION(ls_farm, tables, 0, &tables_section, "{removal: omafa-25, nitrogen: psu-pan, soil: piedmont}",
            "which published tables to use; see littershed sources"),
    FILES(ls_farm, own_tables, 0, "my-tables.yaml",
          "a file of tables of your own, beside this file: rows that stand in for published "
          "ones, and new ones",
          .names = LS_NAMED_TABLES),
    SECTION(ls_farm, ages, 0, &ls_farm_ages, "{soil: 3 years, litter: 1 year}",
            "how old soil tests and lab reports may be"),
};
const ls_farm_section ls_farm_top = {.name = "farm file",
                                     .size = sizeof(ls_farm),
                                     .at = LS_FARM_NO_PLACE,
                                     .n = sizeof top_keys / sizeof *top_keys,
                                     .keys = top_keys};
