/* Which cautions belong to which hour: an oil varnish and a lacquer sprayed in one booth, wood that is sanded, old paint that is
 * stripped. What heats itself is not told of the lacquer. */
#include "check.h"
#include "job_text.h"

#include "base/buf.h"
#include "plan/plan.h"

#include <string.h>

static const char *const kinds[] = {[PLAN_CAUTION_FINISH] = "",
                                    [PLAN_CAUTION_BREATHING] = "breathing",
                                    [PLAN_CAUTION_VAPOUR] = "air",
                                    [PLAN_CAUTION_VOC] = "voc",
                                    [PLAN_CAUTION_DUST] = "dust",
                                    [PLAN_CAUTION_SELF_HEATING] = "heats itself",
                                    [PLAN_CAUTION_ONE_BOOTH] = "one booth",
                                    [PLAN_CAUTION_STRIPPING] = "stripping"};

/* Those of the first batch that lays a finish, or works with these words; each finish's own by their names. */
static const char *told(struct reader *reader, const struct plan *plan, enum doing doing, const char *of)
{
    struct buf out;
    buf_init(&out, reader->arena);
    for (size_t i = 0; i < plan->timetable->batch_count; i++) {
        const struct timetable_batch *batch = &plan->timetable->batches[i];
        const struct operation *work = plan->timetable->steps[batch->steps[0]].operation;
        size_t count;
        if (work->doing != doing || (doing == DO_APPLY && strcmp(work->of.step->finish->id, of) != 0))
            continue;
        struct plan_caution *own =
            batch_cautions(reader->arena, plan, batch, plan_asks_for_supplied_air(plan), &count);
        for (size_t k = 0; k < count; k++)
            buf_addf(&out, "%s%s", k ? ", " : "",
                     own[k].kind == PLAN_CAUTION_FINISH ? own[k].name : kinds[own[k].kind]);
        return out.text;
    }
    return "no such batch";
}

/* The varnish is laid by this tool on two pieces, the lacquer sprayed on the third; a task strips. */
static struct plan *plan_of(struct reader *reader, const char *tool)
{
    const char *text = reader_swap(
        reader, job_text_job, "{\"coat\": \"hardwax-oil\", \"coats\": 2}",
        arena_textf(reader->arena, "{\"coat\": \"brushing-varnish\", \"coats\": 1, \"by\": \"%s\"}", tool));
    text = reader_swap(reader, text, "{\"coat\": \"paste-wax\"}",
                       "{\"coat\": \"nitrocellulose-lacquer\", \"coats\": 1}");
    text = reader_swap(reader, text, "\"fit hinges\", \"takes\": \"45 min\", \"after\": [\"top handle\"]",
                       "\"strip the old frame\", \"takes\": \"45 min\"");
    text =
        reader_swap(reader, text, "\"wax\": [", "\"spare\": [{\"coat\": \"shellac-dewaxed\"}], \"wax\": [");
    const struct job *job = job_text_read_as(reader, text);
    check_text(HERE, reader_lines(reader, &reader->errors), "");
    assert_non_null(job);
    struct plan *plan =
        plan_make(reader->arena, job, (struct plan_options){.timetable.effort = 2000000}, &reader->errors);
    assert_non_null(plan);
    return plan;
}

static void each_hour_has_its_own(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct plan *plan = plan_of(reader, "hvlp");
    check_text(HERE, told(reader, plan, DO_SAND, NULL), "dust");
    check_text(HERE, told(reader, plan, DO_TASK, NULL), "stripping");
    check_text(HERE, told(reader, plan, DO_APPLY, "brushing-varnish"),
               "oily-rags, vapour, flammable, spray-mist, heats itself, one booth, breathing");
    check_text(HERE, told(reader, plan, DO_APPLY, "nitrocellulose-lacquer"),
               "vapour, flammable, spray-mist, air, one booth, breathing");
    reader_free(reader);
}

/* A schedule that no part gets lays nothing: no caution names its finish. */
static void nobody_is_warned_of_what_is_not_laid(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct plan *plan = plan_of(reader, "brush");
    size_t breathing = 0;
    for (size_t i = 0; i < plan->caution_count; i++) {
        breathing += plan->cautions[i].kind == PLAN_CAUTION_BREATHING;
        for (size_t k = 0; k < plan->cautions[i].finish_count; k++)
            check_true(HERE, strcmp(plan->cautions[i].finishes[k]->id, "shellac-dewaxed") != 0, "not laid");
    }
    check_true(HERE, breathing > 0, "of the others there is one");
    reader_free(reader);
}

/* Brushed there is neither mist nor overspray: nothing meets the lacquer in the booth. */
static void a_brush_leaves_the_booth_alone(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct plan *plan = plan_of(reader, "brush");
    check_text(HERE, told(reader, plan, DO_APPLY, "brushing-varnish"),
               "oily-rags, vapour, flammable, breathing");
    check_text(HERE, told(reader, plan, DO_APPLY, "nitrocellulose-lacquer"),
               "vapour, flammable, spray-mist, air, breathing");
    reader_free(reader);
}

int main(void)
{
    job_text_begin();
    return CHECK_ALL(CHECK_TEST(each_hour_has_its_own), CHECK_TEST(nobody_is_warned_of_what_is_not_laid),
                     CHECK_TEST(a_brush_leaves_the_booth_alone));
}
