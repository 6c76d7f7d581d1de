#include "drawn.h"

#include "check.h"
#include "sample.h"

#include <stdio.h>
#include <string.h>

static const struct zone UTC = {"UTC", 0, NULL};

static const char *const names[] = {"A", "B", "C", "D", "E", "F", "G", "H"};

int64_t drawn_at(int day, int hour, int minute)
{
    return (date_days((struct date){2027, 3, 1}) + day - 1) * DAY_MINUTES + hour * 60 + minute;
}

static void init_job(struct drawn *drawn, size_t pieces)
{
    drawn->job = (struct job){.name = "Sample",
                              .zone = &UTC,
                              .start_min = drawn_at(1, 8, 0),
                              .deliver_min = drawn_at(5, 12, 0),
                              .deliver_at = STATE_HANDLE,
                              .schedules = drawn->schedules,
                              .schedule_count = 2,
                              .pieces = drawn->pieces,
                              .piece_count = pieces,
                              .tasks = &drawn->task,
                              .task_count = 1};
    shop_default(&drawn->job.shop);
    drawn->stretches[0] = (struct stretch){8 * 60, 12 * 60};
    drawn->stretches[1] = (struct stretch){13 * 60, 17 * 60};
    for (int day = 0; day < 7; day++)
        drawn->job.shop.hours[day] = (struct shop_day){drawn->stretches, day < 5 ? 2 : 0};
}

void drawn_init(struct drawn *drawn, size_t pieces)
{
    memset(drawn, 0, sizeof *drawn);
    drawn->finish = sample_varnish();
    drawn->coat = (struct step){.kind = STEP_COAT, .finish = &drawn->finish, .coats = 3};
    drawn->schedules[0] = (struct schedule){"oil", &drawn->coat, 1};
    drawn->schedules[1] = (struct schedule){"wax", &drawn->coat, 1};
    drawn->task = (struct task){.name = "fit hinges", .takes_min = 60};
    for (size_t i = 0; i < pieces; i++)
        drawn->pieces[i] = (struct piece){.name = names[i % 8], .ready_min = INT64_MIN};
    init_job(drawn, pieces);
    drawn->timetable = (struct timetable){.job = &drawn->job,
                                          .status = TIMETABLE_PLANNED,
                                          .start_min = drawn->job.start_min,
                                          .ready_min = drawn->job.start_min,
                                          .deliver_min = drawn->job.deliver_min,
                                          .steps = drawn->steps,
                                          .waits = drawn->waits,
                                          .batches = drawn->batches,
                                          .chain = drawn->chain};
}

void drawn_batch(struct drawn *drawn, const size_t *steps, size_t count, int64_t start, int64_t end)
{
    size_t index = drawn->timetable.batch_count++;
    memcpy(drawn->batch_steps[index], steps, count * sizeof *steps);
    drawn->batches[index] = (struct timetable_batch){.id = "id",
                                                     .first = drawn->steps[steps[0]].operation,
                                                     .person = 1,
                                                     .start_min = start,
                                                     .end_min = end,
                                                     .steps = drawn->batch_steps[index],
                                                     .step_count = count};
    for (size_t i = 0; i < count; i++)
        drawn->steps[steps[i]].batch = index;
}

struct operation *drawn_step(struct drawn *drawn, enum doing doing, int piece, int64_t start, int minutes)
{
    struct timetable *timetable = &drawn->timetable;
    size_t index = timetable->step_count++;
    struct operation *operation = &drawn->operations[index];
    *operation = (struct operation){.job = &drawn->job,
                                    .doing = doing,
                                    .id = "id",
                                    .piece = piece,
                                    .schedule = piece < 0 ? -1 : 0,
                                    .task = piece < 0 ? 0 : -1,
                                    .minutes = minutes,
                                    .grit = 180,
                                    .words = "fit hinges",
                                    .pass = {.job = &drawn->job, .piece = piece < 0 ? 0 : (size_t)piece},
                                    .of = {.step = &drawn->coat}};
    drawn->steps[index] = (struct timetable_step){
        .operation = operation, .start_min = start, .end_min = start + minutes, .person = 1};
    if (start + minutes > timetable->ready_min)
        timetable->ready_min = start + minutes;
    return operation;
}

struct drying_wait *drawn_coat(struct drawn *drawn, int piece, int64_t start, int minutes, int64_t dry)
{
    struct timetable *timetable = &drawn->timetable;
    struct operation *operation = drawn_step(drawn, DO_APPLY, piece, start, minutes);
    operation->coats = 3;
    operation->coat = operation->of.of_finish = 1;
    for (size_t i = 0; i < timetable->wait_count; i++)
        operation->coat += drawn->steps[drawn->waits[i].step].operation->piece == piece;
    operation->of.of_finish = operation->coat;
    struct drying_wait *wait = &drawn->waits[timetable->wait_count++];
    *wait = (struct drying_wait){.step = timetable->step_count - 1,
                                 .outside = {INT64_MAX, INT64_MAX, 0},
                                 .state = STATE_RECOAT,
                                 .from_min = start + minutes,
                                 .until_min = dry,
                                 .window_min = INT64_MAX};
    if (dry > timetable->ready_min)
        timetable->ready_min = dry;
    return wait;
}

void drawn_random(struct drawn *drawn, uint64_t *seed, int days)
{
    int count = check_random_int(seed, 1, DRAWN_STEPS - 1), pieces = (int)drawn->job.piece_count;
    for (int i = 0; i < count; i++) {
        int day = 1 + i * days / count, left = (i * days) % count;
        int64_t start = drawn_at(day, 8, left * 480 / count / 5 * 5);
        int piece = check_random_int(seed, -1, pieces - 1), minutes = check_random_int(seed, 1, 30) * 5;
        if (piece < 0 || check_random_int(seed, 0, 1)) {
            enum doing doing = piece < 0 ? DO_TASK : (enum doing)(check_random_int(seed, 0, 3));
            struct operation *operation = drawn_step(drawn, doing, piece, start, minutes);
            operation->schedule = piece < 0 ? -1 : check_random_int(seed, 0, 1);
            continue;
        }
        int64_t dry = start + minutes + check_random_int(seed, 1, 60) * 60;
        struct drying_wait *wait = drawn_coat(drawn, piece, start, minutes, dry);
        struct operation *operation = &drawn->operations[wait->step];
        operation->side = (enum side)(check_random_int(seed, 0, 2));
        operation->last_coat = check_random_int(seed, 0, 4) == 0;
        wait->window_min =
            check_random_int(seed, 0, 1) ? INT64_MAX : dry + check_random_int(seed, 1, 99) * 60;
        if (check_random_int(seed, 0, 9) == 0)
            wait->outside = (struct air_outside){wait->from_min + 5, wait->from_min + 65, 60};
        if (check_random_int(seed, 0, 3) == 0)
            drawn->chain[drawn->timetable.chain_count++] = wait->step;
    }
}
