# littershed: `make`, `make test`, `make demo`, `make san`, `make bench`, `make install PREFIX=... DESTDIR=...`
# VARIANT: release (build/littershed), san, clang, clang-san (build/VARIANT/littershed).
# Warnings are errors; -ffp-contract=off keeps the printed digits alike from machine to machine.

VARIANT ?= release
PREFIX ?= /usr/local
DESTDIR ?=
VERSION := 0.1.0
comma := ,

OBJ := build/$(VARIANT)
PROGRAM := $(if $(filter release,$(VARIANT)),build/littershed,$(OBJ)/littershed)
LIBRARY := $(OBJ)/liblittershed.a
RUNNER := $(OBJ)/run-tests

ifneq ($(filter clang%,$(VARIANT)),)
CC := clang
endif
OPTIMIZE := -O2
ifneq ($(filter %san,$(VARIANT)),)
OPTIMIZE := -O1 -g -fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer
endif
WARNINGS := -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Wstrict-prototypes -Wmissing-prototypes \
    -Wwrite-strings -Wpointer-arith -Wundef -Wvla -Werror
CFLAGS ?= $(OPTIMIZE)

# A farm file comes from anybody: what overruns a buffer all the same ends the program, and code is hard to find, not to be
# written to and not to be entered in its middle. The sanitizers watch by themselves; fortify needs an optimizer.
HARDENED := $(if $(filter %san,$(VARIANT)),,$(filter -O1 -O2 -O3 -Os,$(CFLAGS)))
MACHINE := $(if $(HARDENED),$(shell $(CC) -dumpmachine))
HARDEN := $(if $(HARDENED),-fPIE -fstack-protector-strong -U_FORTIFY_SOURCE -D_FORTIFY_SOURCE=2 \
    $(if $(filter x86_64-% i686-%,$(MACHINE)),-fcf-protection=full) \
    $(if $(filter aarch64-%,$(MACHINE)),-mbranch-protection=standard))
HARDEN_LINK := $(if $(HARDENED),-pie -Wl$(comma)-z$(comma)relro$(comma)-z$(comma)now$(comma)-z$(comma)noexecstack)

ALL_CFLAGS := -std=c11 $(WARNINGS) -ffp-contract=off $(CFLAGS) $(HARDEN) -D_POSIX_C_SOURCE=200809L \
    -DLITTERSHED_VERSION='"$(VERSION)"' -Iinclude -Isrc
ALL_LDFLAGS = $(HARDEN_LINK) $(LDFLAGS)
LIBS := -lyaml -lgsl -lgslcblas -lglpk -ljansson -lm -lpthread

SOURCES := $(sort $(wildcard src/*/*.c) $(filter-out src/reference/embed/%,$(wildcard src/*/*/*.c)))
TABLES := $(sort $(wildcard src/reference/*.yaml))
OBJECTS := $(SOURCES:%.c=$(OBJ)/%.o) $(OBJ)/tables.o
TESTS := $(sort $(wildcard tests/*.c))
TEST_OBJECTS := $(TESTS:%.c=$(OBJ)/%.o)
DEMO := fixtures/demo-house.yaml fixtures/demo-fields.yaml

.PHONY: all san test demo bench bench-tool calibrate install clean format headers
.DELETE_ON_ERROR:
all: $(PROGRAM)

$(PROGRAM): $(OBJ)/src/main.o $(LIBRARY)
	@echo "  link $@"
	@$(CC) $(ALL_CFLAGS) $(ALL_LDFLAGS) -o $@ $(OBJ)/src/main.o $(LIBRARY) $(LIBS)

$(LIBRARY): $(OBJECTS)
	@rm -f $@
	@ar rcs $@ $(OBJECTS)

$(OBJ)/%.o: %.c Makefile
	@mkdir -p $(@D)
	@echo "  compile $<"
	@$(CC) $(ALL_CFLAGS) -MMD -MP -c -o $@ $<

# The published tables, read when the program is built and written as data: a mistake in them stops the build.
EMBED := $(OBJ)/embed-tables
EMBED_OBJECTS := $(patsubst %.c,$(OBJ)/%.o,$(wildcard src/reference/embed/embed.c src/base/*.c src/reference/*.c))
$(EMBED): $(EMBED_OBJECTS)
	@$(CC) $(ALL_CFLAGS) $(ALL_LDFLAGS) -o $@ $(EMBED_OBJECTS) $(LIBS)

$(OBJ)/tables.c: $(TABLES) $(EMBED)
	@$(EMBED) $(TABLES) > $@

$(OBJ)/tables.o: $(OBJ)/tables.c
	@$(CC) $(ALL_CFLAGS) -c -o $@ $<

$(RUNNER): $(TEST_OBJECTS) $(LIBRARY)
	@echo "  link $@"
	@$(CC) $(ALL_CFLAGS) $(ALL_LDFLAGS) -o $@ $(TEST_OBJECTS) $(LIBRARY) -lcunit $(LIBS)

san:
	$(MAKE) VARIANT=san

test: $(PROGRAM) $(RUNNER)
	$(RUNNER)
	sh tests/rooms.sh $(OBJ)
	sh tests/leftovers.sh
	bash tests/readme_lines.sh
	$(if $(HARDENED),sh tests/hardened.sh $(PROGRAM) $(LIBRARY))

# Speed against numpy and a bare libyaml parse; the tool times ls_draw within the program.
BENCH := $(OBJ)/bench-tool
BENCH_OBJECTS := $(patsubst %.c,$(OBJ)/%.o,$(sort $(wildcard tests/bench/*.c)) tests/split_world.c)
$(BENCH_OBJECTS): ALL_CFLAGS += -Itests
# The bench times some functions of the program, counts in some and leaves some out.
BENCH_WRAPS := ls_draw ls_draw_each ls_haul_dive ls_haul_improve ls_haul_top_up ls_haul_stack_up \
    ls_haul_arrangement_solve glp_simplex glp_intopt glp_ios_branch_upon
$(BENCH): $(BENCH_OBJECTS) $(LIBRARY)
	@echo "  link $@"
	@$(CC) $(ALL_CFLAGS) $(ALL_LDFLAGS) $(BENCH_WRAPS:%=-Wl,--wrap=%) -o $@ $(BENCH_OBJECTS) $(LIBRARY) $(LIBS)

bench-tool: $(BENCH)

bench: $(PROGRAM) $(BENCH)
	/usr/bin/python3 -B tests/bench/bench.py $(PROGRAM) $(BENCH)

-include $(BENCH_OBJECTS:.o=.d)

# Do the ranges hold what they say? Farms drawn by chance, sources left out, published totals.
CALIBRATE := $(OBJ)/calibrate
CALIBRATE_OBJECTS := $(patsubst %.c,$(OBJ)/%.o,$(sort $(wildcard tests/bench/calibrate/*.c)))
$(CALIBRATE_OBJECTS): ALL_CFLAGS += -Itests
$(CALIBRATE): $(CALIBRATE_OBJECTS) $(LIBRARY)
	@echo "  link $@"
	@$(CC) $(ALL_CFLAGS) $(LDFLAGS) -o $@ $(CALIBRATE_OBJECTS) $(LIBRARY) $(LIBS)

calibrate: $(CALIBRATE)
	$(CALIBRATE) $(DEMO)

-include $(CALIBRATE_OBJECTS:.o=.d)

demo: $(PROGRAM)
	$(PROGRAM) estimate $(DEMO)
	$(PROGRAM) rates $(DEMO)
	$(PROGRAM) plan $(DEMO)

install: $(PROGRAM)
	install -d $(DESTDIR)$(PREFIX)/bin $(DESTDIR)$(PREFIX)/lib $(DESTDIR)$(PREFIX)/share/man/man1 \
	    $(DESTDIR)$(PREFIX)/share/man/man5 \
	    $(patsubst include/%,$(DESTDIR)$(PREFIX)/include/%,$(wildcard include/littershed include/littershed/*/))
	install -m 755 $(PROGRAM) $(DESTDIR)$(PREFIX)/bin/littershed
	install -m 644 $(LIBRARY) $(DESTDIR)$(PREFIX)/lib/
	for h in include/littershed/*.h include/littershed/*/*.h; do \
	    install -m 644 $$h $(DESTDIR)$(PREFIX)/$$h || exit 1; done
	install -m 644 man/*.1 $(DESTDIR)$(PREFIX)/share/man/man1/
	install -m 644 man/*.5 $(DESTDIR)$(PREFIX)/share/man/man5/

format:
	clang-format -i $(wildcard src/*.c src/*/*.c src/*/*.h src/*/*/*.c src/*/*/*.h include/littershed/*.h include/littershed/*/*.h tests/*.c tests/*.h)

clean:
	rm -rf build

-include $(OBJECTS:.o=.d) $(TEST_OBJECTS:.o=.d) $(EMBED_OBJECTS:.o=.d) $(OBJ)/src/main.d
