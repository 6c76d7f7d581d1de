/* The state of a plan while it is made, and what the start of one batch must keep beside its waits: the air, the hour by which
 * a film is dry, one person at a time on a lot, the person, the spray place, dust and wet films apart, the rack. */
#ifndef TIMETABLE_PLACING_H
#define TIMETABLE_PLACING_H

#include "timetable/lay.h"

/* What keeps a batch from an earlier start. */
enum hindrance {
    HINDERED_BY_NOTHING,
    HINDERED_BY_RELEASE,
    HINDERED_BY_LINK,   /* `link` into `item` */
    HINDERED_BY_LIMIT,  /* `link`: the window of something placed would be missed */
    HINDERED_BY_PERSON, /* `other` keeps the person */
    HINDERED_BY_HOURS,  /* it does not fit before the person goes off, or they are off */
    HINDERED_BY_AIR,
    HINDERED_BY_DRY_BY,
    HINDERED_BY_RACK, /* by `other`; SITE_NONE: by itself */
    HINDERED_BY_SPRAY,
    HINDERED_BY_DUST,
    HINDERED_BY_LOT,  /* somebody else works on it */
    HINDERED_BY_FLOOR /* it is held back for a window that it opens */
};

struct cause_of_start {
    enum hindrance kind;
    int item;      /* operation that waits, SITE_NONE */
    int other;     /* placed batch, SITE_NONE */
    int link;      /* SITE_NONE */
    int32_t until; /* HINDERED_BY_LIMIT: by how many minutes the window is missed */
};

struct placed {
    struct batch batch;
    struct laying laid;
    struct cause_of_start cause, hours; /* the last hindrance, and whether hours or air came after it */
    struct spell dust;                  /* first start to last end and settling; empty: none raised */
    struct spell wet;                   /* first start to last dust-free */
    struct spell lies;                  /* first start to last dry to handle; empty: nothing on the rack */
};

struct draft {
    const struct site *site;
    int32_t *start, *end;    /* per operation; start SITE_NONE: not placed */
    int32_t *handle, *clear; /* per apply that is placed: dry to handle; dust-free */
    int *batch_of;           /* per operation: index into placed */
    struct placed *placed;
    size_t count;
    bool *left_out;               /* per operation: a late scuff that is not needed */
    int32_t *hold;                /* per operation: its batch does not start before */
    int64_t effort, effort_limit; /* counted work; at which placing is given up */
    struct draft_scratch *scratch;
    int *apart; /* room for as many operations, for whoever changes an order */
};

/* Room for one batch being placed; nothing in it outlives the call. */
struct draft_scratch {
    int32_t *floor, *latest;
    int *limit; /* the link of `latest` */
    struct cause_of_start *floor_why;
    struct lies *lies;
    int32_t *lies_until; /* per lot */
};

/* What lies on the rack: a lot from..to. */
struct lies {
    int lot, item;
    int32_t from, to, amount;
    int32_t
        again_until; /* what came before it of its lot, and lies there too until then, has taken its room */
};

/* One batch being placed. */
struct placing {
    struct draft *draft;
    const struct site *site;
    struct batch batch;
    int32_t least;                    /* minutes from its start to its end, at the least */
    int32_t slack;                    /* a later start may shift an item by so much more, through breaks */
    int32_t idle;                     /* so much at most is left before a break in which it pauses */
    int32_t *floor, *latest;          /* per item: from links to what is placed */
    int *limit;                       /* per item: the link of `latest` */
    struct cause_of_start *floor_why; /* per item */
    struct placed *placed;
    int32_t again; /* no start before this serves */
};

static inline bool is_placed(const struct draft *draft, int operation)
{
    return draft->start[operation] != SITE_NONE;
}

/* Notes what hinders the start that is tried, and the first that is worth trying again. False. */
bool placing_refuse(struct placing *p, struct cause_of_start cause, int32_t again);
/* An item would have to start by so much later: the batch by no less than that, but for breaks before it. */
bool placing_refuse_item(struct placing *p, int item, struct cause_of_start cause, int32_t later);

/* So much more time must pass between two items of the batch, of which cause.item is the later: a break must come between them, or the
 * later one begin when enough has passed now. */
bool placing_refuse_gap(struct placing *p, struct cause_of_start cause, int32_t missing);

/* When the items of a batch lie on the rack, by the draft's times. */
struct spell placing_lies(const struct draft *draft, const struct batch *batch);

/* What the start that is tried must keep, its times written into the draft; each notes what hinders. */
bool rule_air(struct placing *p, int item);
bool rule_dry_by(struct placing *p, int item);
bool rule_lot(struct placing *p, int item);
bool rule_person(struct placing *p);
bool rule_spray(struct placing *p);
bool rule_dust(struct placing *p);
bool rule_rack(struct placing *p);

#endif
