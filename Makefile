# `make help` lists what can be made. Everything built goes below $(BUILD).
BUILD  ?= build
CC     ?= gcc
CSTD   := -std=c11 -D_POSIX_C_SOURCE=200809L
WARN   := -Wall -Wextra -Wshadow -Wstrict-prototypes -Wmissing-prototypes -Wpointer-arith -Wwrite-strings -Wvla
ifdef CI
WARN   += -Werror
endif
OPT    ?= -O2 -g
ifdef SAN
BUILD  := $(BUILD)-san
OPT    := -O1 -g -fsanitize=address,undefined -fno-sanitize-recover=undefined -fno-omit-frame-pointer
endif
ifdef COV
BUILD  := $(BUILD)-cov
OPT    := -O0 -g --coverage
endif
CPPFLAGS := -Isrc -Iinclude
CFLAGS   := $(CSTD) $(WARN) $(OPT)
LDLIBS   := -lical -lcjson -lm -lpthread

SRC  := $(wildcard src/*/*.c)
APP  := $(filter src/app/%,$(SRC))
LIB  := $(filter-out $(APP),$(SRC))
OBJ   = $(patsubst %.c,$(BUILD)/obj/%.o,$(1))
TESTS := $(patsubst tests/test_%.c,$(BUILD)/tests/test_%,$(wildcard tests/test_*.c))
TESTLIB := $(filter-out $(wildcard tests/test_*.c),$(wildcard tests/*.c))

.PHONY: all check clean
all: $(if $(APP),$(BUILD)/coatwright) $(BUILD)/libcoatwright.a

$(BUILD)/libcoatwright.a: $(call OBJ,$(LIB))
	@rm -f $@; ar rcs $@ $^
$(BUILD)/coatwright: $(call OBJ,$(APP)) $(BUILD)/libcoatwright.a
	$(CC) $(CFLAGS) -o $@ $^ $(LDLIBS)
$(BUILD)/obj/%.o: %.c
	@mkdir -p $(@D)
	$(CC) $(CPPFLAGS) $(CFLAGS) -MMD -MP -c -o $@ $<
$(BUILD)/tests/test_%: $(BUILD)/obj/tests/test_%.o $(call OBJ,$(TESTLIB)) $(BUILD)/libcoatwright.a
	@mkdir -p $(@D)
	$(CC) $(CFLAGS) -o $@ $^ -lcmocka $(LDLIBS)
check: all $(TESTS)
	@for t in $(TESTS); do $$t || exit 1; done
clean:
	rm -rf build build-*
-include $(shell find $(BUILD) -name '*.d' 2>/dev/null)
