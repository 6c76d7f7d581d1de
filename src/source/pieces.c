/* `pieces` and `tasks`, and what in either waits for what. */
#include "source/job_draft.h"

#include "base/arena.h"

#include <string.h>

/* A piece or a task by its name. */
static bool find_name(const struct job_draft *draft, const char *name, struct after *after)
{
    after->is_task = false;
    if (names_find(&draft->pieces, name, &after->index))
        return true;
    after->is_task = true;
    return names_find(&draft->tasks, name, &after->index);
}

/* `case handle`: the last word is a state if it is one; a name that ends in such a word is still found whole. */
static bool find_after(const struct job_draft *draft, const char *text, struct after *after)
{
    const char *space = strrchr(text, ' ');
    after->state = STATE_HANDLE;
    if (space && finish_state_find(space + 1, &after->state)) {
        size_t length = (size_t)(space - text);
        const char *name =
            text_trimmed(draft->reading->arena, arena_text_n(draft->reading->arena, text, length));
        if (find_name(draft, name, after))
            return true;
        after->state = STATE_HANDLE;
    }
    return find_name(draft, text, after);
}

/* With every name that may be meant, pieces first. */
static void refuse_name(const struct job_draft *draft, struct json_at at)
{
    size_t pieces = draft->pieces.count, count = pieces + draft->tasks.count;
    if (!draft->parts_known || list_full(draft->reading->errors))
        return;
    const char **names = ARENA_ARRAY(draft->reading->arena, count, const char *);
    for (size_t i = 0; i < count; i++)
        names[i] = i < pieces ? draft->pieces.items[i] : draft->tasks.items[i - pieces];
    json_refuse_name(at, "a piece or a task of this job", names, count);
}

/* A list of what comes first; how many. */
static size_t read_after(const struct job_draft *draft, struct json_at list, const struct after **to)
{
    size_t count = 0;
    if (!json_list(list, "a list of pieces and tasks"))
        return 0;
    struct after *after = ARENA_ARRAY(draft->reading->arena, json_size(list), struct after);
    for (struct json_at item = json_first(list); item.node; item = json_next(item)) {
        const char *text;
        if (!json_text(item, "a piece or a task of this job", &text))
            continue;
        if (find_after(draft, text, &after[count]))
            count++;
        else
            refuse_name(draft, item);
    }
    *to = after;
    return count;
}

static void read_laid(struct field_in in)
{
    struct piece *piece = in.record;
    int choice;
    static const enum laid kinds[] = {LAID_FLAT, LAID_STANDING, LAID_HUNG};
    const char *const words[] = {laid_names[LAID_FLAT], laid_names[LAID_STANDING], laid_names[LAID_HUNG]};
    if (!json_choice(in.at, words, LAID_COUNT, &choice))
        return;
    piece->laid = kinds[choice];
    piece->laid_given = true;
}

static void write_laid(struct field_out out)
{
    const struct piece *piece = out.record;
    if (piece->laid_given)
        json_put_text(out.to, out.key, laid_names[piece->laid]);
}

static void read_piece_after(struct field_in in)
{
    struct piece *piece = in.record;
    piece->after_count = read_after(in.context, in.at, &piece->after);
}

static void read_ready(struct field_in in)
{
    job_read_moment(in.context, in.at, &((struct piece *)in.record)->ready_min);
}

static const char *after_words(struct arena *arena, const struct job *job, const struct after *after)
{
    enum finish_state state;
    const char *name = after->is_task ? job->tasks[after->index].name : job->pieces[after->index].name;
    const char *space = strrchr(name, ' ');
    bool plain = after->is_task && !(space && finish_state_find(space + 1, &state));
    return plain ? name : arena_textf(arena, "%s %s", name, finish_state_names[after->state]);
}

/* A piece while it is written: what it waits for is named by the job. */
struct piece_out {
    struct piece piece;
    const struct job *job;
};

static void write_piece_after(struct field_out out)
{
    const struct piece_out *from = out.record;
    if (from->piece.after_count == 0)
        return;
    json_open_row(out.to, out.key, '[');
    for (size_t i = 0; i < from->piece.after_count; i++)
        json_put_text(out.to, NULL, after_words(out.to->out->arena, from->job, &from->piece.after[i]));
    json_close(out.to);
}

static void write_ready(struct field_out out)
{
    const struct piece_out *from = out.record;
    if (from->piece.ready_min != INT64_MIN)
        json_put_text(out.to, out.key,
                      moment_format(from->job->zone, from->piece.ready_min, MOMENT_PLAIN).text);
}

static void write_uses(struct field_out out)
{
    const struct piece *piece = out.record;
    if (piece->uses == 0)
        return;
    json_open_row(out.to, out.key, '[');
    for (int i = 0; i < USE_COUNT; i++)
        if (piece->uses >> i & 1)
            json_put_text(out.to, NULL, use_names[i]);
    json_close(out.to);
}

static void read_uses(struct field_in in)
{
    struct piece *piece = in.record;
    int use;
    if (!json_list(in.at, "a list of uses such as [\"water\", \"heat\"]"))
        return;
    for (struct json_at item = json_first(in.at); item.node; item = json_next(item))
        if (json_choice(item, use_names, USE_COUNT, &use))
            piece->uses |= 1u << use;
}

static const char *const flip_words[] = {"now", "handle"};

static void read_flip(struct field_in in)
{
    int choice;
    if (json_choice(in.at, flip_words, 2, &choice))
        ((struct piece *)in.record)->flip = choice == 0 ? FLIP_NOW : FLIP_DRY;
}

static void write_flip(struct field_out out)
{
    const struct piece *piece = out.record;
    if (piece->flip != FLIP_BY_FINISH)
        json_put_text(out.to, out.key, flip_words[piece->flip == FLIP_DRY]);
}

static void write_dry_by(struct field_out out)
{
    const struct piece *piece = out.record;
    if (piece->dry_by_min > 0)
        json_put_text(out.to, out.key, time_format(piece->dry_by_min).text);
}

/* A count that is not given is 0. */
static void write_count(struct field_out out, int count)
{
    if (count > 0)
        json_put_whole(out.to, out.key, count);
}

static void write_lots(struct field_out out)
{
    write_count(out, ((const struct piece *)out.record)->lots);
}

static void write_lift(struct field_out out)
{
    write_count(out, ((const struct piece *)out.record)->lift);
}

static void write_coats_a_day(struct field_out out)
{
    write_count(out, ((const struct piece *)out.record)->coats_a_day);
}

static void read_dry_by(struct field_in in)
{
    struct err fault;
    const char *text;
    int minute;
    if (!json_text(in.at, "a time of day such as \"17:00\"", &text))
        return;
    if (time_parse(text, false, &minute, &fault))
        ((struct piece *)in.record)->dry_by_min = minute;
    else
        json_refuse(in.at, fault.expected);
}

static void read_patch_schedule(struct field_in in)
{
    struct patch *patch = in.record;
    if (!in.at.node) {
        json_refuse(in.at, "\"schedule\": the schedule of the patch");
        return;
    }
    patch->schedule = job_schedule_at(in.context, in.at);
    patch->name = json_is_text(in.at) ? in.at.node->text : NULL;
}

static const struct field patch_items[] = {
    {"schedule", FIELD_TEXT, AT(patch, name), .needed = true, .read = read_patch_schedule},
    {"area", FIELD_QUANTITY, AT(patch, area_m2), .needed = true, .quantity = &field_area,
     .limit = LIMIT_PATCH},
    {"region", FIELD_WORD, AT(patch, region), .needed = true, WORDS(region_names)},
    {"part", FIELD_TEXT, AT(patch, part), .expected = "a part of the piece"},
};
static const struct fields patch_fields = FIELDS("a patch", patch_items);

static void read_patch(struct field_in in)
{
    const struct job_draft *draft = in.context;
    struct patch *patch = ARENA_NEW(draft->reading->arena, struct patch);
    patch->schedule = SCHEDULE_NONE;
    patch->area_m2 = -1;
    if (fields_read(in.at, &patch_fields, patch, draft) && patch->schedule >= 0 && patch->area_m2 > 0)
        ((struct piece *)in.record)->patch = patch;
}

static void write_patch(struct field_out out)
{
    const struct piece *piece = out.record;
    if (!piece->patch)
        return;
    json_open_row(out.to, out.key, '{');
    fields_write(out.to, &patch_fields, piece->patch, NULL);
    json_close(out.to);
}

/* With the parts, which need it; here its name is kept. */
static void all_is_read(struct field_in in)
{
    if (json_is_text(in.at))
        ((struct piece *)in.record)->all = in.at.node->text;
}

static const struct field piece_items[] = {
    {"piece", FIELD_TEXT, AT(piece, name), .needed = true, .expected = "a piece of the part list"},
    {"laid", FIELD_OWN, .read = read_laid, .write = write_laid},
    {"after", FIELD_OWN, .read = read_piece_after, .write = write_piece_after},
    {"ready", FIELD_OWN, .read = read_ready, .write = write_ready},
    {"rack", FIELD_QUANTITY, AT(piece, rack_m2), .quantity = &field_area, .limit = LIMIT_RACK},
    {"use", FIELD_OWN, .read = read_uses, .write = write_uses},
    {"lots", FIELD_WHOLE, AT(piece, lots), .limit = LIMIT_QTY, .write = write_lots},
    {"lift", FIELD_WHOLE, AT(piece, lift), .limit = LIMIT_LIFT, .write = write_lift},
    {"flip", FIELD_OWN, .read = read_flip, .write = write_flip},
    {"coats-a-day", FIELD_WHOLE, AT(piece, coats_a_day), .limit = LIMIT_COATS_A_DAY,
     .write = write_coats_a_day},
    {"dry-by", FIELD_OWN, .read = read_dry_by, .write = write_dry_by},
    {"patch", FIELD_OWN, .read = read_patch, .write = write_patch},
    {"all", FIELD_TEXT, AT(piece, all), .read = all_is_read},
};
static const struct fields piece_fields = FIELDS("a piece", piece_items);

static struct piece plain_piece(const char *name, int entry)
{
    return (struct piece){.name = name, .ready_min = INT64_MIN, .rack_m2 = -1, .entry = entry};
}

static void read_piece(const struct job_draft *draft, struct json_at at, struct piece *pieces, int entry)
{
    struct piece piece = plain_piece(NULL, entry);
    size_t i;
    if (!fields_read(at, &piece_fields, &piece, draft) || !piece.name)
        return;
    if (names_find(&draft->pieces, piece.name, &i)) {
        if (pieces[i].entry >= 0)
            json_refuse(json_member(at, "piece"), "each piece once");
        pieces[i] = piece;
    } else if (draft->parts_known) {
        json_refuse_name(json_member(at, "piece"), "a piece of the part list", draft->pieces.items,
                         draft->pieces.count);
    }
}

/* The piece of an entry of the list; those that it does not name have none. */
static const struct piece *entry_piece(const struct job *job, int entry)
{
    for (size_t i = 0; i < job->piece_count; i++)
        if (job->pieces[i].entry == entry)
            return &job->pieces[i];
    return NULL;
}

static bool same_piece(const struct piece *a, const struct piece *b)
{
    return a->laid == b->laid && a->laid_given == b->laid_given && a->lots == b->lots && a->flip == b->flip;
}

static void write_piece(struct json_write *to, const struct job *job, const struct piece *piece)
{
    struct piece_out out = {*piece, job};
    json_open_row(to, NULL, '{');
    fields_write(to, &piece_fields, &out, NULL);
    json_close(to);
}

/* A list is changed as a whole: as it is, then those pieces that it did not name. */
void job_write_pieces(struct field_out out)
{
    const struct job *job = out.record, *base = out.base;
    const struct piece *piece;
    json_open_row(out.to, out.key, '[');
    for (int entry = 0; (piece = entry_piece(job, entry)) != NULL; entry++)
        write_piece(out.to, job, piece);
    for (size_t i = 0; i < job->piece_count; i++)
        if (job->pieces[i].entry < 0 && base && !same_piece(&job->pieces[i], &base->pieces[i]))
            write_piece(out.to, job, &job->pieces[i]);
    json_close(out.to);
}

/* In what may be changed of them: the pieces themselves are those of one part list. */
bool job_same_pieces(const void *a, const void *b)
{
    const struct job *left = a, *right = b;
    for (size_t i = 0; i < left->piece_count; i++)
        if (!same_piece(&left->pieces[i], &right->pieces[i]))
            return false;
    return true;
}

static void read_task_name(struct job_draft *draft, struct json_at at)
{
    const char *name = "";
    size_t piece;
    bool added;
    if (!json_is_object(at) || !json_text(json_member(at, "task"), "words for the task", &name))
        name = arena_textf(draft->reading->arena, "\n%zu", draft->tasks.count); /* no word can name it */
    if (names_find(&draft->pieces, name, &piece))
        json_refuse(json_member(at, "task"), "a name that no piece has");
    names_add(&draft->tasks, name, &added);
    if (!added) {
        json_refuse(json_member(at, "task"), "a name that no other task has");
        names_add(&draft->tasks, arena_textf(draft->reading->arena, "\n%zu", draft->tasks.count), &added);
    }
}

void job_read_task_names(struct field_in in)
{
    if (json_list(in.at, "a list of tasks"))
        for (struct json_at item = json_first(in.at); item.node; item = json_next(item))
            read_task_name((struct job_draft *)in.context, item);
}

/* A task while it is read: what it stands before goes to the others. */
struct task_draft {
    struct task task, *all;
    size_t index;
};

/* A copy of an array with one more item at its end. */
static void *longer(struct arena *arena, const void *items, size_t count, size_t size, const void *item)
{
    char *copy = arena_alloc(arena, count + 1, size);
    if (count)
        memcpy(copy, items, count * size);
    memcpy(copy + count * size, item, size);
    return copy;
}

static void add_after(struct arena *arena, struct task *task, struct after after)
{
    task->after = longer(arena, task->after, task->after_count++, sizeof after, &after);
}

static void read_task_after(struct field_in in)
{
    struct task_draft *to = in.record;
    const struct job_draft *draft = in.context;
    const struct after *after = NULL;
    size_t count = read_after(draft, in.at, &after);
    for (size_t k = 0; k < count; k++)
        add_after(draft->reading->arena, &to->all[to->index], after[k]);
}

/* What waits for a task: a piece in the task's own list, a task by that task's `after`. */
static void add_before(struct arena *arena, struct task_draft *to, struct after waits)
{
    struct task *task = &to->all[to->index];
    if (waits.is_task)
        add_after(arena, &to->all[waits.index],
                  (struct after){.is_task = true, .index = to->index, .state = STATE_HANDLE});
    else
        task->before = longer(arena, task->before, task->before_count++, sizeof waits.index, &waits.index);
}

static void read_before(struct field_in in)
{
    const struct job_draft *draft = in.context;
    if (!json_list(in.at, "a list of pieces and tasks"))
        return;
    for (struct json_at item = json_first(in.at); item.node; item = json_next(item)) {
        struct after waits;
        const char *text;
        if (!json_text(item, "a piece or a task of this job", &text))
            continue;
        if (find_name(draft, text, &waits))
            add_before(draft->reading->arena, in.record, waits);
        else
            refuse_name(draft, item);
    }
}

static void name_is_read(struct field_in in)
{
    (void)in;
}

static const struct field task_items[] = {
    {"task", FIELD_TEXT, AT(task_draft, task.name), .read = name_is_read},
    {"takes", FIELD_SPAN, AT(task_draft, task.takes_min), .needed = true, .limit = LIMIT_HANDS_ON},
    {"after", FIELD_OWN, .read = read_task_after},
    {"before", FIELD_OWN, .read = read_before},
};
static const struct fields task_fields = FIELDS("a task", task_items);

static void read_tasks(struct job_draft *draft)
{
    struct json_at list = json_member(draft->root, "tasks");
    size_t i = 0;
    struct task *tasks = ARENA_ARRAY(draft->reading->arena, draft->tasks.count, struct task);
    for (; i < draft->tasks.count; i++)
        tasks[i].name = draft->tasks.items[i];
    draft->job->tasks = tasks;
    draft->job->task_count = draft->tasks.count;
    i = 0;
    for (struct json_at item = json_first(list); item.node && i < draft->tasks.count;
         item = json_next(item), i++) {
        struct task_draft task = {.all = tasks, .index = i};
        fields_read(item, &task_fields, &task, draft);
        tasks[i].takes_min = task.task.takes_min;
    }
}

void job_read_pieces(struct field_in in)
{
    struct job_draft *draft = (struct job_draft *)in.context;
    struct piece *pieces = ARENA_ARRAY(draft->reading->arena, draft->pieces.count, struct piece);
    int entry = 0;
    for (size_t i = 0; i < draft->pieces.count; i++)
        pieces[i] = plain_piece(draft->pieces.items[i], -1);
    draft->job->pieces = pieces;
    draft->job->piece_count = draft->pieces.count;
    if (in.at.node && json_list(in.at, "a list of pieces"))
        for (struct json_at item = json_first(in.at); item.node; item = json_next(item))
            read_piece(draft, item, pieces, entry++);
    read_tasks(draft);
}
