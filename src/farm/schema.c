#include "schema.h"

static const ls_farm_key make_ready_keys[] = {
    LS_FARM_KEY(QUANTITY, ls_make_ready, wash, 0, "washing, disinfecting and drying the houses",
                LS_FARM_IN("days", 0, 365), .example = "3 days"),
    LS_FARM_KEY(QUANTITY, ls_make_ready, repairs, 0, "repairs", LS_FARM_IN("days", 0, 365),
                .example = "2 days"),
    LS_FARM_KEY(QUANTITY, ls_make_ready, bedding, 0, "bedding down and setting up",
                LS_FARM_IN("days", 0, 365), .example = "1 day"),
};
static const ls_farm_section make_ready_section =
    LS_FARM_KEYS(ls_make_ready, "make_ready section", make_ready_keys, .check = NULL);

static const ls_farm_key plan_keys[] = {
    LS_FARM_KEY(YESNO, ls_plan_paper, on_site, LS_FARM_REQUIRED,
                "is a copy of the nutrient management plan kept on the farm?", .example = "yes"),
    LS_FARM_KEY(TEXT, ls_plan_paper, by, 0, "who wrote the plan", .example = "county plan writer"),
    LS_FARM_KEY(DATE, ls_plan_paper, date, 0, "date of the plan", .example = "2025-10-30"),
    LS_FARM_KEY(WORD, ls_plan_paper, records, 0,
                "whose records the plan or permit asks of this farm; left out: the federal ones if "
                "the farm is large by its birds",
                .words = ls_farm_records, .example = "federal"),
};
static const ls_farm_section plan_section =
    LS_FARM_KEYS(ls_plan_paper, "plan section", plan_keys, .check = NULL);

static const ls_farm_key earlier_files_keys[] = {
    LS_FARM_KEY(TEXT, ls_earlier_files, file, LS_FARM_REQUIRED,
                "the farm file of that year, from this file's folder; its haul log lies beside it",
                .names = LS_NAMED_FARM, .example = "2025.yaml"),
    LS_FARM_KEY(TEXT, ls_earlier_files, fields, 0, "a second file that belongs to it",
                .names = LS_NAMED_FARM, .example = "2025-fields.yaml"),
};
static const ls_farm_section earlier_files_section = LS_FARM_KEYS(
    ls_earlier_files, "earlier farm file", earlier_files_keys, .only = "file", .check = NULL);

static const ls_farm_key facts_keys[] = {
    LS_FARM_KEY(TEXT, ls_farm_facts, name, LS_FARM_REQUIRED, "name of the farm",
                .example = "Cedar Fork Flocks"),
    LS_FARM_KEY(TEXT, ls_farm_facts, place, LS_FARM_STARTED, "where it is",
                .example = "near Millrace, Alabama"),
    LS_FARM_PHONE(ls_farm_facts, "the farm's phone; printed on tickets and slips"),
    LS_FARM_KEY(TEXT, ls_farm_facts, permit, LS_FARM_STARTED, "permit number, or none",
                .example = "none"),
    LS_FARM_KEY(TEXT, ls_farm_facts, prepared_by, LS_FARM_STARTED, "who prepared this file",
                .example = "R. Alder"),
    LS_FARM_KEY(SECTION, ls_farm_facts, plan, 0, "the nutrient management plan as a paper",
                .section = &plan_section,
                .example = "{on_site: yes, by: county plan writer, date: 2025-10-30}"),
    LS_FARM_KEY(SECTIONS, ls_farm_facts, earlier, 0,
                "farm files of earlier years; with their haul logs they join the dossier's "
                "phosphorus ledgers and its totals by file and over 12 months; rates and plan do "
                "not read them: they go by ledger: and earlier_litter: of the field",
                .section = &earlier_files_section, .example = "[2025.yaml, 2024.yaml]"),
    LS_FARM_KEY(DATE, ls_farm_facts, next_flock, LS_FARM_STARTED, "day the next flock comes",
                .example = "2026-03-23"),
    LS_FARM_KEY(SECTION, ls_farm_facts, make_ready, 0,
                "days the empty houses need, one after the other, between the cleanout and the "
                "next flock",
                .section = &make_ready_section,
                .example = "{wash: 3 days, repairs: 2 days, bedding: 1 day}"),
    LS_FARM_KEY(TEXT, ls_farm_facts, haul_log, 0,
                "the file of the haul log, from this file's folder; left out: beside this file, "
                "named after it (farm.haul.csv)",
                .names = LS_NAMED_LOG, .example = "2026-spring.haul.csv"),
    LS_FARM_KEY(
        YESNO, ls_farm_facts, quarantine, 0,
        "yes while the farm is under a disease control order: every page says so first, and no "
        "tickets are printed; left out: no",
        .example = "no"),
};
static const ls_farm_section facts_section =
    LS_FARM_KEYS(ls_farm_facts, "farm section", facts_keys, .check = NULL);

static const ls_farm_key tables_keys[] = {
    LS_FARM_KEY(TABLE, ls_table_names, removal, 0, "what a crop takes off the field",
                .tables = "removal", .example = "omafa-25"),
    LS_FARM_KEY(TABLE, ls_table_names, nitrogen, 0,
                "share of the nitrogen a crop can use in the first year", .tables = "nitrogen",
                .example = "psu-pan"),
    LS_FARM_KEY(TABLE, ls_table_names, ammonium, 0,
                "share of the ammonium kept, by delay and weather", .tables = "ammonium",
                .example = "alberta"),
    LS_FARM_KEY(TABLE, ls_table_names, carryover, 0, "nitrogen released in the years after",
                .tables = "carryover", .example = "cornell-n"),
    LS_FARM_KEY(TABLE, ls_table_names, phosphate_and_potash, 0,
                "share of the phosphate and potash a crop can use in the first year; left out: all",
                .tables = "nitrogen", .example = "osu-pan"),
    LS_FARM_KEY(TABLE, ls_table_names, soil, 0, "classes of soil-test phosphorus and potassium",
                .tables = "soil", .example = "piedmont"),
};
static const ls_farm_section tables_section =
    LS_FARM_KEYS(ls_table_names, "tables section", tables_keys, .check = NULL);

static const ls_farm_key costs_keys[] = {
    LS_FARM_KEY(QUANTITY, ls_costs, take_out, LS_FARM_STARTED,
                "taking litter out of the house, and loading it unless load is given",
                LS_FARM_IN("$/ton", 0, 10000), .example = "9 $/ton"),
    LS_FARM_KEY(QUANTITY, ls_costs, load, 0,
                "loading trucks at the house, if it is paid for by itself",
                LS_FARM_IN("$/ton", 0, 10000), .example = "3 $/ton"),
    LS_FARM_KEY(QUANTITY, ls_costs, haul, LS_FARM_STARTED,
                "a truck's cost for each mile driven, full or empty", LS_FARM_IN("$/mi", 0, 1000),
                .example = "2.10 $/mi"),
    LS_FARM_KEY(QUANTITY, ls_costs, spread, LS_FARM_STARTED, "spreading",
                LS_FARM_IN("$/ton", 0, 10000), .example = "8 $/ton"),
    LS_FARM_KEY(QUANTITY, ls_costs, reload, LS_FARM_STARTED, "loading again out of the stack",
                LS_FARM_IN("$/ton", 0, 10000), .example = "4 $/ton"),
    LS_FARM_KEY(QUANTITY, ls_costs, stacking, 0, "putting litter into the stack",
                LS_FARM_IN("$/ton", 0, 10000), .example = "2 $/ton"),
    LS_FARM_KEY(QUANTITY, ls_costs, crew, 0,
                "the crew with its loader for an hour at work; only to compare numbers of trucks",
                LS_FARM_IN("$/h", 0, 10000), .example = "180 $/h"),
    LS_FARM_KEY(QUANTITY, ls_costs, truck, 0,
                "one truck with its driver for an hour on the job; only to compare numbers of "
                "trucks",
                LS_FARM_IN("$/h", 0, 10000), .example = "95 $/h"),
};
static const ls_farm_section costs_section =
    LS_FARM_KEYS(ls_costs, "costs section", costs_keys, .check = NULL);

static const ls_farm_key top_keys[] = {
    LS_FARM_KEY_AS("farm", SECTION, ls_farm, facts, LS_FARM_STARTED, "the farm itself",
                   .section = &facts_section,
                   .example = "{name: Cedar Fork Flocks, next_flock: 2026-03-23}"),
    LS_FARM_KEY(SECTION, ls_farm, tables, 0,
                "which published tables to use; see littershed sources", .section = &tables_section,
                .example = "{removal: omafa-25, nitrogen: psu-pan, soil: piedmont}"),
    LS_FARM_KEY(FILES, ls_farm, own_tables, 0,
                "a file of tables of your own, beside this file: rows that stand in for published "
                "ones, and new ones",
                .names = LS_NAMED_TABLES, .example = "my-tables.yaml"),
    LS_FARM_KEY(SECTIONS, ls_farm, houses, LS_FARM_STARTED, "the houses to be emptied",
                .section = &ls_farm_house,
                .example = "[{name: North, length: 432 ft, width: 40 ft}]"),
    LS_FARM_KEY(SECTIONS, ls_farm, trucks, LS_FARM_STARTED, "the spreader trucks",
                .section = &ls_farm_truck,
                .example = "[{name: spreader truck, count: 2, payload: 11 ton}]"),
    LS_FARM_KEY(SECTION, ls_farm, crew, LS_FARM_STARTED, "the cleanout crew",
                .section = &ls_farm_crew, .example = "{arrives: 2026-02-16, hours: 9 h/day}"),
    LS_FARM_KEY(
        SECTION, ls_farm, stack, 0, "where litter can wait for a field to open",
        .section = &ls_farm_stack,
        .example =
            "{roofed: yes, length: 80 ft, width: 40 ft, height: 6 ft, kept_until: 2026-09-30}"),
    LS_FARM_KEY(
        SECTION, ls_farm, costs, LS_FARM_STARTED, "what the work costs", .section = &costs_section,
        .example = "{take_out: 9 $/ton, haul: 2.10 $/mi, spread: 8 $/ton, reload: 4 $/ton}"),
    LS_FARM_KEY(PRICES, ls_farm, fertilizer, LS_FARM_STARTED | LS_FARM_ABOVE,
                "local prices, to value the nutrients by", LS_FARM_IN("$/ton", 0, 100000),
                .tables = "fertilizer",
                .example = "{urea: 610 $/ton, DAP: 790 $/ton, muriate of potash: 480 $/ton}"),
    LS_FARM_KEY(SECTIONS, ls_farm, buyers, LS_FARM_STARTED,
                "who takes the litter, and their fields", .section = &ls_farm_buyer,
                .example = "[{name: Larkspur Hay, distance: 6.5 mi, price: 31 $/ton}]"),
    LS_FARM_KEY(SECTION, ls_farm, ages, 0, "how old soil tests and lab reports may be",
                .section = &ls_farm_ages, .example = "{soil: 3 years, litter: 1 year}"),
};
const ls_farm_section ls_farm_top = {.name = "farm file",
                                     .size = sizeof(ls_farm),
                                     .at = LS_FARM_NO_PLACE,
                                     .n = sizeof top_keys / sizeof *top_keys,
                                     .keys = top_keys};
