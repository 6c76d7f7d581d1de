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

struct operation *hand_add(struct hand_work *work, int piece, enum doing doing, int32_t minutes)
{
    size_t at = work->operations.count++;
    assert(at < HAND_ITEMS);
    work->ends_s[at] = minutes * 60;
    struct operation *operation = &work->items[at];
    *operation = panel_operation(&work->panel, piece, doing);
    operation->schedule = piece;
    operation->pass.schedule = operation->pass.piece;
    operation->chain = piece < 0 ? (int)at : piece;
    operation->minutes = minutes;
    operation->dusty = operation->grit > 0;
    operation->units = (struct units){.ends_s = &work->ends_s[at],
                                      .count = 1,
                                      .seconds = minutes * 60,
                                      .longest_s = minutes * 60,
                                      .possible = true};
    if (doing == DO_APPLY)
        operation->of = (struct coat){&work->panel.steps[piece][0], 1, 1};
    return operation;
}

struct link *hand_link(struct hand_work *work, int from, int to, enum link_kind kind, int32_t span_min)
{
    struct link *link = &work->links[work->operations.link_count++];
    assert(work->operations.link_count <= HAND_LINKS);
    *link = panel_link(from, to, span_min);
    link->kind = kind;
    return link;
}
