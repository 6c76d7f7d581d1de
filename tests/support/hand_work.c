#include "hand_work.h"

#include <assert.h>
#include <string.h>

void hand_work(struct hand_work *work)
{
    memset(work, 0, sizeof *work);
    panel_init(&work->panel);
    for (size_t i = 0; i < PANEL_PIECES; i++)
        (void)panel_add_step(&work->panel, i, STEP_COAT);
    work->operations = (struct operations){.job = &work->panel.job,
                                           .surfaces = &work->panel.surfaces,
                                           .items = work->items,
                                           .links = work->links,
                                           .lines = work->lines,
                                           .facts = work->facts};
}

/* An enum work; -1: it needs no set-up. */
static int work_of(enum doing doing)
{
    static const int works[DOING_COUNT] = {
        [DO_SAND] = WORK_SAND,   [DO_SCUFF] = WORK_SCUFF, [DO_RAISE] = WORK_RAISE,   [DO_MASK] = -1,
        [DO_APPLY] = TOOL_CLOTH, [DO_FLIP] = -1,          [DO_POLISH] = WORK_POLISH, [DO_RUB] = WORK_RUB,
        [DO_TASK] = -1,
    };
    return works[doing];
}

struct operation *hand_add(struct hand_work *work, int piece, enum doing doing, int32_t minutes)
{
    size_t at = work->operations.count++;
    assert(at < HAND_ITEMS);
    work->ends_s[at] = minutes * 60;
    struct operation *operation = &work->items[at];
    bool abrades = doing == DO_SAND || doing == DO_SCUFF;
    *operation = (struct operation){.job = &work->panel.job,
                                    .id = "",
                                    .doing = doing,
                                    .piece = piece,
                                    .schedule = piece,
                                    .task = piece < 0 ? 0 : -1,
                                    .chain = piece < 0 ? (int)at : piece,
                                    .lot = 1,
                                    .lots = 1,
                                    .minutes = minutes,
                                    .work = work_of(doing),
                                    .people = 1,
                                    .grit = abrades ? 180 : 0,
                                    .dusty = abrades,
                                    .part = 1,
                                    .parts = 1,
                                    .release_min = INT64_MIN,
                                    .latest_min = INT64_MAX,
                                    .latest_unless = -1};
    operation->units = (struct units){.ends_s = &work->ends_s[at],
                                      .count = 1,
                                      .seconds = minutes * 60,
                                      .longest_s = minutes * 60,
                                      .possible = true};
    if (piece >= 0)
        operation->pass = (struct pass){.job = &work->panel.job,
                                        .surfaces = &work->panel.surfaces,
                                        .piece = (size_t)piece,
                                        .schedule = (size_t)piece};
    if (doing == DO_APPLY)
        operation->of = (struct coat){&work->panel.steps[piece][0], 1, 1};
    return operation;
}

struct link *hand_link(struct hand_work *work, int from, int to, enum link_kind kind, int32_t span_min)
{
    struct link *link = &work->links[work->operations.link_count++];
    assert(work->operations.link_count <= HAND_LINKS);
    *link = (struct link){.from = from, .to = to, .kind = kind, .span_min = span_min, .unless = -1};
    return link;
}
