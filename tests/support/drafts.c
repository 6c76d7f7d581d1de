#include "drafts.h"

struct batch batch_of(const struct draft *draft, const int *items, size_t count)
{
    return (struct batch){
        .kind = draft->site->rows[items[0]].kind, .helper = SITE_NONE, .items = items, .count = count};
}

bool draft_try(struct draft *draft, const int *items, size_t count, int32_t from, struct placed *placed)
{
    return draft_place(draft, batch_of(draft, items, count), from, SITE_NEVER, placed);
}

void draft_put(const struct row *row, struct draft *draft, const int *items, size_t count, int32_t want)
{
    struct placed placed;
    check_true(row, draft_try(draft, items, count, 0, &placed), "it can be placed");
    check_int(row, placed.laid.start, want);
    draft_add(draft, &placed);
}

void check_cause(const struct row *row, const struct placed *placed, struct cause_of_start want)
{
    check_int(row, placed->cause.kind, want.kind);
    check_int(row, placed->cause.item, want.item);
    check_int(row, placed->cause.other, want.other);
    check_int(row, placed->cause.link, want.link);
    check_int(row, placed->cause.until, want.until);
}
