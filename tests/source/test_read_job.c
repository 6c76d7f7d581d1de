#include "check.h"
#include "job_text.h"

#include "base/moment.h"
#include "source/job_file.h"

static const char full[] =
    "{\"format\": \"coatwright-job/1\", \"job\": \" Desk \", \"customer\": \"Reading room\", \"units\": "
    "\"in\",\n"
    " \"zone\": \"Europe/London\", \"currency\": \"KWD\", \"start\": \"2027-03-27\", \"deliver\": "
    "\"2027-04-19\",\n"
    " \"deliver-at\": \"light-use\", \"reserve\": \"15 %\",\n"
    " \"shop\": {\"closed\": [\"2027-03-29\", \"2027-04-19\"], \"rate-per-hour\": \"45.125\"},\n"
    " \"schedules\": {\"oil\": [{\"raise\": true}, {\"raise\": \"with hot water\", \"dry\": \"4 h\"}, "
    "{\"sand\": 150},\n"
    "   {\"mask\": \"the tenons\", \"takes\": \"20 min\"}, {\"coat\": \"wiping-varnish\"}, {\"scuff\": "
    "320},\n"
    "   {\"coat\": \"wiping-varnish\", \"coats\": 2, \"by\": \"brush\", \"thin\": \"2:1\", \"between\": "
    "{\"scuff\": 400}},\n"
    "   {\"coat\": \"shellac-dewaxed\", \"thin\": \"10 %\", \"between\": {\"rub\": \"steel wool 0000\"}},\n"
    "   {\"wait\": \"36 h\"}, {\"wait\": \"cured\"}, {\"rub\": \"1500\"}, {\"rub\": \"paste\"}, {\"polish\": "
    "true},\n"
    "   {\"task\": \"fit the glass\", \"takes\": \"1 h\"}],\n"
    "  \"b/c\": [{\"coat\": \"hardwax-oil\"}]},\n"
    " \"pieces\": [{\"piece\": \"legs\", \"laid\": \"hung\", \"ready\": \"2027-04-05\"},\n"
    "  {\"piece\": \"top\", \"laid\": \"flat\", \"after\": [\"legs\", \"door handle\", \"door handle "
    "handle\", \"fit hinges\"],\n"
    "   \"rack\": \"0.9 m2\", \"use\": [\"water\", \"child\"]}],\n"
    " \"tasks\": [{\"task\": \"fit hinges\", \"takes\": \"45 min\", \"after\": [\"door sand\"], \"before\": "
    "[\"top\", \"pack\"]},\n"
    "  {\"task\": \"pack\", \"takes\": \"1 h\", \"after\": [\"top wrap\"]}],\n"
    " \"parts\": [{\"part\": \"top\", \"length\": 47.25, \"width\": \"23 5/8\", \"thickness\": \"25 mm\", "
    "\"all\": \"oil\"},\n"
    "  {\"part\": \"leg\", \"piece\": \"legs\", \"qty\": 4, \"shape\": \"round\", \"diameter\": \"1.5\", "
    "\"length\": \"28\", \"all\": \"oil\"},\n"
    "  {\"part\": \"door\", \"length\": \"20\", \"width\": 6, \"size\": \"1x4\", \"face\": \"b/c\"},\n"
    "  {\"part\": \"door handle\", \"size\": \"1x4\", \"length\": 5, \"face\": \"b/c\", \"back\": \"-\"}]}\n";

/* 29 March is closed, 27 and 28 are a weekend: a date alone begins on the 30th, when London has changed its clocks.
 * 19 April is closed, 17 and 18 are a weekend: it ends on the 16th. */
static void check_head(const struct job *job)
{
    check_text(HERE, job->name, "Desk");
    check_text(HERE, job->customer, "Reading room");
    check_true(HERE, job->inches, "inches");
    check_text(HERE, job->zone->name, "Europe/London");
    check_text(HERE, job->currency, "KWD");
    check_int(HERE, job->currency_digits, 3); /* ISO 4217 */
    check_int(HERE, job->shop.rate_cents_per_hour, 45125);
    check_int(HERE, job->deliver_at, STATE_LIGHT_USE);
    check_double(HERE, job->reserve, 0.15, 1e-15);
    check_text(HERE, moment_format(job->zone, job->start_min, MOMENT_RFC3339).text,
               "2027-03-30T08:00:00+01:00");
    check_text(HERE, moment_format(job->zone, job->deliver_min, MOMENT_RFC3339).text,
               "2027-04-16T17:00:00+01:00");
    check_int(HERE, (intmax_t)job->finish_count >= 34, 1);
    check_true(HERE, !job->parts_file && !job->shop_file, "in the job itself");
}

static void check_coats(const struct step *s)
{
    check_text(HERE, s[4].finish->id, "wiping-varnish");
    check_int(HERE, s[4].coats, s[4].finish->coats_usual);
    check_int(HERE, s[4].by, s[4].finish->usual_tool);
    check_double(HERE, s[4].thin, 0, 0);
    check_int(HERE, s[4].between->kind, STEP_SAND); /* the finish's own */
    check_int(HERE, s[4].between->grit, s[4].finish->between_grit);
    check_int(HERE, s[6].coats, 2);
    check_int(HERE, s[6].by, TOOL_BRUSH);
    check_double(HERE, s[6].thin, 0.5, 1e-15); /* finish 2 : thinner 1 */
    check_int(HERE, s[6].between->kind, STEP_SCUFF);
    check_int(HERE, s[6].between->grit, 400);
    check_double(HERE, s[7].thin, 0.1, 1e-15);
    check_int(HERE, s[7].between->kind, STEP_RUB);
    check_text(HERE, s[7].between->words, "steel wool 0000");
}

static void check_steps(const struct job *job)
{
    static const enum step_kind kinds[] = {STEP_RAISE, STEP_RAISE, STEP_SAND,   STEP_MASK, STEP_COAT,
                                           STEP_SCUFF, STEP_COAT,  STEP_COAT,   STEP_WAIT, STEP_WAIT,
                                           STEP_RUB,   STEP_RUB,   STEP_POLISH, STEP_TASK};
    const struct step *s = job->schedules[0].steps;
    check_int(HERE, (intmax_t)job->schedules[0].step_count, 14);
    for (size_t i = 0; i < 14; i++)
        check_int(HERE, s[i].kind, kinds[i]);
    check_int(HERE, s[0].dry_min, 120);
    check_true(HERE, !s[0].words, "no words");
    check_text(HERE, s[1].words, "with hot water");
    check_int(HERE, s[1].dry_min, 240);
    check_int(HERE, s[2].grit, 150);
    check_text(HERE, s[3].words, "the tenons");
    check_int(HERE, s[3].takes_min, 20);
    check_coats(s);
    check_int(HERE, s[8].wait_min, 36 * 60);
    check_int(HERE, s[9].wait_min, -1);
    check_int(HERE, s[9].wait_state, STATE_CURED);
    check_text(HERE, s[10].words, "1500");
    check_text(HERE, s[13].words, "fit the glass");
    check_int(HERE, s[13].takes_min, 60);
}

static void check_pieces(const struct job *job)
{
    static const struct after want[] = {{false, 1, STATE_HANDLE},
                                        {false, 2, STATE_HANDLE},
                                        {false, 3, STATE_HANDLE},
                                        {true, 0, STATE_HANDLE}};
    const struct piece *top = &job->pieces[0], *legs = &job->pieces[1];
    check_int(HERE, (intmax_t)job->piece_count, 4);
    check_text(HERE, top->name, "top");
    check_text(HERE, legs->name, "legs");
    check_int(HERE, legs->laid, LAID_HUNG);
    check_int(HERE, legs->entry, 0);
    check_text(HERE, moment_format(job->zone, legs->ready_min, MOMENT_PLAIN).text, "2027-04-05 08:00");
    check_int(HERE, top->entry, 1);
    check_double(HERE, top->rack_m2, 0.9, 1e-15);
    check_int(HERE, top->uses, USE_WATER | USE_CHILD);
    check_int(HERE, (intmax_t)top->after_count, 4);
    for (size_t i = 0; i < 4; i++) {
        check_int(HERE, top->after[i].is_task, want[i].is_task);
        check_int(HERE, (intmax_t)top->after[i].index, (intmax_t)want[i].index);
        check_int(HERE, top->after[i].state, want[i].state);
    }
    check_int(HERE, job->pieces[2].entry, -1);
    check_int(HERE, job->pieces[2].laid_given, 0);
    check_double(HERE, job->pieces[2].rack_m2, -1, 0);
    check_true(HERE, top->ready_min == INT64_MIN, "from the start");
}

static void check_tasks(const struct job *job)
{
    const struct task *hinges = &job->tasks[0], *pack = &job->tasks[1];
    check_int(HERE, (intmax_t)job->task_count, 2);
    check_int(HERE, hinges->takes_min, 45);
    check_int(HERE, (intmax_t)hinges->after_count, 1);
    check_int(HERE, (intmax_t)hinges->after[0].index, 2);
    check_int(HERE, hinges->after[0].state, STATE_SAND);
    check_int(HERE, (intmax_t)hinges->before_count, 1);
    check_int(HERE, (intmax_t)hinges->before[0], 0);
    check_int(HERE, (intmax_t)pack->after_count, 2); /* its own, and that the hinges come before it */
    for (size_t i = 0; i < 2; i++)
        check_true(HERE,
                   pack->after[i].is_task ? pack->after[i].index == 0 : pack->after[i].state == STATE_WRAP,
                   "hinges, top wrap");
}

static void check_parts(const struct job *job)
{
    const struct part *p = job->parts;
    check_int(HERE, (intmax_t)job->part_count, 4);
    check_double(HERE, p[0].size_m[DIM_LENGTH], 1.20015, 1e-12); /* 47.25 x 25.4 mm */
    check_double(HERE, p[0].size_m[DIM_WIDTH], 0.600075, 1e-12); /* 23 5/8 in */
    check_double(HERE, p[0].size_m[DIM_THICKNESS], 0.025, 1e-15);
    check_int(HERE, p[0].qty, 1);
    check_double(HERE, p[0].work, 1, 0);
    check_int(HERE, p[0].schedule[REGION_ENDS], 0);
    check_int(HERE, p[0].schedule[REGION_INSIDE], SCHEDULE_NONE);
    check_int(HERE, p[1].shape, SHAPE_ROUND);
    check_int(HERE, p[1].qty, 4);
    check_int(HERE, (intmax_t)p[1].piece, 1);
    check_int(HERE, p[1].schedule[REGION_BACK], SCHEDULE_NONE);
    /* 1x4 is 3/4 x 3 1/2 in (PS 20); a width that is given goes ahead */
    check_double(HERE, p[2].size_m[DIM_THICKNESS], 0.01905, 1e-12);
    check_double(HERE, p[2].size_m[DIM_WIDTH], 0.1524, 1e-12);
    check_double(HERE, p[3].size_m[DIM_WIDTH], 0.0889, 1e-12);
    check_int(HERE, p[2].schedule[REGION_FACE], 1);
    check_int(HERE, p[2].schedule[REGION_BACK], SCHEDULE_NONE);
    check_int(HERE, p[3].schedule[REGION_BACK], SCHEDULE_BARE);
    check_int(HERE, (intmax_t)p[3].row, 3);
}

static void reads_every_key(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct job *job = job_text_read_as(reader, full);
    check_text(HERE, reader_lines(reader, &reader->errors), "");
    check_head(job);
    check_steps(job);
    check_pieces(job);
    check_tasks(job);
    check_parts(job);
    reader_free(reader);
}

/* Contract, section 8: what a job need not say. */
static void defaults(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct job *job = job_text_read_as(
        reader,
        "{\"format\": \"coatwright-job/1\", \"job\": \"a\", \"zone\": \"UTC\", \"start\": \"2027-03-01\", "
        "\"deliver\": \"2027-03-19\", \"schedules\": {\"oil\": [{\"coat\": \"hardwax-oil\"}]}, "
        "\"parts\": [{\"part\": \"top\", \"wood\": \"oak\", \"length\": 100, \"width\": 100, \"thickness\": "
        "10, "
        "\"all\": \"oil\"}]}");
    check_text(HERE, reader_lines(reader, &reader->errors), "");
    check_text(HERE, reader_lines(reader, &reader->warnings), "");
    check_true(HERE, !job->inches && !job->customer && job->shop.air.assumed && job->shop.hours_assumed,
               "defaults");
    check_int(HERE, job->deliver_at, STATE_WRAP);
    check_double(HERE, job->reserve, 0.1, 0);
    check_text(HERE, job->currency, "");
    check_text(HERE, job->log.file, "job.log"); /* beside job.json */
    check_int(HERE, job->currency_digits, 2);
    check_double(HERE, job->parts[0].size_m[DIM_LENGTH], 0.1, 1e-15);
    check_text(HERE, job->parts[0].wood->name, "oak");
    check_text(HERE, moment_format(job->zone, job->start_min, MOMENT_PLAIN).text, "2027-03-01 08:00");
    check_text(HERE, moment_format(job->zone, job->deliver_min, MOMENT_PLAIN).text, "2027-03-19 17:00");
    check_true(HERE, job->deliver_is_day && job->deliver_day == date_days((struct date){2027, 3, 19}),
               "the day that was promised");
    reader_free(reader);
}

/* The rules of a zone are read for the years of the job: a July of 2060 has summer time. */
static void a_start_far_ahead(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    const char *text = reader_swap(reader, job_text_job, "2027-03-01", "2060-07-01");
    const struct job *job =
        job_text_read_parts(reader, reader_swap(reader, text, "2027-03-19", "2060-07-19"), job_text_parts);
    check_text(HERE, reader_lines(reader, &reader->errors), "");
    check_int(HERE, job->start_min, date_days((struct date){2060, 7, 1}) * 1440 + 7 * 60);
    reader_free(reader);
}

int main(void)
{
    job_text_begin();
    return CHECK_ALL(CHECK_TEST(reads_every_key), CHECK_TEST(defaults), CHECK_TEST(a_start_far_ahead));
}
