/* What a plan says, to be walked. Without a plan every count is 0. An index that is not below its count gives NULL.
 * Texts are never NULL, "" where there is nothing to say. */
#ifndef COATWRIGHT_WALK_H
#define COATWRIGHT_WALK_H

#include "coatwright.h"

#ifdef __cplusplus
extern "C" {
#endif

/* How a plan stands, in the words of texts for people. */
struct coatwright_verdict {
    const char *ready;    /* "Fri 12 Mar 00:10 (open from Fri 08:00)"; "" without a timetable, as below */
    const char *deliver;  /* the delivery */
    const char *to_spare; /* until then: "4 working days (...)"; of a late plan, by how much it is late */
    const char *why;      /* without a timetable: why there is none */
    int hands_on_min;     /* -1 without a timetable */
    bool us;              /* texts for people are in US units (coatwright_options.units) */
};
/* NULL: nothing was planned. */
COATWRIGHT_API const struct coatwright_verdict *coatwright_verdict(struct coatwright *session);

/* One hands-on step, by its start. */
struct coatwright_step {
    const char *id; /* stays the same as long as the names in the job do: "carcase/oil/1/apply" */
    const char *piece, *schedule; /* "": a task of the job */
    const char *side;             /* "face", "back"; "": all round */
    const char *action;           /* "sand" "scuff" "raise" "mask" "apply" "flip" "polish" "rub" "task" */
    const char *finish;           /* its id; of apply and polish */
    const char *batch;            /* the id of the batch in which it is done */
    const char *note;             /* a sentence: sections to wipe off, a window that is missed */
    int coat,
        coats;  /* coats of the schedule laid on this side when it is done, and of how many; 0 for a task */
    int person; /* from 1 */
    int64_t start_min, end_min;
    int64_t slack_min; /* how much later it may begin before anything is late; -1: not known */
    bool critical;     /* one of those that fix the ready moment */
    double volume_l;   /* likely litres of mixed finish that it takes; 0: none */
    int lot, lots;     /* which of so many lots of the piece, from 1 */
};
COATWRIGHT_API size_t coatwright_step_count(struct coatwright *session);
COATWRIGHT_API const struct coatwright_step *coatwright_step(struct coatwright *session, size_t index);

/* One mix of a batch; what goes into it says its mixing card. */
struct coatwright_batch_mix {
    int64_t mixed_min;
    int minutes; /* of work that it serves, rounded up */
};

/* Steps of one kind done one after another by one person with one set-up and one clean-up, by its start. Of jobs planned
 * together a batch may hold steps of several: each session tells its own. */
struct coatwright_batch {
    const char *id; /* action/finish or grit/coat of its first step/number; stays when it moves */
    const char *action, *finish; /* as of its steps, turning over apart */
    const char *tool;            /* "brush"; "": no coat is laid */
    const char *words;           /* "coat 1 of 3, Danish oil", as in texts for people */
    const char *person, *helper; /* names, or "person 1"; helper "": nobody, else who helps to turn */
    const char *note;            /* a pause, sections to wipe off, a window that is missed */
    int64_t start_min, end_min;  /* from the set-up until all is clean */
    int64_t work_from_min, work_until_min; /* its first step begins, its last one ends */
    int64_t slack_min;        /* how much later it may begin before anything is late; -1: not known */
    int hands_on_min;         /* set-up, mixing and clean-up included, pauses not */
    double volume_l;          /* of its steps together */
    const char *const *steps; /* their ids, in the order of work */
    size_t step_count;
    const struct coatwright_batch_mix *mixes;
    size_t mix_count;
};
COATWRIGHT_API size_t coatwright_batch_count(struct coatwright *session);
COATWRIGHT_API const struct coatwright_batch *coatwright_batch(struct coatwright *session, size_t index);

/* When a piece reaches a state, by piece, then state. */
struct coatwright_state {
    const char *piece;
    const char *state; /* as in the job's `deliver-at`: "handle" "recoat" "sand" "wrap" "light-use" "cured" */
    int64_t at_min;    /* INT64_MAX: never */
};
COATWRIGHT_API size_t coatwright_state_count(struct coatwright *session);
COATWRIGHT_API const struct coatwright_state *coatwright_state(struct coatwright *session, size_t index);

/* What is needed of each component of each finish. */
struct coatwright_need {
    const char *finish, *component; /* the id; the component's name */
    double need_l, need_g;          /* likely, without reserve */
    double on_hand_l;               /* in stock and still good at the last coat */
    double left_l;                  /* over, of packs and stock */
    double short_l; /* to be bought beyond the packs, reserve included, where no pack is known; 0: none */
};
COATWRIGHT_API size_t coatwright_need_count(struct coatwright *session);
COATWRIGHT_API const struct coatwright_need *coatwright_need(struct coatwright *session, size_t index);

/* What to buy: packs of a component, or kits of a finish. */
struct coatwright_pack {
    const char *finish, *component; /* component "": a kit of all of them */
    double size_l;                  /* of one */
    int count;
    int64_t price_cents; /* of one */
};
COATWRIGHT_API size_t coatwright_pack_count(struct coatwright *session);
COATWRIGHT_API const struct coatwright_pack *coatwright_pack(struct coatwright *session, size_t index);

/* One component as poured into a mix. */
struct coatwright_pour {
    const char *component;   /* "thinner" comes last */
    double volume_l, mass_g; /* exact, of the volume asked */
    double weigh_g;          /* a multiple of the scale's step */
};

/* A mixing card: one mix for a coat, by the moment at which it is mixed. */
struct coatwright_card {
    const char *step;   /* the id of the (first) step that it serves */
    const char *finish; /* its id */
    int number, of;     /* this mix of so many for the coat */
    double volume_l;    /* asked: finish and thinner */
    double made_l;      /* as weighed */
    int64_t mixed_min;
    int64_t apply_by_min; /* the end of its working time; INT64_MAX: no pot life */
    const struct coatwright_pour *pours;
    size_t pour_count;
};
COATWRIGHT_API size_t coatwright_card_count(struct coatwright *session);
COATWRIGHT_API const struct coatwright_card *coatwright_card(struct coatwright *session, size_t index);

/* What the plan warns of. */
struct coatwright_caution {
    const char *id;   /* stays the same: "oily-rags", "mix", "vapour" */
    const char *text; /* a sentence */
};
COATWRIGHT_API size_t coatwright_caution_count(struct coatwright *session);
COATWRIGHT_API const struct coatwright_caution *coatwright_caution(struct coatwright *session, size_t index);

#ifdef __cplusplus
}
#endif

#endif
