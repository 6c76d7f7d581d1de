#include "report/json.h"

static void write_coverage(struct json_write *w, const char *key, const struct learned_row *row,
                           double factor, double tolerance)
{
    json_open_row(w, key, '{');
    json_put_number(w, "first", finish_coverage_by(row->finish, true, row->tool) / factor);
    json_put_number(w, "later", finish_coverage_by(row->finish, false, row->tool) / factor);
    json_put_number(w, "tolerance", tolerance);
    json_close(w);
}

static void write_row(struct json_write *w, const struct learned_row *row)
{
    json_open(w, NULL, '{');
    json_put_text(w, "finish", row->finish->id);
    json_put_text(w, "tool", tool_name(row->tool));
    json_open(w, "coverage_m2_per_l", '{');
    write_coverage(w, "table", row, 1, row->finish->tolerance);
    write_coverage(w, "learned", row, row->litres.factor, row->litres.tolerance);
    json_put_whole(w, "coats", (int64_t)row->coats);
    json_put_whole(w, "batches", (int64_t)row->litres.count);
    json_put_whole(w, "bounded", (int64_t)row->litres.bounded);
    json_close(w);
    json_open_row(w, "minutes", '{');
    json_put_number(w, "factor", row->time.factor);
    json_put_number(w, "tolerance", row->time.tolerance);
    json_put_whole(w, "coats", (int64_t)row->time.count);
    json_put_whole(w, "bounded", (int64_t)row->time.bounded);
    json_close(w);
    json_open_row(w, "loss_l", '{');
    json_put_number(w, "table", row->table_loss_l);
    json_put_number(w, "learned", row->loss_l);
    json_put_whole(w, "batches", (int64_t)row->loss_batches);
    json_close(w);
    json_close(w);
}

void write_learned(struct json_write *w, const struct learned *learned)
{
    static const char *const fates[] = {"written", "replaced", "left"};
    json_open(w, NULL, '{');
    json_put_whole(w, "jobs", (int64_t)learned->jobs);
    json_put_whole(w, "logs", (int64_t)learned->logs);
    json_open(w, "learned", '[');
    for (size_t i = 0; i < learned->count; i++)
        write_row(w, &learned->rows[i]);
    json_close(w);
    json_open(w, "files", '[');
    for (size_t i = 0; i < learned->file_count; i++) {
        json_open_row(w, NULL, '{');
        json_put_text(w, "file", learned->files[i].path);
        json_put_text(w, "what", fates[learned->files[i].fate]);
        json_close(w);
    }
    json_close(w);
    json_close(w);
}
