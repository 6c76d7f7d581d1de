#include "report/step_words.h"

#include "base/arena.h"
#include "base/measure.h"

const char *state_words(enum finish_state state)
{
    static const char *const words[STATE_COUNT] = {
        [STATE_DUST_FREE] = "dust-free",  [STATE_HANDLE] = "dry to handle",
        [STATE_RECOAT] = "dry to recoat", [STATE_SAND] = "dry to sand",
        [STATE_WRAP] = "safe to wrap",    [STATE_LIGHT_USE] = "ready for light use",
        [STATE_CURED] = "cured",
    };
    return words[state];
}

const char *step_words(struct arena *arena, const struct operation *operation)
{
    switch (operation->doing) {
    case DO_APPLY:
        return arena_textf(arena, "coat %d of %d, %s", operation->coat, operation->coats,
                           operation->of.step->finish->name);
    case DO_SAND:
    case DO_SCUFF:
        return arena_textf(arena, "%s %d", doing_name(operation->doing), operation->grit);
    case DO_RUB:
        return operation->words ? arena_textf(arena, "rub out, %s", operation->words) : "rub out";
    case DO_RAISE:
        return "wet to raise the grain";
    case DO_TASK:
        return operation->words;
    default:
        return doing_name(operation->doing);
    }
}

const char *step_piece(struct arena *arena, const struct operation *operation)
{
    if (operation->piece < 0)
        return "";
    const char *piece = operation->pass.job->pieces[operation->piece].name;
    if (operation->side == SIDE_ALL)
        return piece;
    return arena_textf(arena, "%s, %s", piece, operation->side == SIDE_BACK ? "back" : "face");
}

const char *step_amount(struct arena *arena, const struct plan *plan, const struct operation *operation)
{
    if (operation->piece < 0 || operation->doing == DO_FLIP || operation->doing == DO_MASK ||
        operation->doing == DO_TASK)
        return "";
    const char *area = arena_text(arena, area_format(pass_area_m2(&operation->pass), UNITS_METRIC).text);
    if (operation->doing != DO_APPLY)
        return area;
    size_t apply = (size_t)(operation - plan->operations->items);
    struct litres litres = plan_litres(plan->operations, apply);
    return arena_textf(arena, "%s on %s", volume_format(litres.likely + litres.thinner, UNITS_METRIC).text,
                       area);
}

const char *schedule_words(const struct job *job, int schedule)
{
    return schedule < 0 ? "bare" : job->schedules[schedule].name;
}
