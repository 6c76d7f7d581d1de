#include "report/write_plan.h"

#include "base/arena.h"
#include "report/cautions.h"
#include "report/write_area.h"
#include "report/write_buy.h"
#include "report/write_mix.h"
#include "report/write_timetable.h"

void write_plan(struct json_write *w, const struct plan *plan)
{
    json_open(w, NULL, '{');
    write_area(w, "area", plan->job, plan->surfaces);
    write_buy(w, "buy", plan->job, plan->purchases);
    write_mix(w, "mix", plan->job, plan->mixes);
    write_timetable(w, "timetable", plan, NULL);
    json_open(w, "cautions", '[');
    for (size_t i = 0; i < plan->caution_count; i++)
        json_put_text(w, NULL,
                      arena_textf(w->out->arena, "%s; %s",
                                  plan_caution_words(w->out->arena, &plan->cautions[i]), caution_rider()));
    json_close(w);
    json_close(w);
}
