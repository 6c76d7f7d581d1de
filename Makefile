# Everything built goes below $(BUILD); `make help` lists what can be made.
#   CC=clang   another compiler          SAN=1  with ASan and UBSan (build-san)
#   CI=1       warnings are errors       COV=1  with coverage counters (build-cov)
#   V=1        show whole command lines                      TSAN=1 with the thread sanitizer (build-tsan)
ifeq ($(origin CC),default)
CC := gcc
endif
# As many compilers at a time as there are processors, unless -j says otherwise.
ifeq ($(MAKELEVEL)$(filter -j%,$(MAKEFLAGS)),0)
MAKEFLAGS += -j$(shell nproc)
endif
BUILD   := build$(if $(SAN),-san)$(if $(TSAN),-tsan)$(if $(COV),-cov)$(if $(FUZZ),-fuzz)
# CC=aarch64-linux-gnu-gcc builds for another machine: the binutils of that name go with it.
TOOL    := $(patsubst %gcc,%,$(filter %-gcc,$(CC)))
CFLAGS  ?= -O2 -g
PREFIX  ?= /usr/local
LIBDIR  ?= lib
PLACES   = TO='$(DESTDIR)$(PREFIX)' LIBDIR=$(LIBDIR) VERSION=$(VERSION) SO=$(SO) SONAME=$(SONAME) LIBS='$(LDLIBS)'
# Where the program looks for the finishes that came with it. An installed one looks below $(PREFIX), so that install
# makes it once more from the same objects, in a folder of its own.
FINISHES := $(abspath finishes)
OUT     := $(BUILD)

SANITIZE := -O1 -fsanitize=address,undefined -fno-sanitize-recover=undefined -fno-omit-frame-pointer
MODE    := $(if $(SAN)$(FUZZ),$(SANITIZE)) $(if $(TSAN),-O1 -fsanitize=thread) $(if $(FUZZ),-fsanitize=fuzzer-no-link) $(if $(COV),-O0 --coverage)
WARN    := -Wall -Wextra -Wshadow -Wstrict-prototypes -Wmissing-prototypes -Wpointer-arith -Wwrite-strings -Wvla
FLAGS   := -std=c11 -D_XOPEN_SOURCE=700 -ffp-contract=off -fPIC -fvisibility=hidden $(WARN) $(if $(CI),-Werror) $(CFLAGS) $(MODE)
INCLUDE := -Isrc -Iinclude -Itests/support
LDLIBS  := -lcurl -lexpat -lzip -lm -lpthread
# Of the program alone: the library needs none of them.
APPLIBS := -lmicrohttpd -ljansson
SILENT  := $(findstring s,$(filter-out --%,$(firstword $(MAKEFLAGS))))
say      = $(if $(V),,@)$(if $(V)$(SILENT),,echo '  $(1) $@' &&) mkdir -p $(@D)
COMPILE  = $(call say,compile) && $(CC) $(INCLUDE) $(FLAGS) -MMD -MP -c -o $@ $<
LINK     = $(call say,link) && $(CC) $(FLAGS) $(LDFLAGS) -o $@ $^ $(if $(filter %/tests.a,$^),-lcmocka) $(if $(filter %_reference,$@),-lcjson) $(if $(filter %/table.o,$^),$(APPLIBS)) $(LDLIBS)

VERSION := $(shell awk -F '"' '/define COATWRIGHT_VERSION "/ { print $$2 }' include/coatwright.h)
# Libraries with another first number do not fit one another.
SO      := libcoatwright.so
SONAME  := $(SO).$(firstword $(subst ., ,$(VERSION)))

include .ci/packages.mk
NEED := $(sort $(foreach goal,$(MAKECMDGOALS),$(PKG_$(goal))))

SRC     := $(wildcard src/*/*.c src/*/*/*.c)
APP     := $(filter src/app/% src/page/% src/base/%,$(SRC))
HOUSE   := $(filter-out src/app/% src/page/%,$(SRC))
PAGE    := $(filter-out src/app/%,$(APP))
ASSETS  := $(wildcard src/page/assets/*)
TESTS   := $(patsubst %.c,$(BUILD)/%,$(wildcard tests/*/test_*.c))
FUZZERS := $(patsubst %.c,$(BUILD)/%,$(wildcard tests/fuzz/fuzz_*.c))
SCRIPTS := $(wildcard tests/*/check_*.sh tests/*/check_*.py)
MAN     := $(patsubst src/man/%.md,$(BUILD)/man/%,$(wildcard src/man/*.md))
# What takes longest begins first. The quick tests are units that take less than a second, the worked problems and what is printed.
LONG    := $(addprefix tests/,page/check_page.sh timetable/check_same.sh report/check_schema.sh plan/check_together_advice.py \
             timetable/check_together.py timetable/check_plans.py plan/check_advice.py)
SLOW    := $(addprefix %/test_,api api_walk busy_drawn chance_order drying mesh_large network_brute network_reasons save several zone_outside)
QUICK   := tests/app/check_golden.sh tests/documents/check_documents.py tests/timetable/check_worked.py $(filter-out $(SLOW),$(TESTS))
obj      = $(patsubst $(BUILD)/obj/src/api/%,$(OUT)/obj/src/api/%,$(1:%.c=$(BUILD)/obj/%.o))
export COATWRIGHT = $(CURDIR)/$(BUILD)/coatwright
export BUILD CC

.PHONY: all check quick demo bench lint format coverage mutants fuzz golden man install uninstall dist deb deps clean help need run-fuzzers force
all: $(OUT)/coatwright $(OUT)/libcoatwright.a $(OUT)/$(SO).$(VERSION) ## build the program and the libraries
check: all $(TESTS) $(FUZZERS) ## run every test; SAN=1 runs them under the sanitizers
	@tests/run $(LONG) $(filter-out $(LONG),$(SCRIPTS)) $(TESTS) $(FUZZERS)
quick: all $(filter $(BUILD)/%,$(QUICK)) ## run the units, the worked problems and the golden outputs
	@tests/run $(QUICK)
demo: all ## plan the writing desk of examples/
	@$(BUILD)/coatwright plan examples/desk.json --out $(BUILD)/demo; code=$$?; ls -1 $(BUILD)/demo/*; [ $$code -le 1 ]
bench: all $(patsubst %.c,$(BUILD)/%,$(wildcard tests/bench/bench_*.c)) ## measure, and compare with the time of doing nothing
	@for b in $(wildcard tests/bench/*.sh tests/bench/*.py); do $$b || exit 1; done
lint: all $(SRC:%.c=$(BUILD)/lint/%.tidy) ## prove the layers, the sizes and the style
	@tests/lint/run $(BUILD)/obj/src
format: need ## lay out every C file with clang-format
	clang-format -i $(wildcard include/*.h examples/*.c src/*/*.[ch] src/*/*/*.[ch] tests/*/*.[ch])
coverage: need ## run the tests and tell how many lines and branches of each room they reach
	@rm -rf build-cov; $(MAKE) --no-print-directory COV=1 CFLAGS=-g check || echo 'with counters not every test passes: they ask for memory of their own, and for time'
	gcovr --gcov-ignore-parse-errors --root . --filter src/ --object-directory build-cov --exclude-lines-by-pattern '.*\bassert\(.*' \
	  --txt build-cov/coverage.txt --json build-cov/coverage.json
	@tests/rooms_covered.py build-cov/coverage.json
mutants: need ## put MUTANTS (200) faults, drawn by SEED (1), into the rooms without files, and tell which no test notices
	@CC=gcc tests/mutation/run.py --count $(or $(MUTANTS),200) --seed $(or $(SEED),1)
fuzz: need ## run each fuzz target for FUZZ_SECONDS (30); what breaks one joins its corpus
	@$(MAKE) --no-print-directory FUZZ=1 CC=clang run-fuzzers
golden: all ## accept what the program prints now, in tests/golden and in the documents
	@tests/app/check_golden.sh --accept && tests/documents/check_documents.py --accept
man: $(MAN) ## make the manual pages of src/man
install: $(MAN) ## install below PREFIX (and DESTDIR), the library in LIBDIR there
	@$(MAKE) --no-print-directory OUT=$(BUILD)/install FINISHES=$(PREFIX)/share/coatwright/finishes all
	$(PLACES) src/package/install.sh
uninstall: ## remove what install has put there
	$(PLACES) src/package/install.sh away
dist: ## pack the committed files
	@src/package/dist.sh $(VERSION)
deb: need ## build the Debian packages of the committed files
	@src/package/deb.sh $(VERSION)
deps: need ## install the packages that demo and check need
need:
	@$(if $(NEED),.ci/need $(NEED))
clean: ## remove everything built
	rm -rf build build-san build-tsan build-cov build-fuzz
help: ## list what can be made
	@awk -F ':.*## ' '/^[a-z]+:.*## / { printf "  make %-10s %s\n", $$1, $$2 }' Makefile

# Only coatwright_ names leave the library: the program is linked with it as any other user would be.
$(OUT)/coatwright: $(call obj,$(APP)) $(BUILD)/obj/src/page/assets/table.o $(OUT)/libcoatwright.a
	$(LINK)
$(OUT)/libcoatwright.a: $(call obj,$(HOUSE))
	$(call say,library) && $(TOOL)ld -r -o $(OUT)/coatwright.o $^ && \
	  $(TOOL)objcopy --wildcard --keep-global-symbol='coatwright_*' $(OUT)/coatwright.o && \
	  rm -f $@ && $(TOOL)ar crs $@ $(OUT)/coatwright.o
$(OUT)/$(SO).$(VERSION): $(OUT)/libcoatwright.a
	$(call say,library) && $(CC) $(FLAGS) $(LDFLAGS) -shared -Wl,-soname,$(SONAME) -o $@ $(OUT)/coatwright.o $(LDLIBS)
# Tests see every room. A fuzz target without the fuzzer replays its corpus.
$(BUILD)/house.a: $(call obj,$(HOUSE))
$(BUILD)/tests.a: $(call obj,$(wildcard tests/support/*.c) $(if $(FUZZ),,tests/fuzz/replay.c))
$(BUILD)/house.a $(BUILD)/tests.a:
	@rm -f $@ && $(TOOL)ar crs $@ $^
$(BUILD)/tests/%: $(BUILD)/obj/tests/%.o $(BUILD)/tests.a $(BUILD)/house.a
	$(LINK)
# One who tries the page sees of the library what the program does.
$(BUILD)/tests/fuzz/fuzz_page: $(BUILD)/obj/tests/fuzz/fuzz_page.o $(BUILD)/tests.a $(call obj,$(PAGE)) $(BUILD)/obj/src/page/assets/table.o $(BUILD)/libcoatwright.a
	$(LINK)
$(if $(FUZZ),$(FUZZERS)): LDFLAGS += -fsanitize=fuzzer
run-fuzzers: $(FUZZERS)
	@tests/fuzz/run $(BUILD)/corpus $(or $(FUZZ_SECONDS),30) $(FUZZERS)

# What the browser gets is put into the program as it is.
$(BUILD)/obj/src/page/assets/table.o: src/page/assets.sh $(ASSETS) | need
	$(call say,assets) && src/page/assets.sh $(ASSETS) >$(@:.o=.s) && $(CC) -c -o $@ $(@:.o=.s)
$(BUILD)/obj/%.o: %.c $(BUILD)/flags | need
	$(COMPILE)
$(OUT)/obj/src/api/%.o: src/api/%.c $(BUILD)/flags $(OUT)/finishes | need
	$(COMPILE) -DCOATWRIGHT_FINISHES='"$(FINISHES)"'
# The narrow columns of tables cannot be set flush on both sides.
$(BUILD)/man/%: src/man/%.md | need
	$(call say,man) && lowdown -s -t man --nroff-nolinks --out-no-smarty -m title=$(basename $*) -m section=$(subst .,,$(suffix $*)) -o $@ $< && sed -i '/^\.TH /a .ad l' $@
$(BUILD)/lint/%.tidy: $(BUILD)/obj/%.o .clang-tidy
	$(call say,tidy) && clang-tidy --quiet $*.c -- $(INCLUDE) $(FLAGS) -DCOATWRIGHT_FINISHES='""' \
	  >$@.log 2>&1 || { sed -n 's|^$(CURDIR)/||; / error: /p' $@.log; exit 1; }
	@touch $@
# These change only when their text does, and then everything that was compiled with it is compiled again.
$(BUILD)/flags: TEXT = $(CC) $(FLAGS)
$(OUT)/finishes: TEXT = $(FINISHES)
$(BUILD)/flags $(OUT)/finishes: force
	@mkdir -p $(@D) && { echo '$(TEXT)' | cmp -s - $@ || echo '$(TEXT)' >$@; }
.SECONDARY:
-include $(shell find $(BUILD) -name '*.d' 2>/dev/null)
