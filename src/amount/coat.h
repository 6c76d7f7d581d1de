/* Litres and minutes: what one coat takes, and how long the hand is on it. Told the temperature and the sides, this
 * room knows no timetable. Formulas and defaults: "common practice, from memory" where coat.c states no source. */
#ifndef AMOUNT_COAT_H
#define AMOUNT_COAT_H

#include "surface/takeoff.h"

/* Where a pass works: a piece's schedule, on one side of a flat piece or all round. */
enum side { SIDE_ALL, SIDE_BACK, SIDE_FACE };

struct pass {
    const struct job *job;
    const struct surfaces *surfaces;
    size_t piece, schedule;
    enum side
        side; /* SIDE_BACK: back only; SIDE_FACE: everything else; SIDE_ALL: every region of the schedule */
};

/* Which coat of the schedule this is. */
struct coat {
    const struct step *step; /* a STEP_COAT */
    int number;              /* 1..: of whatever finish, counted on that surface */
    int of_finish;           /* 1..: of this finish in an unbroken run */
};

struct litres {
    double low, likely, high; /* of mixed finish, thinner not counted, loss included */
    double thinner;
};

/* m2 of a pass; the number of parts (qty counted) that it touches. */
double pass_area_m2(const struct pass *pass);
int pass_parts(const struct pass *pass);
/* True when a piece laid flat has something scheduled on its back and something elsewhere. */
bool piece_has_two_sides(const struct job *job, const struct surfaces *surfaces, size_t piece);

/* A x absorb / (coverage x transfer); the loss, once per coat of a piece's schedule, is added where `with_loss`. */
struct litres coat_litres(const struct pass *pass, const struct coat *coat, bool with_loss);

struct lots {
    int count; /* 0: nothing is wiped off */
    double area_m2;
    double minutes; /* laying and wiping of all lots together */
    bool possible;  /* false: even one m2 cannot be wiped in its time at these rates */
};

/* Wiping off in lots (contract section 8): the least n for which every spot is wiped within the two times. */
struct lots coat_lots(const struct pass *pass, const struct coat *coat, double temperature_c);

struct coat_minutes {
    int32_t total; /* rounded up to 5 minutes */
    double set_up, mixing, touch, laying, clean_up;
    int mixes;           /* at this temperature */
    double longest_part; /* laying minutes of the largest single part: held against the working time */
    struct lots lots;
};

/* The hands-on minutes of applying, mixes counted at `temperature_c` (the warmest working hour for a timetable). */
struct coat_minutes coat_minutes(const struct pass *pass, const struct coat *coat, double temperature_c);

/* Minutes of sand, scuff, rub or polish of a pass, rounded up to 5. `work` is an enum work. */
int32_t work_minutes(const struct pass *pass, int work);

/* Dry film of a coat in um (DFT = WFT x VS, MIL-HDBK-1110 in UFC 3-190-06); 0 where solids are not known. */
double coat_dry_film_um(const struct pass *pass, const struct coat *coat);

#endif
