#include "sample_job.h"

#include "sample.h"

#include <string.h>

static const struct zone utc = {"UTC", 0, NULL};

static void bench_parts(struct sample_job *b)
{
    for (int i = 0; i < 3; i++) {
        b->parts[i] =
            (struct part){.name = "board", .row = (size_t)i, .piece = (size_t)i, .qty = 1, .work = 1};
        b->parts[i].size_m[DIM_LENGTH] = 1.2;
        b->parts[i].size_m[DIM_WIDTH] = 0.15;
        b->parts[i].size_m[DIM_THICKNESS] = 0.02;
        b->parts[i].wood = wood_find("oak");
        for (int r = 0; r < REGION_COUNT; r++)
            b->parts[i].schedule[r] = SCHEDULE_NONE;
        b->parts[i].schedule[REGION_FACE] = i == 0 ? 0 : 1;
    }
}

void sample_job(struct sample_job *b)
{
    memset(b, 0, sizeof *b);
    b->finish = sample_varnish();
    b->top_steps[0] = (struct step){.kind = STEP_SAND, .grit = 180};
    b->top_steps[1] = (struct step){.kind = STEP_COAT, .finish = &b->finish, .coats = 3, .by = TOOL_CLOTH};
    b->top_steps[2] = (struct step){.kind = STEP_WAIT, .wait_min = -1, .wait_state = STATE_CURED};
    b->case_steps[0] = (struct step){.kind = STEP_COAT, .finish = &b->finish, .coats = 2, .by = TOOL_BRUSH};
    b->case_steps[1] = (struct step){.kind = STEP_RUB, .words = "wool"};
    b->schedules[0] = (struct schedule){"top", b->top_steps, 3};
    b->schedules[1] = (struct schedule){"case/inside", b->case_steps, 2};
    b->pieces[0] = (struct piece){.name = "top", .ready_min = INT64_MIN, .rack_m2 = -1, .entry = 1};
    b->pieces[1] = (struct piece){.name = "case", .ready_min = INT64_MIN, .rack_m2 = -1, .entry = 0};
    b->pieces[2] = (struct piece){.name = "leg", .ready_min = INT64_MIN, .rack_m2 = -1, .entry = -1};
    b->tasks[0] = (struct task){.name = "fit hinges", .takes_min = 45};
    bench_parts(b);
    b->job = (struct job){.name = "desk",
                          .file = "desk.json",
                          .zone = &utc,
                          .start_min = 0,
                          .deliver_min = 14 * 1440,
                          .schedules = b->schedules,
                          .schedule_count = 2,
                          .pieces = b->pieces,
                          .piece_count = 3,
                          .parts = b->parts,
                          .part_count = 3,
                          .tasks = b->tasks,
                          .task_count = 1};
    shop_default(&b->job.shop);
}
