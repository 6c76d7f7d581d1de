/* `people`: how many there are, or who they are and what, when and which tools they work with. */
#include "source/shop_parts.h"

#include "base/arena.h"
#include "job/shop.h"

#include <string.h>

static const char *const skill_form = "a list of tools and works such as [\"hvlp\", \"sand\"]";

/* A person while they are read: days and hours as if they were a shop's own. */
struct person_draft {
    const char *name;
    unsigned does;
    struct shop own;
    bool hours_own;
    const char **calendars;
    size_t calendar_count;
};

static void read_does(struct field_in in)
{
    struct person_draft *to = in.record;
    const char *names[WORK_COUNT];
    int work;
    if (!filled_list(in.at, skill_form))
        return;
    for (int i = 0; i < WORK_COUNT; i++)
        names[i] = work_name(i);
    to->does = 0;
    for (struct json_at item = json_first(in.at); item.node; item = json_next(item))
        if (json_choice(item, names, WORK_COUNT, &work))
            to->does |= 1u << work;
}

static void read_own_hours(struct field_in in)
{
    struct person_draft *to = in.record;
    to->hours_own = true;
    in.record = &to->own;
    shop_read_hours(in);
}

static void read_own_closed(struct field_in in)
{
    in.record = &((struct person_draft *)in.record)->own;
    shop_read_closed(in);
}

/* Calendars are read by the job, once its days are known; here their names are kept. */
static void read_calendar_names(struct field_in in)
{
    struct person_draft *to = in.record;
    to->calendars = ARENA_ARRAY(in.at.doc->reading->arena, json_size(in.at), const char *);
    for (struct json_at item = json_first(in.at); item.node; item = json_next(item))
        if (json_is_text(item))
            to->calendars[to->calendar_count++] = item.node->text;
}

static const struct field items[] = {
    {"person", FIELD_TEXT, AT(person_draft, name), .needed = true, .expected = "the person's name"},
    {"does", FIELD_OWN, .read = read_does},
    {"hours", FIELD_OWN, .read = read_own_hours},
    {"closed", FIELD_OWN, .read = read_own_closed},
    {"busy", FIELD_OWN, .read = read_calendar_names},
};
static const struct fields fields = FIELDS("a person", items);

/* The shop's closed days and the person's own. */
static void join_closed(struct arena *arena, const struct shop *shop, const struct shop *own,
                        struct person *person)
{
    struct day_range *all = ARENA_ARRAY(arena, shop->closed_count + own->closed_count, struct day_range);
    if (shop->closed_count)
        memcpy(all, shop->closed, shop->closed_count * sizeof *all);
    if (own->closed_count)
        memcpy(all + shop->closed_count, own->closed, own->closed_count * sizeof *all);
    person->closed = all;
    person->closed_count = shop->closed_count + own->closed_count;
    person->closed_own = own->closed_count;
}

static void read_person(struct json_at at, const struct shop *shop, struct person *person)
{
    struct person_draft draft = {.does = SKILLS_ALL, .own = *shop};
    draft.own.closed = NULL;
    draft.own.closed_count = 0;
    fields_read(at, &fields, &draft, NULL);
    *person = (struct person){.name = draft.name ? draft.name : "",
                              .does = draft.does,
                              .hours_own = draft.hours_own,
                              .calendars = draft.calendars,
                              .calendar_count = draft.calendar_count};
    memcpy(person->hours, draft.own.hours, sizeof person->hours);
    join_closed(at.doc->reading->arena, shop, &draft.own, person);
}

static void refuse_twice(struct json_at list, const struct person *crew, int count)
{
    int i = 0;
    for (struct json_at item = json_first(list); item.node && i < count; item = json_next(item), i++)
        for (int k = 0; k < i; k++)
            if (*crew[i].name && strcmp(crew[i].name, crew[k].name) == 0)
                json_refuse(json_member(item, "person"), "a name that nobody else has");
}

void shop_read_people(struct field_in in)
{
    struct shop *shop = in.record;
    if (!json_is_list(in.at)) {
        read_whole(in.at, LIMIT_PEOPLE, &shop->people);
        return;
    }
    if (!filled_list(in.at, "a number of people, or a list such as [{\"person\": \"Ann\"}]"))
        return;
    size_t count = json_size(in.at);
    if (count > PEOPLE_MOST) {
        json_refuse(in.at, "at most 100 people");
        return;
    }
    struct person *crew = ARENA_ARRAY(in.at.doc->reading->arena, count, struct person);
    int people = 0;
    for (struct json_at item = json_first(in.at); item.node; item = json_next(item))
        read_person(item, shop, &crew[people++]);
    refuse_twice(in.at, crew, people);
    shop->people = people;
    shop->crew = crew;
}

static void write_does(struct json_write *to, unsigned does)
{
    if (does == SKILLS_ALL)
        return;
    json_open_row(to, "does", '[');
    for (int i = 0; i < WORK_COUNT; i++)
        if (does >> i & 1)
            json_put_text(to, NULL, work_name(i));
    json_close(to);
}

static void write_person(struct json_write *to, const struct person *person)
{
    size_t shared = person->closed_count - person->closed_own;
    struct shop own = {.closed = person->closed_own > 0 ? person->closed + shared : NULL,
                       .closed_count = person->closed_own};
    memcpy(own.hours, person->hours, sizeof own.hours);
    json_open_row(to, NULL, '{');
    json_put_text(to, "person", person->name);
    write_does(to, person->does);
    if (person->hours_own)
        shop_write_hours((struct field_out){to, "hours", &own, NULL});
    if (person->closed_own)
        shop_write_closed((struct field_out){to, "closed", &own, NULL});
    if (person->calendar_count) {
        json_open_row(to, "busy", '[');
        for (size_t i = 0; i < person->calendar_count; i++)
            json_put_text(to, NULL, person->calendars[i]);
        json_close(to);
    }
    json_close(to);
}

void shop_write_people(struct field_out out)
{
    const struct shop *shop = out.record;
    if (!shop->crew) {
        json_put_whole(out.to, out.key, shop->people);
        return;
    }
    json_open_row(out.to, out.key, '[');
    for (int i = 0; i < shop->people; i++)
        write_person(out.to, &shop->crew[i]);
    json_close(out.to);
}

static bool same_person(const struct person *a, const struct person *b)
{
    struct shop left = {.closed = a->closed, .closed_count = a->closed_count},
                right = {.closed = b->closed, .closed_count = b->closed_count};
    memcpy(left.hours, a->hours, sizeof left.hours);
    memcpy(right.hours, b->hours, sizeof right.hours);
    bool same_hours = (!a->hours_own && !b->hours_own) || shop_same_hours(&left, &right);
    return strcmp(a->name, b->name) == 0 && a->does == b->does && same_hours &&
           shop_same_closed(&left, &right);
}

/* Of person i, whose calendars were read for the same time as their shop's. */
static bool same_busy(const struct shop *a, const struct shop *b, int i)
{
    struct shop left = {.busy = a->crew[i].busy,
                        .busy_count = a->crew[i].busy_count,
                        .busy_from_min = a->busy_from_min,
                        .busy_to_min = a->busy_to_min},
                right = {.busy = b->crew[i].busy,
                         .busy_count = b->crew[i].busy_count,
                         .busy_from_min = b->busy_from_min,
                         .busy_to_min = b->busy_to_min};
    return shop_same_busy(&left, &right);
}

/* The busy times of people hold the shop's: where those differ, they alone are what differs. */
bool shop_same_people(const void *a, const void *b)
{
    const struct shop *left = a, *right = b;
    if (left->people != right->people || !left->crew != !right->crew)
        return false;
    bool alike = shop_same_busy(left, right);
    for (int i = 0; left->crew && i < left->people; i++)
        if (!same_person(&left->crew[i], &right->crew[i]) || (alike && !same_busy(left, right, i)))
            return false;
    return true;
}
