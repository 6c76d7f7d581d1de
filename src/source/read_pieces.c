#include "source/read_job_parts.h"

#include "base/arena.h"
#include "source/read_words.h"

static const char *const use_names[] = {"water", "alcohol", "heat", "food", "outdoors", "child"};
enum { USES = sizeof use_names / sizeof use_names[0] };

static void read_uses(struct json_at list, unsigned *uses)
{
    if (!json_list(list, "a list of uses such as [\"water\", \"heat\"]"))
        return;
    for (struct json_at item = json_first(list); item.node; item = json_next(item)) {
        int use;
        if (json_choice(item, use_names, USES, &use))
            *uses |= 1u << use;
    }
}

static void read_laid(struct json_at at, struct piece *piece)
{
    static const enum laid kinds[] = {LAID_FLAT, LAID_STANDING, LAID_HUNG};
    static const char *const words[] = {"flat", "standing", "hung"};
    int choice;
    if (!at.node || !json_choice(at, words, 3, &choice))
        return;
    piece->laid = kinds[choice];
    piece->laid_given = true;
}

static void fill_piece(const struct job_draft *draft, struct json_at at, struct piece *piece)
{
    read_laid(json_member(at, "laid"), piece);
    if (json_has(at, "after"))
        piece->after_count = job_read_after(draft, json_member(at, "after"), &piece->after);
    if (json_has(at, "ready"))
        job_read_moment(draft, json_member(at, "ready"), &piece->ready_min);
    if (json_has(at, "rack"))
        read_area(json_member(at, "rack"), &piece->rack_m2);
    if (json_has(at, "use"))
        read_uses(json_member(at, "use"), &piece->uses);
}

static void read_piece(const struct job_draft *draft, struct json_at at, struct piece *pieces, int entry)
{
    static const char *const keys[] = {"piece", "laid", "after", "ready", "rack", "use"};
    struct json_at name = json_member(at, "piece");
    const char *text;
    size_t i;
    if (!json_object(at, "a piece", keys, sizeof keys / sizeof keys[0]))
        return;
    if (!json_text(name, "a piece of the part list", &text))
        return;
    if (!names_find(&draft->pieces, text, &i)) {
        if (draft->parts_known)
            json_refuse_name(name, "a piece of the part list", draft->pieces.items, draft->pieces.count);
        return;
    }
    if (pieces[i].entry >= 0)
        json_refuse(name, "each piece once");
    pieces[i].entry = entry;
    fill_piece(draft, at, &pieces[i]);
}

/* The pieces as the parts name them. */
static struct piece *plain_pieces(const struct job_draft *draft)
{
    struct piece *pieces = ARENA_ARRAY(draft->reading->arena, draft->pieces.count, struct piece);
    for (size_t i = 0; i < draft->pieces.count; i++)
        pieces[i] = (struct piece){
            .name = draft->pieces.items[i], .ready_min = INT64_MIN, .rack_m2 = -1, .entry = -1};
    return pieces;
}

void job_read_pieces(struct job_draft *draft)
{
    struct json_at list = json_member(draft->root, "pieces");
    struct piece *pieces = plain_pieces(draft);
    int entry = 0;
    draft->job->pieces = pieces;
    draft->job->piece_count = draft->pieces.count;
    job_read_task_names(draft);
    if (list.node && json_list(list, "a list of pieces"))
        for (struct json_at item = json_first(list); item.node; item = json_next(item))
            read_piece(draft, item, pieces, entry++);
    job_read_tasks(draft);
}
