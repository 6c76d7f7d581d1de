/* Plans a shelf from texts in memory and walks what comes out: the batches with their steps, what to buy
 * and the mixes.
 *
 *     cc -std=c11 walk.c $(pkg-config --cflags --libs coatwright) -o walk && ./walk */
#include <coatwright_walk.h>

#include <stdio.h>
#include <string.h>

static const char job[] =
    "{\"format\": \"coatwright-job/1\", \"job\": \"Shelf\", \"units\": \"mm\",\n"
    " \"zone\": \"Europe/London\", \"start\": \"2027-03-01 08:00\", \"deliver\": \"2027-04-01\",\n"
    " \"schedules\": {\"oil\": [{\"sand\": 180},\n"
    "                         {\"coat\": \"hardwax-oil-two-part\", \"coats\": 2}]},\n"
    " \"parts\": \"parts.csv\"}\n";
static const char parts[] = "part,piece,qty,shape,wood,length,width,thickness,all\n"
                            "board,shelf,4,board,oak,900,300,20,oil\n"
                            "side,shelf,2,board,oak,1800,300,20,oil\n";

static void print_batches(struct coatwright *session)
{
    int64_t begin = coatwright_batch_count(session) ? coatwright_batch(session, 0)->start_min : 0;
    for (size_t i = 0; i < coatwright_batch_count(session); i++) {
        const struct coatwright_batch *batch = coatwright_batch(session, i);
        int hours = (int)((batch->start_min - begin) / 60), minutes = (int)((batch->start_min - begin) % 60);
        printf("%3d:%02d  %-28s %3d min  %.0f ml\n", hours, minutes, batch->words, batch->hands_on_min,
               batch->volume_l * 1000);
        for (size_t k = 0; k < batch->step_count; k++)
            printf("        %s\n", batch->steps[k]);
    }
}

static void print_packs(struct coatwright *session)
{
    for (size_t i = 0; i < coatwright_pack_count(session); i++) {
        const struct coatwright_pack *pack = coatwright_pack(session, i);
        printf("buy %d x %.0f ml of %s%s%s\n", pack->count, pack->size_l * 1000, pack->finish,
               *pack->component ? ", " : "", pack->component);
    }
}

static void print_cards(struct coatwright *session)
{
    for (size_t i = 0; i < coatwright_card_count(session); i++) {
        const struct coatwright_card *card = coatwright_card(session, i);
        printf("mix %d of %d for %s:", card->number, card->of, card->step);
        for (size_t k = 0; k < card->pour_count; k++)
            printf(" %.0f g %s", card->pours[k].weigh_g, card->pours[k].component);
        printf("\n");
    }
}

static int failed(struct coatwright *session)
{
    char line[1200];
    for (size_t i = 0; i < coatwright_error_count(session); i++) {
        coatwright_error_line(coatwright_error(session, i), line, sizeof line);
        fprintf(stderr, "%s\n", line);
    }
    return 1;
}

int main(void)
{
    struct coatwright_options options = COATWRIGHT_OPTIONS_INIT;
    struct coatwright_outcome outcome = COATWRIGHT_OUTCOME_INIT;
    int status = 0;
    options.given_only = true;
    struct coatwright *session = coatwright_open(&options);
    if (coatwright_add_text(session, "parts.csv", parts, strlen(parts)) &&
        coatwright_read_text(session, "shelf.json", job, strlen(job)) && coatwright_plan(session, &outcome)) {
        print_batches(session);
        print_packs(session);
        print_cards(session);
        printf("%s\n", outcome.in_time ? "in time" : "late");
    } else
        status = failed(session);
    coatwright_close(session);
    return status;
}
