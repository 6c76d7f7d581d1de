/* The errors of a session as one JSON text, in memory of their own. */
#ifndef API_ERRORS_H
#define API_ERRORS_H

#include "coatwright.h"

const char *errors_json(struct coatwright *session);

#endif
