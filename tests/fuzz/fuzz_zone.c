/* Whatever a zone file holds, reading it ends: with a table that rises, of offsets that a clock can have, or with none. */
#include "base/arena.h"
#include "format/zone.h"

#include <assert.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static const struct zone_years years = {2026, 2040};
    struct arena *arena = arena_make(0);
    const struct zone *zone = zone_parse(arena, "Fuzz", (const char *)data, size, years);
    assert(!zone || (zone->count > 0 && zone->changes[0].from_min == INT64_MIN));
    for (size_t i = 0; zone && i < zone->count; i++) {
        assert(i == 0 || zone->changes[i].from_min > zone->changes[i - 1].from_min);
        assert(i == 0 || zone->changes[i].offset_min != zone->changes[i - 1].offset_min);
        assert(zone->changes[i].offset_min > -26 * 60 && zone->changes[i].offset_min < 26 * 60);
    }
    arena_free(arena);
    return 0;
}
