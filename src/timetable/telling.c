#include "timetable/telling.h"

#include "base/arena.h"
#include "base/moment.h"

void telling_say(struct telling *telling, const char *sentence)
{
    telling->sentences = arena_grow(telling->problem->arena, telling->sentences, telling->count,
                                    &telling->room, sizeof *telling->sentences);
    telling->sentences[telling->count++] = sentence;
}

const struct operation *telling_operation(const struct telling *telling, int index)
{
    return &telling->problem->operations->items[index];
}

/* " (varnish)" where the piece is worked on by more than one schedule. */
static const char *schedule_words(const struct telling *telling, const struct operation *operation)
{
    const struct operations *all = telling->problem->operations;
    for (size_t i = 0; i < all->count; i++) {
        const struct operation *other = &all->items[i];
        if (other->job == operation->job && other->piece == operation->piece &&
            other->schedule != operation->schedule)
            return arena_textf(telling->problem->arena, " (%s)",
                               operation->job->schedules[operation->schedule].name);
    }
    return "";
}

/* " to 180": how far the wood is sanded. */
static const char *grit_words(struct arena *arena, const struct operation *operation)
{
    if (operation->grit <= 0)
        return "";
    return arena_textf(arena, operation->doing == DO_SCUFF ? " with %d" : " to %d", operation->grit);
}

static const char *name_of(const struct telling *telling, const struct operation *operation)
{
    static const char *const words[DOING_COUNT] = {
        [DO_SAND] = "sanding",    [DO_SCUFF] = "scuffing", [DO_RAISE] = "raising the grain of",
        [DO_MASK] = "masking",    [DO_FLIP] = "turning",   [DO_POLISH] = "polishing",
        [DO_RUB] = "rubbing out", [DO_APPLY] = "coat",     [DO_TASK] = "task",
    };
    struct arena *arena = telling->problem->arena;
    if (operation->piece < 0)
        return operation->words;
    const char *piece = operation->job->pieces[operation->piece].name;
    const char *side = operation->side == SIDE_BACK   ? "the back of "
                       : operation->side == SIDE_FACE ? "the face of "
                                                      : "";
    const char *schedule = schedule_words(telling, operation);
    if (operation->doing == DO_APPLY)
        return arena_textf(arena, "coat %d on %s%s%s", operation->coat, side, piece, schedule);
    if (operation->doing == DO_TASK)
        return arena_textf(arena, "%s (%s)", operation->words, piece);
    if (operation->doing == DO_FLIP)
        return arena_textf(arena, "turning %s over", piece);
    return arena_textf(arena, "%s %s%s%s%s", words[operation->doing], side, piece,
                       grit_words(arena, operation), schedule);
}

/* Among several jobs a piece is known by its job as well. */
const char *telling_name(const struct telling *telling, const struct operation *operation)
{
    const char *name = name_of(telling, operation);
    return operation->job == telling->timetable->job
               ? name
               : arena_textf(telling->problem->arena, "%s (%s)", name, operation->job->name);
}

const char *telling_when(const struct telling *telling, int32_t slot)
{
    const struct hours *hours = telling->problem->hours;
    return arena_text(telling->problem->arena,
                      moment_format(hours->zone, hours_moment(hours, slot), MOMENT_DAY_TIME).text);
}
