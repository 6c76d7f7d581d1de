/* Whose day card, and of which day. */
#include "api/session.h"

#include "base/day.h"
#include "base/number.h"
#include "format/words.h"
#include "report/sentences.h"

#include <string.h>

static bool read_day(struct coatwright *session, const char *text)
{
    struct date date;
    struct err fault;
    session->card_day = INT64_MIN;
    if (!text)
        return true;
    if (!date_parse(text, &date, &fault))
        return session_misused(session, fault.expected, text);
    session->card_day = date_days(date);
    return true;
}

/* By name, whatever the case; people who are only counted by their number as well. */
static bool find_person(struct arena *arena, const struct shop *shop, const char *text, int *person)
{
    int64_t number;
    for (int i = 1; i <= shop->people; i++)
        if (text_same(person_name(arena, shop, i), text)) {
            *person = i;
            return true;
        }
    if (shop->crew || !count_parse(text, shop->people, &number, NULL))
        return false;
    *person = (int)number;
    return true;
}

static bool read_person(struct coatwright *session, const char *text)
{
    const struct shop *shop = &session->job->shop;
    session->card_person = 0;
    if (!text || find_person(session->arena, shop, text, &session->card_person))
        return true;
    const char **names = ARENA_ARRAY(session->arena, shop->people, const char *);
    for (int i = 0; i < shop->people; i++)
        names[i] = person_name(session->arena, shop, i + 1);
    err_add(&session->errors, ERR_USAGE, NULL, NULL,
            arena_textf(session->arena, "somebody of the shop: %s",
                        words_one_of(session->arena, names, (size_t)shop->people)),
            words_found(session->arena, text, names, (size_t)shop->people));
    return false;
}

static bool choose_card(struct coatwright *session, void *call)
{
    const struct coatwright_day_want *want = call;
    return session_has_job(session) && read_day(session, want->day) && read_person(session, want->person);
}

bool coatwright_day(struct coatwright *session, const struct coatwright_day_want *want)
{
    struct coatwright_day_want asked = COATWRIGHT_DAY_WANT_INIT;
    if (!session_given(session, want, "whose day card") ||
        !session_given(session, want->size < sizeof want->size ? NULL : want,
                       "a day card begun with its size"))
        return false;
    memcpy(&asked, want, want->size < sizeof asked ? want->size : sizeof asked);
    return session_guard(session, choose_card, &asked);
}
