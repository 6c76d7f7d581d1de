/* Litres and minutes: what one coat takes, and how long the hand is on it. Told the temperature and the sides, this
 * room knows no timetable. Its defaults are "common practice, from memory" where the modules
 * that hold them (factors, shop) state no source. */
#ifndef AMOUNT_COAT_H
#define AMOUNT_COAT_H

#include "amount/pass.h"

#include <stdbool.h>

struct arena;

/* Which coat of the schedule this is. */
struct coat {
    const struct step *step; /* a STEP_COAT */
    int number;              /* 1..: of whatever finish, counted on that surface */
    int of_finish;           /* 1..: of this finish in an unbroken run */
};

struct litres {
    double low, likely, high; /* of mixed finish, thinner not counted, loss included */
    double thinner;           /* to the likely litres */
};

/* What stays in a tool: as the finish says where the shop has learned it, otherwise as the shop says. */
double coat_loss_l(const struct shop *shop, const struct finish *finish, enum tool by);

/* A x absorb / (coverage x transfer), and `loss_share` (0 to 1) of what stays in the tool. Thinner comes on top; only a coat thinned by hand on bare wood covers by the litre of the mixture. */
struct litres coat_litres(const struct pass *pass, const struct coat *coat, double loss_share);

/* The arithmetic of one surface, for whoever wants to see it: litres = area x absorb / (coverage x transfer). */
struct litre_term {
    const struct surface *surface;
    double absorb, coverage_m2_per_l, transfer, litres;
};
/* Litres that one part of the surface's row takes. */
double coat_part_litres(const struct pass *pass, const struct surface *surface, const struct coat *coat);
/* All of a pass, in the order of the surfaces; the number of them. */
size_t coat_terms(struct arena *arena, const struct pass *pass, const struct coat *coat,
                  struct litre_term **terms);

/* A wet oil is laid and wiped a section at a time, so that every spot is wiped between two times after it was wetted. */
struct sections {
    int count;                  /* 0: nothing is wiped off */
    double least_min, most_min; /* after wetting, at the temperature asked */
    double area_m2;
    double minutes; /* laying and wiping of all sections together */
    bool possible;  /* false: not in its time at these rates, however small the section */
};

/* `laying` and `wiping` minutes of the whole; each spot wiped `least` to `most` minutes after it was wetted.
 * n equal sections of l = laying/n and w = wiping/n take max(l, least) + w each; n is the least for which l <= most and
 * max(l, least) + w - l <= most. `area_m2` is left at 0. */
struct sections sections_make(double laying, double wiping, double least, double most);

/* Wiping off so many minutes' work in sections, and a pass, between two times that both move with the temperature as pot life
 * does. */
struct sections coat_sections_of(const struct coat *coat, double laying, double wiping, double temperature_c);
struct sections coat_sections(const struct pass *pass, const struct coat *coat, double temperature_c);

/* Whether this coat is wiped off: of some oils only the later coats are. */
bool coat_is_wiped(const struct coat *coat);

/* Minutes in which one mix of so much may be laid; a gun must also be clean before the pot life ends. */
double coat_working_min(const struct pass *pass, const struct coat *coat, double temperature_c,
                        double mass_g);
/* The least number of equal mixes, `mass_g` in all, each of which can be laid while its own mass lives; 0: none. */
int coat_mix_count(const struct pass *pass, const struct coat *coat, double temperature_c, double mass_g,
                   double laying_min);

struct coat_minutes {
    int32_t total; /* rounded up to 5 minutes */
    double set_up, mixing, handling, laying, clean_up;
    double induction; /* only what is longer than the set-up */
    int mixes;        /* at this temperature; 0: poured as it is */
    bool pot_dead;    /* the mix dies before it may be laid; counted as one mix */
    double working;   /* minutes in which one of the mixes may be laid; infinite: no pot life */
    double
        longest_part; /* laying minutes of the largest single part: more than `working` is worth a warning */
    struct sections sections;
};

/* The hands-on minutes of applying, mixes counted at `temperature_c` (the warmest working hour for a timetable).
 * A finish of several components, or thinned, is mixed. A gun is cleaned of such a finish inside its pot life. */
struct coat_minutes coat_minutes(const struct pass *pass, const struct coat *coat, double temperature_c);

/* Minutes of sand, scuff, rub or polish of a pass, rounded up to 5. `work` is an enum work. */
int32_t work_minutes(const struct pass *pass, int work);

/* Wet and dry film of a coat in um; 0 where solids are not known, or the finish soaks in and is wiped off. */
double coat_wet_film_um(const struct coat *coat);
double coat_dry_film_um(const struct pass *pass, const struct coat *coat);

#endif
