#include "source/read_shop.h"

#include "base/measure.h"
#include "base/money.h"
#include "source/read_shop_parts.h"
#include "source/read_words.h"

enum { PEOPLE_MOST = 100, SPRAY_PLACES_MOST = 100 };

static const char *const keys[] = {
    "people", "hours",  "closed",   "busy",     "air",   "rack",   "spray-places", "dust-room",     "settle",
    "scale",  "set-up", "clean-up", "handling", "rates", "losses", "transfer",     "rate-per-hour",
};

static void read_room(struct json_at at, struct shop *shop)
{
    static const char *const rooms[] = {"shared", "separate"};
    int room = 0;
    if (json_has(at, "rack"))
        read_area(json_member(at, "rack"), &shop->rack_m2);
    if (json_has(at, "spray-places"))
        json_level(json_member(at, "spray-places"), SPRAY_PLACES_MOST, &shop->spray_places);
    if (json_has(at, "dust-room"))
        json_choice(json_member(at, "dust-room"), rooms, 2, &room);
    shop->dust_separate = room == 1;
    if (json_has(at, "settle"))
        json_span(json_member(at, "settle"), &shop->settle_min);
}

static void read_scale(struct json_at at, struct shop *shop)
{
    if (at.node && json_quantity(at, mass_parse, &shop->scale_g) && shop->scale_g <= 0)
        json_refuse(at, "a mass above 0: the smallest step of the scale");
}

static void read_rate(struct json_at at, int digits, struct shop *shop)
{
    struct err fault;
    const char *text;
    if (at.node && json_text(at, "a price as text, such as \"45.00\"", &text) &&
        !money_parse(text, digits, &shop->rate_cents_per_hour, &fault))
        json_refuse(at, fault.expected);
}

void shop_read(struct json_at at, int currency_digits, struct shop *shop)
{
    shop_default(shop);
    if (!json_object(at, "a shop", keys, sizeof keys / sizeof keys[0]))
        return;
    if (json_has(at, "people"))
        json_count(json_member(at, "people"), PEOPLE_MOST, &shop->people);
    shop_read_hours(at, shop);
    if (json_has(at, "air"))
        shop_read_air(json_member(at, "air"), &shop->air);
    read_room(at, shop);
    read_scale(json_member(at, "scale"), shop);
    shop_read_tools(at, shop);
    read_rate(json_member(at, "rate-per-hour"), currency_digits, shop);
}
