/* What was published where: a JSON file beside the job. */
#ifndef PUBLISH_STATE_H
#define PUBLISH_STATE_H

#include "format/place.h"
#include "publish/publish.h"

struct buf;

/* False: the file is there and cannot be understood; told at its place. A file that is not there gives an empty state. */
bool state_load(const struct reading *reading, const char *path, struct publish_state *state);

void state_write(const struct publish_state *state, struct buf *out);

#endif
