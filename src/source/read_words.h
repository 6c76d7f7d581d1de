/* Values that are one word of a list which the rooms above keep. */
#ifndef SOURCE_READ_WORDS_H
#define SOURCE_READ_WORDS_H

#include "finish/finish.h"
#include "format/json.h"

/* A state of a coat: "dust-free" ... "cured". */
bool read_state(struct json_at at, enum finish_state *state);
/* A tool: "cloth" ... "pour". */
bool read_tool(struct json_at at, enum tool *tool);
/* The names themselves, where keys are such words. */
void state_names(const char *names[STATE_COUNT]);

/* An area that is never bare: only the part list has units of its own. */
bool read_area(struct json_at at, double *area_m2);

#endif
