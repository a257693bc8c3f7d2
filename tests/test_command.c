#include "command/entry.h"
#include "command/options.h"
#include "farm_keys.h"
#include "program.h"

#include "littershed/command.h"
#include "littershed/farm.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

/* A run that must end so, with nothing on out and these words on err. */
#define REFUSED(a, code, words, ...)                                                                                   \
    do {                                                                                                               \
        test_run refused = PROGRAM(a, __VA_ARGS__);                                                                    \
        TEST_SAME(refused.status, code);                                                                               \
        TEST_TEXT(refused.out, "");                                                                                    \
        TEST_HOLDS(refused.err, words);                                                                                \
    } while (0)

static void wrong_usage(void) {
    ls_arena *a = ls_arena_new();
    test_run bare = test_program(a, (const char *const[]){NULL});
    TEST_SAME(bare.status, LS_USAGE);
    TEST_HOLDS(bare.err, "littershed --help");
    REFUSED(a, LS_USAGE, "did you mean estimate?", "estmate", DEMO);
    REFUSED(a, LS_USAGE, "there is no command \"xyzzy\"", "xyzzy");
    REFUSED(a, LS_USAGE, "there is no command \"xyzzy\"", "help", "xyzzy");
    REFUSED(a, LS_USAGE, "estimate needs FILE...", "estimate");
    REFUSED(a, LS_USAGE, "does not know what to do with \"b\"", "sources", "a", "b");
    REFUSED(a, LS_USAGE, "did you mean --format?", "estimate", DEMO, "--fromat", "json");
    REFUSED(a, LS_USAGE, "unknown option -z", "estimate", DEMO, "-z");
    REFUSED(a, LS_USAGE, "check takes no option --seed", "check", DEMO, "--seed", "3");
    REFUSED(a, LS_USAGE, "estimate has no format \"xml\"", "estimate", DEMO, "--format", "xml");
    REFUSED(a, LS_USAGE, "--part is one of: tables, sides, ", "estimate", DEMO, "--format", "csv", "--part", "trucks");
    REFUSED(a, LS_USAGE, "--part is for", "estimate", DEMO, "--part", "lots");
    REFUSED(a, LS_USAGE, "always in US units", "estimate", DEMO, "--units", "metric", "--format", "json");
    const char *longest = ls_arena_printf(a, "%05000dEND", 0); /* is told whole */
    REFUSED(a, LS_USAGE, "0END\"", "estimate", DEMO, "--format", longest);
    ls_arena_free(a);
}

/* Long names in full only: --form is no --format, as --dra is no --draws. */
static void shortened_options(void) {
    ls_arena *a = ls_arena_new();
    REFUSED(a, LS_USAGE, "unknown option --form", "estimate", DEMO, "--form", "json");
    REFUSED(a, LS_USAGE, "unknown option --form", "estimate", DEMO, "--form=json");
    REFUSED(a, LS_USAGE, "unknown option --h", "estimate", DEMO, "--h");
    REFUSED(a, LS_USAGE, "unknown option --d", "estimate", DEMO, "--d", "20000");
    ls_arena_free(a);
}

static void words_behind_options(void) {
    ls_arena *a = ls_arena_new();
    REFUSED(a, LS_USAGE, "--seed: \"0\" is not", "estimate", DEMO, "--seed", "0");
    REFUSED(a, LS_USAGE, "--seed: \"-1\" is not", "estimate", DEMO, "--seed", "-1");
    REFUSED(a, LS_USAGE, "--draws: \"1e4\" is not", "estimate", DEMO, "--draws", "1e4");
    REFUSED(a, LS_USAGE, "--draws: \"10000001\" is not", "estimate", DEMO, "--draws", "10000001");
    REFUSED(a, LS_USAGE, "--draws: \"0\" is not", "estimate", DEMO, "--draws", "0");
    REFUSED(a, LS_USAGE, "--draws needs something", "estimate", DEMO, "--draws");
    REFUSED(a, LS_USAGE, "-o needs something", "estimate", DEMO, "-o");
    REFUSED(a, LS_USAGE, "--help takes nothing", "estimate", DEMO, "--help=me");
    REFUSED(a, LS_USAGE, "--units: \"imperial\" is not us or metric", "estimate", DEMO, "--units", "imperial");
    REFUSED(a, LS_USAGE, "--birds: \"ostrich\" is not broiler breeder", "new", "--birds", "ostrich");
    REFUSED(a, LS_USAGE, "--depth: \"-1\" is not", "explain", DEMO, "--depth", "-1");
    ls_arena_free(a);
}

static void options_anywhere(void) {
    ls_arena *a = ls_arena_new();
    test_run last = PROGRAM(a, "estimate", FEW, DEMO, "--format", "json", "--seed", "7");
    TEST_SAME(last.status, LS_DONE);
    TEST_TEXT(PROGRAM(a, "--format=json", "estimate", "--seed=7", FEW, DEMO).out, last.out);
    TEST_TEXT(PROGRAM(a, "estimate", FEW, DEMO_HOUSE, "--seed", "7", "--format", "json", "--", DEMO_FIELDS).out,
              last.out);
    REFUSED(a, LS_MISTAKE, "--seed", "estimate", DEMO, "--", "--seed"); /* behind -- it is a file */
    ls_arena_free(a);
}

static void mistakes_in_the_input(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    const char *bad = test_replace(a, test_file_text(a, DEMO_HOUSE), "    hens:", "    hnes:");
    const char *path = test_file(a, folder, "bad.yaml", bad);
    REFUSED(a, LS_MISTAKE, "no-such-file.yaml", "check", "no-such-file.yaml");
    REFUSED(a, LS_MISTAKE, "hnes", "check", path);
    REFUSED(a, LS_MISTAKE, "hens", "estimate", path);
    REFUSED(a, LS_MISTAKE, "no fields", "rates", DEMO_HOUSE);
    REFUSED(a, LS_MISTAKE, "no table \"removl-us-crops\"; did you mean removal-us-crops?", "sources",
            "removl-us-crops");
    test_folder_end(folder);
    ls_arena_free(a);
}

static void written_whole(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    const char *page = ls_arena_printf(a, "%s/page", folder);
    test_run shown = PROGRAM(a, "estimate", FEW, DEMO_HOUSE),
             written = PROGRAM(a, "estimate", FEW, DEMO_HOUSE, "-o", page);
    TEST_SAME(written.status, LS_DONE);
    TEST_TEXT(written.out, "");
    TEST_TEXT(test_file_text(a, page), shown.out);
    TEST_SAME(test_folder_count(folder), 1);
    TEST_TEXT(PROGRAM(a, "estimate", FEW, DEMO_HOUSE, "--output=-").out, shown.out);
    test_folder_end(folder);
    ls_arena_free(a);
}

static void not_written_at_all(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a), *page = ls_arena_printf(a, "%s/page", folder);
    REFUSED(a, LS_MISTAKE, "no-such-file.yaml", "estimate", "no-such-file.yaml", "-o", page);
    REFUSED(a, LS_USAGE, "unknown option", "estimate", DEMO, "-o", page, "--nonsense");
    TEST_SAME(test_folder_count(folder), 0);
    test_file(a, folder, "page", "what was there");
    REFUSED(a, LS_MISTAKE, "no fields", "rates", DEMO_HOUSE, "-o", page);
    TEST_TEXT(test_file_text(a, page), "what was there");
    const char *nowhere = ls_arena_printf(a, "%s/none/page", folder);
    REFUSED(a, LS_USAGE, "cannot write", "estimate", DEMO_HOUSE, "-o", nowhere);
    REFUSED(a, LS_USAGE, "cannot write", "estimate", DEMO_HOUSE, "-o", folder);
    test_folder_end(folder);
    ls_arena_free(a);
}

/* -o does not eat a farm file, whatever name it goes by. */
static void inputs_stay(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a), *text = test_file_text(a, DEMO_HOUSE);
    const char *farm = test_file(a, folder, "farm.yaml", text);
    REFUSED(a, LS_USAGE, "is one of the files that are read", "estimate", farm, "-o", farm);
    const char *other = ls_arena_printf(a, "%s/./farm.yaml", folder);
    REFUSED(a, LS_USAGE, "is one of the files that are read", "estimate", farm, "-o", other);
    TEST_TEXT(test_file_text(a, farm), text);
    test_folder_end(folder);
    ls_arena_free(a);
}

/* A full disk and a closed pipe are failures that are told. */
static int to_a_full_disk(void *context) {
    (void)context;
    FILE *full = fopen("/dev/full", "w");
    char *argv[] = {(char *)"littershed", (char *)"sources", NULL};
    int code = ls_command_main(2, argv, full, stderr);
    fclose(full);
    return code;
}

static int to_a_closed_pipe(void *context) {
    (void)context;
    int ends[2];
    if (pipe(ends) != 0) return -1;
    close(ends[0]);
    FILE *closed = fdopen(ends[1], "w");
    char *argv[] = {(char *)"littershed", (char *)"sources", NULL};
    int code = ls_command_main(2, argv, closed, stderr);
    fclose(closed);
    return code;
}

static void failed_writes(void) {
    ls_arena *a = ls_arena_new();
    test_run full = test_call(a, to_a_full_disk, NULL, NULL), closed = test_call(a, to_a_closed_pipe, NULL, NULL);
    TEST_SAME(full.status, LS_SYSTEM);
    TEST_HOLDS(full.err, "littershed: cannot write the output: ");
    TEST_SAME(closed.status, LS_SYSTEM);
    TEST_HOLDS(closed.err, "littershed: cannot write the output: ");
    ls_arena_free(a);
}

static int check_standard_input(void *context) {
    (void)context;
    char *argv[] = {(char *)"littershed", (char *)"check", (char *)"-", NULL};
    return ls_command_main(3, argv, stdout, stderr);
}

static void standard_input(void) {
    ls_arena *a = ls_arena_new();
    test_run good = test_call(a, check_standard_input, NULL, test_file_text(a, DEMO_HOUSE));
    TEST_SAME(good.status, LS_DONE);
    TEST_HOLDS(good.out, "\nNo mistakes found. ");
    test_run bad = test_call(a, check_standard_input, NULL, "houses: nonsense\n");
    TEST_SAME(bad.status, LS_MISTAKE);
    TEST_HOLDS(bad.err, "standard input:1:");
    ls_arena_free(a);
}

static void help_pages(void) {
    ls_arena *a = ls_arena_new();
    test_run all = PROGRAM(a, "--help");
    const char *manual = test_file_text(a, "man/littershed.1");
    TEST_SAME(all.status, LS_DONE);
    TEST_TEXT(PROGRAM(a, "help").out, all.out);
    for (size_t i = 0; ls_command_at(i) != NULL; i++) {
        const char *name = ls_command_at(i)->name;
        test_run one = PROGRAM(a, name, "--help");
        TEST_SAME(one.status, LS_DONE);
        TEST_TEXT(PROGRAM(a, "help", name).out, one.out);
        TEST_TEXT(PROGRAM(a, "-h", name).out, one.out);
        TEST_HOLDS(one.out, ls_arena_printf(a, "Usage: littershed %s", name));
        TEST_HOLDS(all.out, ls_arena_printf(a, "\n  %s ", name));
        TEST_HOLDS(manual, ls_arena_printf(a, "\n.It Cm %s\n", name));
        TEST_HOLDS(manual, ls_arena_printf(a, "\n.Cm %s\n", name));
    }
    for (ls_option i = LS_OPTION_HELP; i < LS_OPTIONS; i++)
        TEST_HOLDS(manual, ls_arena_printf(a, "Fl Fl %s", ls_option_at(i)->name));
    ls_arena_free(a);
}

static void version(void) {
    ls_arena *a = ls_arena_new();
    test_run run = PROGRAM(a, "--version");
    TEST_SAME(run.status, LS_DONE);
    TEST_SAME(strncmp(run.out, "littershed " LITTERSHED_VERSION "\n", strlen("littershed " LITTERSHED_VERSION "\n")),
              0);
    TEST_HOLDS(run.out, "\ntables ");
    TEST_HOLDS(run.out, "GPL-3.0-or-later");
    TEST_HOLDS(run.out, "no warranty");
    TEST_HOLDS(run.out, "libyaml ");
    TEST_HOLDS(run.out, "GLPK ");
    ls_arena_free(a);
}

static void same_input_same_bytes(void) {
    ls_arena *a = ls_arena_new();
    static const char *const commands[] = {"check", "estimate", "rates", "plan", "tickets", "dossier", "explain"};
    for (size_t i = 0; i < sizeof commands / sizeof *commands; i++)
        TEST_TEXT(PROGRAM(a, commands[i], DEMO, FEW).out, PROGRAM(a, commands[i], DEMO, FEW).out);
    test_run one = PROGRAM(a, "estimate", FEW, DEMO, "--format", "json", "--seed", "1");
    test_run two = PROGRAM(a, "estimate", FEW, DEMO, "--format", "json", "--seed", "2");
    CU_ASSERT_TRUE(strcmp(one.out, two.out) != 0);
    TEST_TEXT(PROGRAM(a, "estimate", FEW, DEMO, "--format", "json").out, one.out);
    /* draws come in blocks of 10,000 */
    TEST_TEXT(PROGRAM(a, "estimate", DEMO, "--draws", "10001").out,
              PROGRAM(a, "estimate", DEMO, "--draws", "20000").out);
    ls_arena_free(a);
}

static void keys_and_files(void) {
    ls_arena *a = ls_arena_new();
    test_run tons = PROGRAM(a, "explain", FEW, DEMO, "north.dry_tons");
    TEST_SAME(tons.status, LS_DONE);
    TEST_HOLDS(tons.out, "\nnorth.dry_tons: ");
    TEST_TEXT(PROGRAM(a, "explain", FEW, "north.dry_tons", DEMO).out, tons.out);
    REFUSED(a, LS_MISTAKE, "did you mean north.dry_tons?", "explain", DEMO, "north.dry_tosn");
    REFUSED(a, LS_MISTAKE, "there is north.dry_tons", "explain", DEMO, "dry_ton");
    REFUSED(a, LS_USAGE, "one key", "explain", DEMO, "north.dry_tons", "south.dry_tons");
    REFUSED(a, LS_USAGE, "a key or --all", "explain", DEMO, "--all", "north.dry_tons");
    REFUSED(a, LS_USAGE, "needs a farm file", "explain", "north.dry_tons");
    REFUSED(a, LS_MISTAKE, "gone.yaml", "explain", "gone.yaml", "north.dry_tons");
    ls_arena_free(a);
}

/* What a grower writes behind a key that is to be filled in, in US and metric units. */
static const char *filled(const char *key, bool metric) {
    static const char *const answers[][3] = {{"name", "Home", "Home"},
                                             {"length", "390 ft", "119 m"},
                                             {"width", "42 ft", "12.8 m"},
                                             {"slats", "66 %", "66 %"},
                                             {"scratch", "34 %", "34 %"},
                                             {"material", "rice hulls", "rice hulls"},
                                             {"depth", "2.5 in", "6 cm"},
                                             {"hens", "7100", "7100"},
                                             {"count", "7100", "7100"},
                                             {"placed", "2025-10-06", "2025-10-06"},
                                             {"removed", "2025-11-17", "2025-11-17"},
                                             {"flocks", "3", "3"},
                                             {"age", "78 days", "78 days"}};
    for (size_t i = 0; i < sizeof answers / sizeof *answers; i++)
        if (strcmp(answers[i][0], key) == 0) return answers[i][metric ? 2 : 1];
    TEST_TEXT(key, "a key that a grower can answer");
    return "";
}

/* A starter file with its lines filled in; *n: how many. */
static const char *fill_in(ls_arena *a, const char *starter, bool metric, size_t *n) {
    ls_text *t = ls_text_new(a);
    *n = 0;
    for (const char *line = starter; *line != '\0'; line += strcspn(line, "\n") + 1) {
        size_t length = strcspn(line, "\n"), key = strspn(line, " -"), colon = strcspn(line, ":");
        const char *mark = strstr(line, "# " LS_STARTER_FILL);
        bool blank = mark != NULL && mark < line + length;
        *n += blank;
        ls_text_add_n(t, line, blank ? colon + 1 : length);
        if (blank) ls_text_addf(t, " %s", filled(ls_arena_copy_n(a, line + key, colon - key), metric));
        ls_text_add(t, "\n");
    }
    return t->s;
}

/* What `new` prints for birds of any kind, however kept, gives an estimate once the lines that say
 * so are filled in: twelve at most. */
static void starter_of(ls_arena *a, const char *folder, const char *bird, const char *housing, bool metric) {
    const char *path = ls_arena_printf(a, "%s/%s-%s-%d.yaml", folder, ls_text_slug(a, bird), housing, metric);
    const char *why;
    test_run new = PROGRAM(a, "new", "--birds", bird, "--housing", housing, "--units", metric ? "metric" : "us");
    TEST_SAME(new.status, LS_DONE);
    size_t n;
    const char *text = fill_in(a, new.out, metric, &n);
    size_t houses = 1;
    for (const char *s = housing; (s = strchr(s, ',')) != NULL; s++) houses++;
    CU_ASSERT(n >= 6 && n <= 12 * houses);
    char *named = ls_arena_copy(a, text), *name = named; /* Home, Iome, ... */
    for (char k = 0; houses > 1 && (name = strstr(name, "  - name: Home")) != NULL; k++)
        name += strlen("  - name: "), *name = (char)('H' + k);
    text = named;
    CU_ASSERT_TRUE(ls_file_write(a, path, text, strlen(text), &why));
    test_run checked = PROGRAM(a, "check", path, "--format", "json");
    TEST_SAME(checked.status, LS_DONE);
    TEST_TEXT(checked.err, "");
    TEST_HOLDS(checked.out, ls_arena_printf(a, "\"birds\": \"%s\"", bird));
    test_run tons = PROGRAM(a, "estimate", path, "--draws", "1");
    TEST_SAME(tons.status, LS_DONE);
    TEST_HOLDS(tons.out, " tons likely (");
    CU_ASSERT_PTR_NULL(strstr(tons.out, "NOT YOUR FARM YET"));
    REFUSED(a, LS_USAGE, "is there already", "new", "-o", path);
}

static void starter_files(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    for (int bird = 1; bird < LS_BIRDS; bird++)
        for (const char *const *housing = ls_farm_housings(a, bird); *housing != NULL; housing++)
            for (int metric = 0; metric < 2; metric++) starter_of(a, folder, ls_bird_name(bird), *housing, metric);
    starter_of(a, folder, "turkey tom", "brooder,grower", true);
    starter_of(a, folder, "broiler", "new-litter,built-up", false);
    REFUSED(a, LS_USAGE, "brooder, grower", "new", "--birds", "turkey tom", "--housing", "brooder,slats");
    REFUSED(a, LS_USAGE, "slats, litter", "new", "--housing", "belt");
    test_folder_end(folder);
    ls_arena_free(a);
}

/* A metric starter says what the other does: every example within the five percent of two
 * digits. */
static void metric_starter(void) {
    ls_arena *a = ls_arena_new();
    const char *page = ls_farm_starter(a, (ls_starter){.metric = true, .example = true});
    static const char *const lines[] = {/* GNU units: 432 ft, 3 in, 11 tons, 20 yd3, 6 mph ... */
                                        "length: 132 m",       "depth: 7.6 cm",
                                        "payload: 10 tonne",   "body: 15 m3",
                                        "spreading: 9.7 km/h", "take_out: 9.9 $/tonne",
                                        "haul: 1.3 $/km",      "nitrogen: 135 kg/ha",
                                        "area: 11 ha",         "loose_density: 529 497 513 kg/m3"};
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) TEST_HOLDS(page, lines[i]);
    ls_arena_free(a);
}

/* --digits draws until the totals are sure, or says that the most draws were not enough. */
static void digits(void) {
    ls_arena *a = ls_arena_new();
    test_run sure = PROGRAM(a, "estimate", DEMO, "--full", "--digits", "1");
    TEST_SAME(sure.status, LS_DONE);
    TEST_HOLDS(sure.out, "enough to be sure of 1 significant digit of the spread");
    test_run capped = PROGRAM(a, "estimate", DEMO, "--full", "--digits", "2", "--draws", "20000");
    TEST_SAME(capped.status, LS_DONE);
    TEST_HOLDS(capped.out, "Drawn 20,000 times, the most allowed: not enough");
    REFUSED(a, LS_USAGE, "1 or 2", "estimate", DEMO, "--digits", "3");
    ls_arena_free(a);
}

/* A starter file with its n-th commented key in use; NULL past the last one. */
static const char *with_suggestion(ls_arena *a, const char *starter, size_t n) {
    ls_text *t = ls_text_new(a);
    bool found = false;
    for (const char *line = starter; *line;) {
        size_t length = strcspn(line, "\n") + 1, indent = strspn(line, " ");
        size_t word = indent + 1 + strspn(line + indent + 1, "abcdefghijklmnopqrstuvwxyz_");
        bool suggested = line[indent] == '#' && line[word] == ':' && word > indent + 1;
        bool use = suggested && n-- == 0;
        found |= use;
        ls_text_add_n(t, line, use ? indent : length);
        if (use) ls_text_add_n(t, line + indent + 1, length - indent - 1);
        line += length;
    }
    return found ? t->s : NULL;
}

/* Any key that a starter file suggests may be put to use: at the worst a mistake is told, never a
 * fault. A file that is named there names itself. */
static void starter_suggestions(void) {
    static const int birds[] = {LS_BROILER_BREEDER, LS_BROILER, LS_LAYER};
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a), *why, *path = ls_arena_printf(a, "%s/farm.yaml", folder);
    size_t done = 0, n_birds = test_count("STARTER_BIRDS", 1);
    for (size_t i = 0; i < n_birds && i < sizeof birds / sizeof *birds; i++) {
        const char *text, *starter = test_starter(a, birds[i]);
        for (size_t n = 0; (text = with_suggestion(a, starter, n)) != NULL; n++) {
            CU_ASSERT_TRUE(ls_file_write(a, path, text, strlen(text), &why));
            test_run run = PROGRAM(a, "rates", path, "--draws", "1");
            CU_ASSERT_TRUE(run.status == LS_DONE || run.status == LS_MISTAKE);
            if (run.status != LS_DONE && strncmp(run.err, folder, strlen(folder)) != 0)
                TEST_TEXT(run.err, "a message that names the file");
            done += run.status == LS_DONE;
        }
    }
    CU_ASSERT_TRUE(done > 13 * n_birds);
    test_folder_end(folder);
    ls_arena_free(a);
}

/* The keys in the manual page of the farm file are those of the schema, its crops those of the
 * tables. */
static void farm_manual(void) {
    ls_arena *a = ls_arena_new();
    TEST_HOLDS(test_file_text(a, "man/littershed-farm.5"), ls_arena_printf(a, "%s.Sh OWN TABLES\n", test_farm_keys(a)));
    ls_arena_free(a);
}

/* ---- sources of what pages cite ---- */

/* Every id in parentheses on a page is answered by sources: "(ksu-value)", "(common practice)". */
static size_t ask_cited(ls_arena *a, const char *page) {
    static const char letters[] = "abcdefghijklmnopqrstuvwxyz0123456789-";
    size_t asked = 0;
    for (const char *at = strchr(page, '('); at != NULL; at = strchr(at + 1, '(')) {
        size_t n = strspn(at + 1, letters);
        const char *id = ls_arena_copy_n(a, at + 1, n);
        if (at[n + 1] != ')' || strchr(id, '-') == NULL || id[0] < 'a') /* or a range */
            continue;
        asked++;
        test_run run = PROGRAM(a, "sources", id);
        CU_ASSERT_EQUAL(run.status, LS_DONE);
    }
    return asked;
}

static void cited_sources(void) {
    static const char *const pages[] = {"estimate", "rates", "plan", "tickets"};
    static const char *const ids[] = {"psu-pan",   "aces-removal", "botulism-nsw",
                                      "niosh-nh3", "ga-load",      "common practice"};
    ls_arena *a = ls_arena_new();
    size_t asked = 0;
    for (size_t i = 0; i < sizeof pages / sizeof *pages; i++)
        asked += ask_cited(a, PROGRAM(a, pages[i], FEW, DEMO).out);
    CU_ASSERT(asked > 3);
    for (size_t i = 0; i < sizeof ids / sizeof *ids; i++) TEST_SAME(PROGRAM(a, "sources", ids[i]).status, LS_DONE);
    ls_arena_free(a);
}

TEST_SUITE(command) = {{"wrong usage is exit 2", wrong_usage},
                       {"long options in full only", shortened_options},
                       {"what may stand behind options", words_behind_options},
                       {"options stand anywhere", options_anywhere},
                       {"mistakes in the input are exit 1", mistakes_in_the_input},
                       {"-o writes the whole", written_whole},
                       {"-o writes nothing on a mistake", not_written_at_all},
                       {"-o leaves the inputs", inputs_stay},
                       {"a failed write is exit 3", failed_writes},
                       {"standard input", standard_input},
                       {"help names all there is", help_pages},
                       {"version", version},
                       {"manual of the farm file is up to date", farm_manual},
                       {"same input, same bytes", same_input_same_bytes},
                       {"explain: keys and files", keys_and_files},
                       {"starter files pass check", starter_files},
                       {"starter files in metric units", metric_starter},
                       {"what a starter suggests works", starter_suggestions},
                       {"draws until sure", digits},
                       {"sources of what pages cite", cited_sources},
                       CU_TEST_INFO_NULL};
