# SPDX-License-Identifier: MIT
# tankcost: build, test and install. `make help` lists the targets.
#
# PREFIX, BINDIR, DATADIR, MANDIR, COMPLETIONDIR, DESTDIR, CC, CPPFLAGS, CFLAGS, LDFLAGS,
# LDLIBS, BUILD (the folder for all that is made), WERROR=1 and V=1 (print the
# commands as they are run) can be given.

PREFIX  ?= /usr/local
BINDIR  ?= $(PREFIX)/bin
DATADIR ?= $(PREFIX)/share/tankcost
MANDIR  ?= $(PREFIX)/share/man
COMPLETIONDIR ?= $(PREFIX)/share
BUILD   ?= build

CFLAGS       ?= -O2 -g
INSTALL      ?= install
PKG_CONFIG   ?= pkg-config
CLANG        ?= clang
CLANG_FORMAT ?= clang-format
CLANG_TIDY   ?= clang-tidy
FUZZ_SECONDS ?= 20

.DEFAULT_GOAL := all
.DELETE_ON_ERROR:
.PHONY: all run check truth bench elsewhere attack machines install uninstall clean deps format format-check lint sanitize valgrind \
	coverage fuzz fuzz-programs dist distcheck help FORCE

# BUILD is removed as a whole by clean.
ifneq ($(filter . .. / src tests profiles man,$(BUILD)),)
$(error BUILD=$(BUILD) would put the tree itself at risk)
endif

# A text as one word of the shell.
quote = '$(subst ','\'',$(1))'

# Building and running needs little; tests need more.
DEPS := build $(if $(filter check sanitize valgrind coverage elsewhere,$(MAKECMDGOALS)),check outside) \
	$(if $(filter machines,$(MAKECMDGOALS)),check machines)
deps: ## install what is missing of what the goals beside it need
	@CC='$(CC)' tests/deps $(DEPS)

# What deps installs changes what the lines below find, so with deps among the
# goals the others wait for it and run in a make of their own.
ifneq ($(and $(filter deps,$(MAKECMDGOALS)),$(filter-out deps,$(MAKECMDGOALS))),)

AFTER_DEPS := $(filter-out deps,$(MAKECMDGOALS))
.PHONY: $(AFTER_DEPS) after-deps
$(AFTER_DEPS): after-deps
	@:
after-deps: deps
	@$(MAKE) --no-print-directory $(AFTER_DEPS)

else

ifneq ($(filter clean,$(MAKECMDGOALS)),)
.NOTPARALLEL: # make -j clean all
endif

# ncurses (wide) and cmocka come with pkg-config files everywhere, iniparser on
# some systems only; where its header lies differs as well.
pkg_cflags = $(shell $(PKG_CONFIG) --cflags $(1) 2>/dev/null)
pkg_libs   = $(shell $(PKG_CONFIG) --libs $(1) 2>/dev/null || echo $(2))
INI_DIRS   := $(wildcard $(addsuffix /include/iniparser,/usr /usr/local /opt/homebrew))
INI_CFLAGS := $(call pkg_cflags,iniparser) $(addprefix -I,$(INI_DIRS))
INI_LIBS   := $(call pkg_libs,iniparser,-liniparser)
# Their -D_XOPEN_SOURCE would redefine ours, which asks for a newer edition.
CURSES_CFLAGS := $(filter-out -D_XOPEN_SOURCE% -D_DEFAULT_SOURCE,$(call pkg_cflags,ncursesw))
CURSES_LIBS   := $(call pkg_libs,ncursesw,-lncursesw -ltinfo)
CMOCKA_CFLAGS := $(call pkg_cflags,cmocka)
CMOCKA_LIBS   := $(call pkg_libs,cmocka,-lcmocka)

WARN := -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wstrict-prototypes -Wmissing-prototypes -Wvla \
	$(if $(filter 1,$(WERROR)),-Werror)
VERSION := $(shell cat src/version.txt)
# What the sources mean, apart from how they are compiled: clang-tidy is told as well.
LANGUAGE := -std=c11 -ffp-contract=off -D_XOPEN_SOURCE=700 -D_DEFAULT_SOURCE -Isrc $(INI_CFLAGS) $(CURSES_CFLAGS) \
	-DTC_VERSION='"$(VERSION)"' $(call quote,-DTC_DATADIR="$(DATADIR)")
# gcc for the x87, which would keep sums in 80 bits: rounded as they are everywhere else.
X87 := $(if $(findstring __FLT_EVAL_METHOD__ 2,$(shell $(CC) $(CFLAGS) -dM -E -x c /dev/null 2>/dev/null)),-mpc64 -ffloat-store \
	-fexcess-precision=fast -DTC_X87_ROUNDED)
COMPILE = $(CC) $(LANGUAGE) $(WARN) $(CPPFLAGS) $(CFLAGS) $(X87)
LINK    = $(CC) $(CFLAGS) $(X87) $(LDFLAGS)
LIBS    = $(LDLIBS) $(INI_LIBS) $(CURSES_LIBS) -lm -lpthread
TEST_FLAGS := -Itests $(CMOCKA_CFLAGS)

OBJ  := $(patsubst %.c,$(BUILD)/%.o,$(sort $(wildcard src/*/*.c src/*/*/*.c)))
MAIN := $(BUILD)/src/main.o
LIB  := $(BUILD)/libtankcost.a
BIN  := $(BUILD)/tankcost

AID_OBJ   := $(patsubst %.c,$(BUILD)/%.o,$(sort $(wildcard tests/support/*.c)))
AID_LIB   := $(BUILD)/libsupport.a
TEST_BIN  := $(patsubst %.c,$(BUILD)/%,$(sort $(wildcard tests/*/test_*.c)))
# tests/support/failing_malloc.h lets these fail; only tests are linked so.
TEST_LDFLAGS := -Wl,--wrap=malloc,--wrap=calloc,--wrap=realloc,--wrap=strdup
TEST_SH   := $(sort $(wildcard tests/*/test_*.sh))
BENCH_BIN := $(patsubst %.c,$(BUILD)/%,$(sort $(wildcard tests/bench/*.c)))
BENCH_SH  := $(sort $(wildcard tests/bench/bench_*.sh))
FUZZ_SRC  := $(sort $(wildcard tests/fuzz/fuzz_*.c))
FUZZ_BIN  := $(FUZZ_SRC:%.c=$(BUILD)/%)
# The same targets with a plain main program, which `check` runs over the kept inputs.
REPLAY    := $(BUILD)/tests/fuzz/replay.o
REPLAY_BIN := $(subst /fuzz_,/replay_,$(FUZZ_BIN))
ALL_OBJ   := $(OBJ) $(MAIN) $(AID_OBJ) $(REPLAY) $(addsuffix .o,$(TEST_BIN) $(BENCH_BIN) $(FUZZ_BIN))
C_FILES   := $(wildcard src/*.[ch] src/*/*.[ch] src/*/*/*.[ch] tests/*/*.[ch])

all: $(BIN) ## build the program (the default)

# Stamps: files rewritten only when the text they hold changes. Objects depend
# on the compiler and flags, archives on the list of their members, so nothing
# is taken over from another compiler, other flags or a source that is gone.
stamp = @mkdir -p $(@D); printf '%s\n' $(call quote,$(1)) | cmp -s - $@ || printf '%s\n' $(call quote,$(1)) >$@

# Names what is made in place of the command that makes it; not under make -s.
brief = $(if $(V),,@$(if $(findstring s,$(firstword -$(MAKEFLAGS))),,echo "  $(1)	$@";))

COMPILER := $(shell $(CC) --version 2>/dev/null | head -n 1)
$(BUILD)/flags: FORCE
	$(call stamp,$(COMPILER) | $(COMPILE) | $(TEST_FLAGS) | $(LINK) | $(LIBS))
$(BUILD)/members: FORCE
	$(call stamp,$(OBJ) | $(AID_OBJ))
FORCE:

# Asked once for each set of flags, for a clearer answer than the compiler's.
$(BUILD)/headers: $(BUILD)/flags
	@printf '#include <%s>\n' ncurses.h iniparser.h | $(COMPILE) -E -x c -o /dev/null - \
		|| { echo "A library tankcost needs is missing (see above): try 'make deps'." >&2; exit 1; }
	@touch $@

# What is put in the place of other functions has to lie outside of what -flto optimizes as one.
$(ALL_OBJ): $(BUILD)/%.o: %.c $(BUILD)/flags | $(BUILD)/headers
	@mkdir -p $(@D)
	$(call brief,CC)$(COMPILE) $(if $(filter tests/%,$<),$(TEST_FLAGS)) $(if $(filter %/failing_malloc.c,$<),-fno-lto) -MMD -MP -c -o $@ $<

$(LIB): $(OBJ) $(BUILD)/members
$(AID_LIB): $(AID_OBJ) $(BUILD)/members
$(LIB) $(AID_LIB):
	@rm -f $@
	$(call brief,AR)$(AR) rcs $@ $(filter %.o,$^)

$(BIN): $(MAIN) $(LIB)
	$(call brief,LINK)$(LINK) -o $@ $^ $(LIBS)

$(TEST_BIN): %: %.o $(AID_OBJ) $(LIB) $(BUILD)/members
	$(call brief,LINK)$(LINK) $(TEST_LDFLAGS) -o $@ $(filter-out %/members,$^) $(CMOCKA_LIBS) $(LIBS)

# From an archive: a benchmark takes what it uses, and allocates undisturbed.
$(BENCH_BIN): %: %.o $(AID_LIB) $(LIB)
	$(call brief,LINK)$(LINK) -o $@ $^ $(CMOCKA_LIBS) $(LIBS)

# Two programs' main() cannot be in one: what is fuzzed is called tankcost_main there.
PROGRAM := $(BUILD)/tests/fuzz/program.o
$(PROGRAM): src/main.c $(BUILD)/flags | $(BUILD)/headers
	@mkdir -p $(@D)
	$(call brief,CC)$(COMPILE) -Dmain=tankcost_main -Wno-missing-prototypes -MMD -MP -c -o $@ $<
$(BUILD)/tests/fuzz/fuzz_command $(BUILD)/tests/fuzz/replay_command: $(PROGRAM)

$(FUZZ_BIN): %: %.o $(AID_LIB) $(LIB)
	$(call brief,LINK)$(LINK) -fsanitize=fuzzer -o $@ $(filter %.o,$^) $(filter %.a,$^) $(LIBS)

$(REPLAY_BIN): $(BUILD)/tests/fuzz/replay_%: $(BUILD)/tests/fuzz/fuzz_%.o $(REPLAY) $(AID_LIB) $(LIB)
	$(call brief,LINK)$(LINK) -o $@ $(filter %.o,$^) $(filter %.a,$^) $(LIBS)

-include $(ALL_OBJ:.o=.d) $(PROGRAM:.o=.d)

run: $(BIN) ## show the demo comparison
	TANKCOST_DATA=profiles $(BIN)

check: $(BIN) $(TEST_BIN) $(REPLAY_BIN) ## run the tests
	@BUILD='$(BUILD)' CC='$(CC)' tests/run $(TEST_BIN) $(REPLAY_BIN) $(TEST_SH)

browser: $(BIN) ## look at pages of HTML in a headless Chromium, if there is one
	@BUILD='$(BUILD)' tests/browser/run

truth: $(BIN) ## compare a thousand random worlds with a second implementation
	@python3 tests/truth/compare.py $(BIN) --worlds 1000 --all-heat
	@python3 tests/truth/room.py $(BIN) profiles --walls 60
	@python3 tests/truth/laws.py $(BIN) profiles --all

bench: $(BIN) $(BENCH_BIN) ## run the benchmarks
	@failed=; for b in $(filter $(BUILD)/tests/bench/bench_%,$(BENCH_BIN)) $(BENCH_SH); do \
		echo "== $$(basename $$b)"; BUILD='$(BUILD)' $$b || failed="$$failed $$b"; \
	done; [ -z "$$failed" ] || { echo "bench: failed:$$failed"; exit 1; }

# The same tests under other conditions, each in a build folder of its own.
SANITIZE := -fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer
sanitize: ## run the tests under the address and undefined behaviour sanitizers
	@$(MAKE) BUILD='$(BUILD)/sanitize' CFLAGS='-O1 -g $(SANITIZE)' TEST_STEP=17 TIMEOUT=600 check

# Not those that make whole sheets and sessions thousands of times: minutes each here, and
# run by sanitize; VALGRIND_NOT= runs them as well.
VALGRIND_NOT := sheet/test_memory sheet/test_wall sheet/test_wall_study sheet/test_band screen/test_state \
	screen/test_reading screen/test_view screen/test_form screen/test_arranging
valgrind: $(TEST_BIN) ## run the C tests under valgrind
	@BUILD='$(BUILD)' TIMEOUT=900 TEST_STEP=97 WRAP='valgrind -q --error-exitcode=99 --leak-check=full --errors-for-leak-kinds=definite,indirect,possible' \
		tests/run $(filter-out $(VALGRIND_NOT:%=$(BUILD)/tests/%),$(TEST_BIN))

# Counters are atomic since some tests run on several threads. The scripts, which start the
# program, add little to what is asked for and take twice as long: but for those of the command.
coverage: ## run the tests and print the line coverage of each folder
	@find '$(BUILD)/coverage' -name '*.gcda' -delete 2>/dev/null || :
	@$(MAKE) BUILD='$(BUILD)/coverage' CFLAGS='-O1 -g --coverage -fprofile-update=atomic' TEST_STEP=97 \
		TEST_SH='$(filter-out %/test_watch.sh,$(wildcard tests/command/test_*.sh))' check
	@tests/coverage '$(BUILD)/coverage'

elsewhere: $(BIN) $(TEST_BIN) $(REPLAY_BIN) ## run tests on other days, in other zones and locales, as another user
	@BUILD='$(BUILD)' tests/elsewhere days
	@BUILD='$(BUILD)' tests/elsewhere place

attack: $(BIN) ## fail allocations and system calls, kill, resize, paste: most of an hour; ATTACK=short: a minute
	@BUILD='$(BUILD)' CC='$(CC)' tests/attack/run $(ATTACK)

machines: ## core, profiles and sheets with other compilers and C libraries, 32 bits, the other byte order
	@BUILD='$(BUILD)' tests/machines/run $(MACHINES)

fuzz: ## feed generated input to the readers, FUZZ_SECONDS each (needs clang)
	@$(MAKE) BUILD='$(BUILD)/fuzz' CC='$(CLANG)' CFLAGS='-O1 -g $(SANITIZE) -fsanitize=fuzzer-no-link' fuzz-programs
	@BUILD='$(BUILD)/fuzz' SECONDS_EACH='$(FUZZ_SECONDS)' tests/fuzz/run $(addprefix $(BUILD)/fuzz/,$(FUZZ_SRC:.c=))
fuzz-programs: $(FUZZ_BIN)

format: ## set all C files in the project's style
	$(CLANG_FORMAT) -i $(C_FILES)

format-check: ## report C files that are not
	@$(CLANG_FORMAT) --dry-run -Werror $(C_FILES)

lint: ## static analysis with cppcheck and clang-tidy
	@CLANG_TIDY='$(CLANG_TIDY)' tests/lint $(LANGUAGE) $(TEST_FLAGS)

MAN_PAGES := $(sort $(wildcard man/*.[1-8]))
MAN_SECTIONS := $(sort $(subst .,,$(suffix $(MAN_PAGES))))
PROFILES := $(sort $(wildcard profiles/*/*.ini))
DATA_DIRS := $(sort $(patsubst profiles/%/,%,$(dir $(PROFILES))))
# Where each shell looks: bash-completion, zsh's site functions, fish's vendors.
COMPLETIONS := bash-completion/completions/tankcost:tankcost.bash zsh/site-functions/_tankcost:_tankcost \
	fish/vendor_completions.d/tankcost.fish:tankcost.fish
completion_at = $(COMPLETIONDIR)/$(firstword $(subst :, ,$(1)))
to = $(call quote,$(DESTDIR)$(1))

install: $(BIN) ## install below DESTDIR and PREFIX
	$(INSTALL) -d $(call to,$(BINDIR)) $(foreach d,$(DATA_DIRS),$(call to,$(DATADIR)/$(d))) \
		$(foreach n,$(MAN_SECTIONS),$(call to,$(MANDIR)/man$(n))) \
		$(foreach c,$(COMPLETIONS),$(call to,$(COMPLETIONDIR)/$(patsubst %/,%,$(dir $(firstword $(subst :, ,$(c)))))))
	$(INSTALL) $(BIN) $(call to,$(BINDIR)/tankcost)
	$(foreach n,$(MAN_SECTIONS),$(INSTALL) -m 644 $(filter %.$(n),$(MAN_PAGES)) $(call to,$(MANDIR)/man$(n)) &&) :
	$(foreach d,$(DATA_DIRS),$(INSTALL) -m 644 $(filter profiles/$(d)/%,$(PROFILES)) $(call to,$(DATADIR)/$(d)) &&) :
	$(foreach c,$(COMPLETIONS),$(INSTALL) -m 644 src/command/completion/$(lastword $(subst :, ,$(c))) $(call to,$(call completion_at,$(c))) &&) :

uninstall: ## remove what install put there
	rm -f $(call to,$(BINDIR)/tankcost) $(foreach p,$(PROFILES),$(call to,$(DATADIR)/$(p:profiles/%=%))) \
		$(foreach m,$(MAN_PAGES),$(call to,$(MANDIR)/man$(subst .,,$(suffix $(m)))/$(notdir $(m)))) \
		$(foreach c,$(COMPLETIONS),$(call to,$(call completion_at,$(c))))
	rmdir $(foreach d,$(DATA_DIRS),$(call to,$(DATADIR)/$(d))) $(call to,$(DATADIR)) 2>/dev/null || :

clean: ## remove all that was built
	rm -rf '$(BUILD)'

# All that belongs at the top of the tree, and so into a release.
TREE := README.md DEVELOPERS.md Makefile src tests profiles man .ci .clang-format .clang-tidy .editorconfig .gitignore
DIST := tankcost-$(VERSION)

dist: ## pack a release into BUILD
	@mkdir -p '$(BUILD)'
	tar -czf '$(BUILD)/$(DIST).tar.gz' --sort=name --owner=0 --group=0 --mode=u+w,go+rX --transform='s,^,$(DIST)/,' $(wildcard $(TREE))

distcheck: dist ## unpack that release elsewhere and run its tests
	rm -rf '$(BUILD)/$(DIST)'
	tar -C '$(BUILD)' -xzf '$(BUILD)/$(DIST).tar.gz'
	$(MAKE) -C '$(BUILD)/$(DIST)' BUILD=build check

help: ## list the targets
	@sed -n 's/^\([a-z-]*\):.*## /\1\t/p' Makefile | while IFS='	' read -r t h; do printf '%-14s%s\n' "$$t" "$$h"; done

endif
