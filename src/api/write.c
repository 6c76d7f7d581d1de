/* Every report in every format, and what must be there before it can be written. */
#include "api/session.h"

#include "format/given.h"
#include "format/json_write.h"
#include "format/key.h"
#include "format/words.h"
#include "plan/plan.h"
#include "report/calendar.h"
#include "report/csv.h"
#include "report/drawing.h"
#include "report/json.h"
#include "report/log.h"
#include "report/sheet.h"
#include "report/text.h"

enum needs {
    NEEDS_SURFACES,
    NEEDS_PLAN,
    NEEDS_PLAN_OR_MIX,
    NEEDS_FINISHES,
    NEEDS_JOB,
    NEEDS_LEARNED,
    NEEDS_FETCHED,
    NEEDS_NOTHING
};

/* One report being written; `previous` is the calendar that it replaces, NULL: none. */
struct writing {
    struct coatwright *session;
    struct buf *out;
    struct screen screen;
    struct json_write json;
    const struct file_text *previous;
};

struct report_writer {
    enum coatwright_report report;
    enum coatwright_format format;
    enum needs needs;
    bool (*write)(struct writing *w); /* false: an error was added */
};

static bool check_text(struct writing *w)
{
    show_check(&w->screen, w->session->job, w->session->surfaces, &w->session->warnings, w->session->now_min);
    return true;
}

static bool check_json(struct writing *w)
{
    const struct job *job = w->session->job;
    write_check(&w->json, &w->session->warnings,
                &(struct busy_report){job->zone, job->shop.busy_files, job->shop.busy_file_count,
                                      w->session->now_min});
    return true;
}

static bool area_text(struct writing *w)
{
    show_area(&w->screen, w->session->job, w->session->surfaces);
    return true;
}

static bool area_json(struct writing *w)
{
    write_area(&w->json, NULL, w->session->job, w->session->surfaces);
    return true;
}

static enum drawing_paper paper_of(const struct writing *w)
{
    enum coatwright_page page = w->session->options.page;
    bool letter = page == COATWRIGHT_PAGE_OF_UNITS ? w->screen.units == UNITS_US : page == COATWRIGHT_LETTER;
    return letter ? PAPER_LETTER : PAPER_A4;
}

static bool area_drawing(struct writing *w)
{
    area_svg(w->out, w->session->job, w->session->surfaces, w->screen.units, paper_of(w));
    return true;
}

static bool buy_text(struct writing *w)
{
    show_buy(&w->screen, w->session->plan);
    return true;
}

static bool buy_json(struct writing *w)
{
    write_buy(&w->json, NULL, w->session->job, w->session->plan->purchases);
    return true;
}

static bool buy_csv(struct writing *w)
{
    csv_shopping(w->session->plan, w->out);
    return true;
}

static struct quote quote_of(const struct writing *w)
{
    return plan_quote(w->out->arena, w->session->plan, w->session->first_plan);
}

static bool cost_text(struct writing *w)
{
    struct quote quote = quote_of(w);
    show_cost(&w->screen, &quote);
    return true;
}

static bool cost_json(struct writing *w)
{
    struct quote quote = quote_of(w);
    write_cost(&w->json, &quote);
    return true;
}

static bool cost_csv(struct writing *w)
{
    struct quote quote = quote_of(w);
    csv_cost(w->out, &quote);
    return true;
}

static bool mix_text(struct writing *w)
{
    if (w->session->lone)
        show_lone(&w->screen, w->session->lone);
    else
        show_mix(&w->screen, w->session->plan);
    return true;
}

static bool mix_json(struct writing *w)
{
    if (w->session->lone)
        write_lone(&w->json, w->session->lone);
    else
        write_mix(&w->json, NULL, w->session->job, w->session->plan->mixes);
    return true;
}

static bool timetable_text(struct writing *w)
{
    const struct coatwright *session = w->session;
    if (session->together_count > 1)
        show_together(&w->screen, session->together, session->together_count);
    show_timetable(&w->screen, session->plan);
    if (session->chance)
        show_chance(&w->screen, session->plan->timetable, session->chance);
    return true;
}

static bool timetable_json(struct writing *w)
{
    write_timetable(&w->json, NULL, w->session->plan, w->session->chance);
    return true;
}

/* What tells each job of a calendar from others of its name; NULL: an error was added. A job from memory has no folder. */
static const char **calendar_keys(struct coatwright *session, const struct plan *const *plans, size_t count)
{
    const char **keys = ARENA_ARRAY(session->arena, count, const char *);
    for (size_t i = 0; i < count; i++) {
        struct err err;
        const char *file = plans[i]->job->file;
        bool given = given_find(session->reading.given, file) != NULL;
        keys[i] = given ? "" : key_of(session->arena, file, &err);
        if (!keys[i]) {
            (void)session_file_failed(session, file, &err);
            return NULL;
        }
    }
    return keys;
}

/* The plans of a calendar; how many. */
static size_t calendar_plans(const struct coatwright *session, const struct plan *const **plans)
{
    bool several = session->together_count > 1;
    *plans = several ? session->together : &session->plan;
    return several ? session->together_count : session->plan != NULL;
}

bool session_draw_keys(struct coatwright *session)
{
    const struct plan *const *plans;
    size_t count = calendar_plans(session, &plans);
    return calendar_keys(session, plans, count) != NULL;
}

static bool timetable_calendar(struct writing *w)
{
    struct coatwright *session = w->session;
    const struct plan *const *plans;
    size_t count = calendar_plans(session, &plans);
    const char **keys = calendar_keys(session, plans, count);
    struct calendar_options options = {session->now_min, w->previous, keys};
    bool written = keys && calendar_write(session->arena, plans, count, options, w->out, &session->errors);
    for (size_t i = 0; !written && i < session->together_count; i++)
        texts_locate(session->together_texts[i], &session->errors);
    return written;
}

static bool is_planned(struct coatwright *session, const struct timetable *timetable)
{
    if (timetable->status != TIMETABLE_PLANNED)
        err_add(&session->errors, ERR_USAGE, NULL, NULL, "a timetable to draw", "none");
    return timetable->status == TIMETABLE_PLANNED;
}

static bool timetable_drawing(struct writing *w)
{
    const struct timetable *timetable = w->session->plan->timetable;
    if (!is_planned(w->session, timetable))
        return false;
    timetable_svg(w->out, timetable);
    return true;
}

static bool plan_text(struct writing *w)
{
    show_plan(&w->screen, w->session->plan, w->session->now_min, &w->session->warnings,
              &w->session->unrecorded);
    return true;
}

static bool plan_json(struct writing *w)
{
    write_plan(&w->json, w->session->plan);
    return true;
}

static struct day_card *day_card_of(struct writing *w)
{
    const struct coatwright *session = w->session;
    bool several = session->together_count > 1;
    int64_t today = zone_day(session->job->zone, session->now_min, NULL);
    return day_card_make(w->out->arena, several ? session->together : &session->plan,
                         several ? session->together_count : 1,
                         session->card_day == INT64_MIN ? today : session->card_day, session->card_person);
}

static bool day_text(struct writing *w)
{
    show_day(&w->screen, day_card_of(w));
    return true;
}

static bool day_json(struct writing *w)
{
    write_day(&w->json, day_card_of(w));
    return true;
}

static bool sheet_html(struct writing *w)
{
    struct coatwright *session = w->session;
    bool several = session->together_count > 1;
    const struct plan *const *plans = several ? session->together : &session->plan;
    size_t count = several ? session->together_count : 1;
    struct sheet_want want = {session->now_min, session->card_day, session->card_person, w->screen.units,
                              paper_of(w)};
    for (size_t i = 0; i < count; i++)
        if (!is_planned(session, plans[i]->timetable))
            return false;
    write_sheet(w->out, plans, count, want);
    return true;
}

static bool finishes_text(struct writing *w)
{
    const struct coatwright *session = w->session;
    if (session->one_finish)
        show_finish(&w->screen, session->finishes[0], session->replaces[0]);
    else
        show_finishes(&w->screen, session->finishes, session->finish_count);
    return true;
}

static bool finishes_json(struct writing *w)
{
    write_finishes(&w->json, w->session->finishes, w->session->replaces, w->session->finish_count);
    return true;
}

static bool finish_label(struct writing *w)
{
    if (!w->session->one_finish) {
        err_add(&w->session->errors, ERR_USAGE, NULL, NULL, "one finish, the nearest of the table",
                "all of them");
        return false;
    }
    write_label(&w->json, w->session->finishes[0]);
    return true;
}

static bool woods_text(struct writing *w)
{
    show_woods(&w->screen);
    return true;
}

static bool woods_json(struct writing *w)
{
    write_woods(&w->json);
    return true;
}

static bool log_text(struct writing *w)
{
    show_log(&w->screen, w->session->job);
    return true;
}

static bool log_json(struct writing *w)
{
    write_log(&w->json, w->session->job);
    return true;
}

static bool learned_text(struct writing *w)
{
    show_learned(&w->screen, session_learned(w->session));
    return true;
}

static bool learned_json(struct writing *w)
{
    write_learned(&w->json, session_learned(w->session));
    return true;
}

static bool busy_text(struct writing *w)
{
    show_busy(w->out, &w->session->fetched);
    return true;
}

static bool busy_json(struct writing *w)
{
    json_open(&w->json, NULL, '{');
    write_busy(&w->json, "calendars", &w->session->fetched);
    json_close(&w->json);
    return true;
}

/* NULL: the report does not exist in that format. */
static const struct report_writer *report_find(enum coatwright_report report, enum coatwright_format format)
{
    static const struct report_writer writers[] = {
        {COATWRIGHT_CHECK, COATWRIGHT_TEXT, NEEDS_SURFACES, check_text},
        {COATWRIGHT_CHECK, COATWRIGHT_JSON, NEEDS_SURFACES, check_json},
        {COATWRIGHT_AREA, COATWRIGHT_TEXT, NEEDS_SURFACES, area_text},
        {COATWRIGHT_AREA, COATWRIGHT_JSON, NEEDS_SURFACES, area_json},
        {COATWRIGHT_AREA, COATWRIGHT_SVG, NEEDS_SURFACES, area_drawing},
        {COATWRIGHT_BUY, COATWRIGHT_TEXT, NEEDS_PLAN, buy_text},
        {COATWRIGHT_BUY, COATWRIGHT_JSON, NEEDS_PLAN, buy_json},
        {COATWRIGHT_BUY, COATWRIGHT_CSV, NEEDS_PLAN, buy_csv},
        {COATWRIGHT_COST, COATWRIGHT_TEXT, NEEDS_PLAN, cost_text},
        {COATWRIGHT_COST, COATWRIGHT_JSON, NEEDS_PLAN, cost_json},
        {COATWRIGHT_COST, COATWRIGHT_CSV, NEEDS_PLAN, cost_csv},
        {COATWRIGHT_MIX, COATWRIGHT_TEXT, NEEDS_PLAN_OR_MIX, mix_text},
        {COATWRIGHT_MIX, COATWRIGHT_JSON, NEEDS_PLAN_OR_MIX, mix_json},
        {COATWRIGHT_TIMETABLE, COATWRIGHT_TEXT, NEEDS_PLAN, timetable_text},
        {COATWRIGHT_TIMETABLE, COATWRIGHT_JSON, NEEDS_PLAN, timetable_json},
        {COATWRIGHT_TIMETABLE, COATWRIGHT_ICALENDAR, NEEDS_PLAN, timetable_calendar},
        {COATWRIGHT_TIMETABLE, COATWRIGHT_SVG, NEEDS_PLAN, timetable_drawing},
        {COATWRIGHT_PLAN, COATWRIGHT_TEXT, NEEDS_PLAN, plan_text},
        {COATWRIGHT_PLAN, COATWRIGHT_JSON, NEEDS_PLAN, plan_json},
        {COATWRIGHT_DAY, COATWRIGHT_TEXT, NEEDS_PLAN, day_text},
        {COATWRIGHT_DAY, COATWRIGHT_JSON, NEEDS_PLAN, day_json},
        {COATWRIGHT_SHEET, COATWRIGHT_HTML, NEEDS_PLAN, sheet_html},
        {COATWRIGHT_FINISH_TABLE, COATWRIGHT_TEXT, NEEDS_FINISHES, finishes_text},
        {COATWRIGHT_FINISH_TABLE, COATWRIGHT_JSON, NEEDS_FINISHES, finishes_json},
        {COATWRIGHT_FINISH_LABEL, COATWRIGHT_JSON, NEEDS_FINISHES, finish_label},
        {COATWRIGHT_WOODS, COATWRIGHT_TEXT, NEEDS_NOTHING, woods_text},
        {COATWRIGHT_WOODS, COATWRIGHT_JSON, NEEDS_NOTHING, woods_json},
        {COATWRIGHT_LOG, COATWRIGHT_TEXT, NEEDS_JOB, log_text},
        {COATWRIGHT_LOG, COATWRIGHT_JSON, NEEDS_JOB, log_json},
        {COATWRIGHT_LEARNED, COATWRIGHT_TEXT, NEEDS_LEARNED, learned_text},
        {COATWRIGHT_LEARNED, COATWRIGHT_JSON, NEEDS_LEARNED, learned_json},
        {COATWRIGHT_BUSY, COATWRIGHT_TEXT, NEEDS_FETCHED, busy_text},
        {COATWRIGHT_BUSY, COATWRIGHT_JSON, NEEDS_FETCHED, busy_json},
    };
    for (size_t i = 0; i < sizeof writers / sizeof writers[0]; i++)
        if (writers[i].report == report && writers[i].format == format)
            return &writers[i];
    return NULL;
}

static bool has(const struct coatwright *session, enum needs needs)
{
    switch (needs) {
    case NEEDS_SURFACES:
        return session->surfaces != NULL;
    case NEEDS_PLAN:
        return session->plan != NULL;
    case NEEDS_JOB:
        return session->job != NULL;
    case NEEDS_LEARNED:
        return session->learning != NULL;
    case NEEDS_FETCHED:
        return session->fetched.count > 0;
    case NEEDS_NOTHING:
        return true;
    case NEEDS_PLAN_OR_MIX:
        return session->plan != NULL || session->lone != NULL;
    default:
        return session->finishes != NULL;
    }
}

const struct buf *session_write(struct coatwright *session, enum coatwright_report report,
                                enum coatwright_format format, const struct file_text *previous)
{
    const struct report_writer *writer = report_find(report, format);
    struct buf *out = ARENA_NEW(session->arena, struct buf);
    if (!writer || !has(session, writer->needs)) {
        err_add(&session->errors, ERR_USAGE, NULL, NULL,
                writer ? "what the report is about" : "a format of the report",
                writer ? "nothing read for it" : "another one");
        return NULL;
    }
    buf_init(out, session->arena);
    struct writing w = {
        .session = session,
        .out = out,
        .screen = session_screen(session, out),
        .previous = previous,
    };
    json_write_init(&w.json, out);
    if (!writer->write(&w))
        return NULL;
    if (format == COATWRIGHT_TEXT)
        words_shown(out, session->options.colour);
    return out;
}

struct write_call {
    enum coatwright_report report;
    enum coatwright_format format;
    const char *text;
};

static bool write_report(struct coatwright *session, void *argument)
{
    struct write_call *call = argument;
    const struct buf *out = session_write(session, call->report, call->format, NULL);
    call->text = out ? out->text : NULL;
    return out != NULL;
}

const char *coatwright_write(struct coatwright *session, enum coatwright_report report,
                             enum coatwright_format format)
{
    struct write_call call = {report, format, NULL};
    if (report == COATWRIGHT_ERRORS && format == COATWRIGHT_JSON)
        return session ? session_errors_json(session) : NULL;
    return session_guard(session, write_report, &call) ? call.text : NULL;
}
