#include "timetable/timetable.h"

#include <string.h>

const struct timetable_step *timetable_find(const struct timetable *timetable, const char *id)
{
    for (size_t i = 0; i < timetable->step_count; i++)
        if (strcmp(timetable->steps[i].operation->id, id) == 0)
            return &timetable->steps[i];
    return NULL;
}
