/* What a finish can do to the hand, the lungs and the shop, by the names of the finish files; a report has the sentences. */
#ifndef FINISH_CAUTION_H
#define FINISH_CAUTION_H

#include "finish/finish.h"

enum { CAUTION_COUNT = 14 };

/* "oily-rags", "vapour", ... in the order in which they are said. */
extern const char *const caution_names[CAUTION_COUNT];
bool caution_known(const char *name);

/* Whether a finish has the caution of that name. */
bool finish_warns_of(const struct finish *finish, const char *name);

/* What the one who lays it breathes through: one kind for each way of laying it. Brushed isocyanate asks for gloves,
 * fresh air and training, not for a respirator; sprayed it asks for supplied air and for nothing else. */
enum breathing {
    BREATHING_FREE,
    BREATHING_VAPOUR,
    BREATHING_VAPOUR_AND_MIST,
    BREATHING_SUPPLIED,
    BREATHING_COUNT
};

enum breathing finish_breathing(const struct finish *finish, bool sprayed);

/* Whether its sanding dust and its overspray heat up by themselves, as rags do. */
bool finish_heats_its_dust(const struct finish *finish);
/* Whether its residue is that of a lacquer, which may not lie with that of drying oils in one booth or filter. */
bool finish_is_lacquer(const struct finish *finish);

#endif
