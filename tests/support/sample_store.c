#include "sample_store.h"

#include "sample.h"

#include <string.h>

void sample_store(struct sample_store *s)
{
    memset(s, 0, sizeof *s);
    s->oil[0] = (struct pack){0.375, 2500, "375 ml"};
    s->oil[1] = (struct pack){1, 5500, "1 l"};
    s->oil[2] = (struct pack){2.75, 12000, "2.75 l"};
    s->hardener[0] = (struct pack){0.125, 1500, "125 ml"};
    s->hardener[1] = (struct pack){1, 6000, "1 l"};
    s->components[0] = (struct component){"oil", 3, 0.95, 525600, SPAN_NEVER, s->oil, 3};
    s->components[1] = (struct component){"hardener", 1, 1.12, 525600, 90 * 1440, s->hardener, 2};
    s->contents[0][0] = 0.375;
    s->contents[0][1] = 0.125;
    s->kits[0] = (struct kit){s->contents[0], 3400, "500 ml set"};
    s->finish = sample_two_part();
    s->finish.components = s->components;
    s->finish.tolerance = 0.2;
    s->job = (struct job){.reserve = 0.1, .stock = s->stock};
    s->need = (struct need){
        .finish = &s->finish, .low_l = 0.8, .likely_l = 1, .high_l = 1.2, .last_coat_day = LAST_DAY};
}
