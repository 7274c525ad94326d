# SPDX-License-Identifier: MIT
# tankcost: build, test and install. `make help` lists the targets.

PREFIX  ?= /usr/local
BINDIR  ?= $(PREFIX)/bin
DATADIR ?= $(PREFIX)/share/tankcost
MANDIR  ?= $(PREFIX)/share/man
DESTDIR ?=
BUILD   ?= build

ifeq ($(origin CC),default)
CC = gcc
endif
CFLAGS  ?= -O2 -g
INSTALL ?= install
PKG_CONFIG ?= pkg-config

VERSION := $(shell cat src/version.txt 2>/dev/null)

WARN = -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wstrict-prototypes \
       -Wmissing-prototypes -Wvla
ifeq ($(WERROR),1)
WARN += -Werror
endif

# ncurses (wide) and cmocka come with pkg-config files everywhere; iniparser on some systems only.
pkg_cflags = $(shell $(PKG_CONFIG) --cflags $(1) 2>/dev/null)
pkg_libs   = $(shell $(PKG_CONFIG) --libs $(1) 2>/dev/null || echo $(2))
INI_HEADER_DIR := $(firstword $(patsubst %/iniparser.h,%,$(wildcard \
	/usr/include/iniparser/iniparser.h /usr/local/include/iniparser/iniparser.h)))
INI_CFLAGS := $(or $(call pkg_cflags,iniparser),$(addprefix -I,$(INI_HEADER_DIR)))
INI_LIBS   := $(call pkg_libs,iniparser,-liniparser)
# Their -D_XOPEN_SOURCE would redefine ours, which asks for a newer edition.
CURSES_CFLAGS := $(filter-out -D_XOPEN_SOURCE% -D_DEFAULT_SOURCE,$(call pkg_cflags,ncursesw))
CURSES_LIBS   := $(call pkg_libs,ncursesw,-lncursesw -ltinfo)
CMOCKA_CFLAGS := $(call pkg_cflags,cmocka)
CMOCKA_LIBS   := $(call pkg_libs,cmocka,-lcmocka)

STD = -std=c11 -D_XOPEN_SOURCE=700 -D_DEFAULT_SOURCE
DEFS = -DTC_VERSION='"$(VERSION)"' -DTC_DATADIR='"$(DATADIR)"'
ALL_CFLAGS = $(STD) -Isrc $(INI_CFLAGS) $(CURSES_CFLAGS) $(DEFS) $(WARN) $(CPPFLAGS) $(CFLAGS)
LIBS = $(INI_LIBS) $(CURSES_LIBS) -lm -lpthread

SRC  := $(sort $(wildcard src/*/*.c))
OBJ  := $(SRC:%.c=$(BUILD)/%.o)
MAIN := $(BUILD)/src/main.o
LIB  := $(BUILD)/libtankcost.a
BIN  := $(BUILD)/tankcost

TEST_SUPPORT := $(sort $(wildcard tests/support/*.c))
TEST_SRC  := $(sort $(wildcard tests/*/test_*.c))
TEST_BIN  := $(TEST_SRC:%.c=$(BUILD)/%)
TEST_SH   := $(sort $(wildcard tests/*/test_*.sh))
# tests/support/failing_malloc.h lets these fail; only tests are linked so.
TEST_LDFLAGS = -Wl,--wrap=malloc,--wrap=calloc,--wrap=realloc,--wrap=strdup
BENCH_SRC := $(sort $(wildcard tests/bench/bench_*.c))
BENCH_BIN := $(BENCH_SRC:%.c=$(BUILD)/%)

.PHONY: all run check bench install uninstall clean deps format format-check lint sanitize coverage fuzz help FORCE
.SECONDARY:
.DELETE_ON_ERROR:

all: $(BIN)

# Objects depend on a stamp that holds the compiler and flags: change either and everything is rebuilt.
FLAG_STAMP := $(BUILD)/flags
STAMP_TEXT = $(CC) $(shell $(CC) -dumpfullversion 2>/dev/null) $(ALL_CFLAGS) $(LDFLAGS) $(LIBS)
$(FLAG_STAMP): FORCE
	@mkdir -p $(BUILD)
	@printf '%s\n' $(call shell_quote,$(STAMP_TEXT)) | cmp -s - $@ || printf '%s\n' $(call shell_quote,$(STAMP_TEXT)) > $@
FORCE:
shell_quote = '$(subst ','\'',$(1))'

$(BUILD)/%.o: %.c $(FLAG_STAMP)
	@mkdir -p $(@D)
	$(CC) $(ALL_CFLAGS) $(if $(filter tests/%,$<),-Itests $(CMOCKA_CFLAGS)) -MMD -MP -c -o $@ $<

# Made anew each time so that an object of a removed source never lingers in it.
$(LIB): $(OBJ)
	@rm -f $@
	$(AR) rcs $@ $(OBJ)

$(BIN): $(MAIN) $(LIB)
	$(CC) $(ALL_CFLAGS) $(LDFLAGS) -o $@ $(MAIN) $(LIB) $(LIBS)

$(BUILD)/tests/%: $(BUILD)/tests/%.o $(TEST_SUPPORT:%.c=$(BUILD)/%.o) $(LIB)
	$(CC) $(ALL_CFLAGS) $(LDFLAGS) $(TEST_LDFLAGS) -o $@ $< $(TEST_SUPPORT:%.c=$(BUILD)/%.o) $(LIB) $(CMOCKA_LIBS) $(LIBS)

-include $(OBJ:.o=.d) $(MAIN:.o=.d) $(TEST_BIN:=.d) $(BENCH_BIN:=.d) $(TEST_SUPPORT:%.c=$(BUILD)/%.d)

run: $(BIN)
	$(BIN) --profiles profiles

check: $(BIN) $(TEST_BIN)
	@BUILD=$(BUILD) tests/run $(TEST_BIN) $(TEST_SH)

bench: $(BIN) $(BENCH_BIN)
	@for b in $(BENCH_BIN); do echo "== $$(basename $$b)"; $$b || exit 1; done

clean:
	rm -rf $(BUILD)
