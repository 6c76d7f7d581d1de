#include "report/text.h"

#include "base/arena.h"
#include "base/coverage.h"
#include "base/number.h"

static const char *with_tolerance(struct arena *arena, const char *text, double tolerance)
{
    return arena_textf(arena, "%s \xC2\xB1 %s %%", text, number_round(100 * tolerance, 0).text);
}

static const char *coverage_words(const struct screen *screen, double m2_per_l, double tolerance)
{
    struct coverage coverage = {COVERAGE_M2_PER_L, m2_per_l};
    return with_tolerance(screen->out->arena, coverage_format(coverage, screen->units).text, tolerance);
}

static const char *counted(struct arena *arena, size_t count, const char *one, const char *many)
{
    return count ? arena_textf(arena, "%zu %s", count, count == 1 ? one : many) : "none";
}

static const char *coats_words(struct arena *arena, const struct learned_row *row)
{
    const char *coats = counted(arena, row->coats, "coat", "coats");
    return row->coats == row->litres.count
               ? coats
               : arena_textf(arena, "%s in %s", coats, counted(arena, row->litres.count, "batch", "batches"));
}

static void add_coverage(struct table *table, const struct screen *screen, const struct learned_row *row)
{
    for (int later = 0; later < 2; later++) {
        double m2_per_l = finish_coverage_by(row->finish, !later, row->tool);
        table_row(table, (const char *[]){
                             later ? "later coats" : "first coat",
                             coverage_words(screen, m2_per_l, row->finish->tolerance),
                             coverage_words(screen, m2_per_l / row->litres.factor, row->litres.tolerance),
                             later ? "" : coats_words(table->arena, row)});
    }
}

static void add_bounded(struct table *table, size_t bounded, const char *of)
{
    if (bounded > 0)
        table_note(
            table,
            arena_textf(table->arena,
                        "%zu more than twice or less than half of what was planned, and counted as that: "
                        "look at %s in the log",
                        bounded, of));
}

static void add_row(struct table *table, const struct screen *screen, const struct learned_row *row)
{
    struct arena *arena = table->arena;
    table_group(table, arena_textf(arena, "%s, %s", row->finish->name, tool_name(row->tool)));
    add_coverage(table, screen, row);
    add_bounded(table, row->litres.bounded, "what was used");
    table_row(table, (const char *[]){
                         "minutes", with_tolerance(arena, "as planned", learned_minutes_tolerance),
                         with_tolerance(
                             arena, arena_textf(arena, "%s times", number_fixed(row->time.factor, 2).text),
                             row->time.tolerance),
                         counted(arena, row->time.count, "coat", "coats")});
    add_bounded(table, row->time.bounded, "the moments");
    table_row(table, (const char *[]){
                         "loss", screen_volume(screen, row->table_loss_l), screen_volume(screen, row->loss_l),
                         row->loss_batches ? counted(arena, row->loss_batches, "batch", "batches")
                                           : "too few batches"});
}

static bool was_seen(const struct learned_row *row)
{
    return row->litres.count + row->time.count > 0;
}

static void show_unseen(struct screen *screen, const struct learned *learned)
{
    const char *names = "";
    for (size_t i = 0; i < learned->count; i++)
        if (!was_seen(&learned->rows[i]))
            names = arena_textf(screen->out->arena, "%s%s%s (%s)", names, *names ? ", " : "",
                                learned->rows[i].finish->name, tool_name(learned->rows[i].tool));
    if (*names)
        screen_paragraph(screen, 0, 0,
                         arena_textf(screen->out->arena,
                                     "Nothing was measured yet, so that the table's figures hold, of %s.",
                                     names));
}

static void show_files(struct screen *screen, const struct learned *learned)
{
    static const char *const fates[] = {
        "written",
        "written in the place of what was learned before",
        "left as it is, for it holds figures of the shop's own",
    };
    for (size_t i = 0; i < learned->file_count; i++)
        screen_paragraph(
            screen, 0, 2,
            arena_textf(screen->out->arena, "%s: %s", learned->files[i].path, fates[learned->files[i].fate]));
}

void show_learned(struct screen *screen, const struct learned *learned)
{
    static const struct column columns[] = {
        {"", ALIGN_LEFT, false},
        {"table", ALIGN_LEFT, false},
        {"learned", ALIGN_LEFT, false},
        {"seen", ALIGN_LEFT, true},
    };
    struct arena *arena = screen->out->arena;
    struct table table;
    table_init(&table, arena, columns, 4);
    for (size_t i = 0; i < learned->count; i++)
        if (was_seen(&learned->rows[i]))
            add_row(&table, screen, &learned->rows[i]);
    screen_line(screen, TINT_NONE,
                arena_textf(arena, "Learned from %s, %zu of them with a log",
                            counted(arena, learned->jobs, "job", "jobs"), learned->logs));
    table_print(&table, screen, 0);
    show_unseen(screen, learned);
    show_files(screen, learned);
}
