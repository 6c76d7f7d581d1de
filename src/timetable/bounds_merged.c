/* What one batch of a kind costs the others: bounds of several kinds together. */
#include "base/arena.h"
#include "timetable/bounds_kinds.h"

enum { CANDIDATES_MOST = 10, STEPS_MOST = 40000000, TESTS_MOST = 300 };

/* Kinds of which some are one batch each. Whoever is alone does what waits for an item of such a batch behind all of it, and what
 * an item waits for before it: the rows of the other kinds grow longer, or none can be. */
struct merging {
    const struct site *site;
    const struct betweens *betweens;
    const bool *merged; /* per kind */
    int *owner;         /* per operation: the merged kind whose batch it stands in; SITE_NONE */
    int *open;          /* per node: an operation, or behind them a merged kind */
    int *order;         /* nodes, each behind those before it */
    size_t ordered;
    int32_t *row; /* per node: the longest row up to it, itself counted where it is of the kind asked for */
    int32_t *reaching,
        *beyond; /* the longest row of what lies before the node; and of what a merged batch parts from it */
};

static bool counts(const struct site *site, const struct link *link)
{
    return !site_link_is_limit(link) && !site->rows[link->from].optional && !site->rows[link->to].optional;
}

static size_t node_of(const struct merging *m, int item)
{
    return m->owner[item] == SITE_NONE ? (size_t)item : m->site->count + (size_t)m->owner[item];
}

/* Turns go with the coat that they are for. */
static void find_owners(struct merging *m)
{
    for (size_t i = 0; i < m->site->count; i++) {
        int coat = site_turned_for(m->site, (int)i);
        int kind = m->site->rows[coat == SITE_NONE ? (int)i : coat].kind;
        m->owner[i] = m->merged[kind] ? kind : SITE_NONE;
    }
}

/* False: what is in a batch would wait for itself. */
static bool put_in_order(struct merging *m)
{
    const struct site *site = m->site;
    const struct operations *operations = site->operations;
    size_t nodes = site->count + site->kind_count, count = 0, wanted = 0;
    for (size_t i = 0; i < nodes; i++)
        m->open[i] = 0;
    for (size_t i = 0; i < operations->link_count; i++) {
        const struct link *link = &operations->links[i];
        size_t from = node_of(m, link->from), to = node_of(m, link->to);
        m->open[to] += counts(site, link) && from != to;
    }
    for (size_t i = 0; i < nodes; i++) {
        bool is = i < site->count ? m->owner[i] == SITE_NONE && !site->rows[i].optional
                                  : m->merged[i - site->count];
        wanted += is;
        if (is && m->open[i] == 0)
            m->order[count++] = (int)i;
    }
    m->ordered = 0;
    for (size_t n = 0; n < count; n++) {
        m->ordered++;
        for (size_t k = m->order[n] < (int)site->count ? (size_t)m->order[n] : 0; k < site->count; k++) {
            if (node_of(m, (int)k) != (size_t)m->order[n])
                continue;
            for (size_t j = 0; j < site->rows[k].out_count; j++) {
                const struct link *link = &operations->links[site->rows[k].out[j]];
                size_t to = node_of(m, link->to);
                if (counts(site, link) && to != (size_t)m->order[n] && --m->open[to] == 0)
                    m->order[count++] = (int)to;
            }
            if (m->order[n] < (int)site->count)
                break;
        }
    }
    return m->ordered == wanted;
}

/* Hands on to what waits for an item of a node. */
static void hand_on(struct merging *m, size_t node, int item, bool own)
{
    const struct site *site = m->site;
    bool batch = node >= site->count;
    for (size_t j = 0; j < site->rows[item].out_count; j++) {
        const struct link *link = &site->operations->links[site->rows[item].out[j]];
        size_t to = node_of(m, link->to);
        if (!counts(site, link) || to == node)
            continue;
        bounds_raise(&m->reaching[to], m->reaching[node]);
        bounds_raise(&m->reaching[to], own ? m->row[node] : 0);
        bounds_raise(&m->beyond[to], batch ? m->reaching[node] : m->beyond[node]);
    }
}

static int64_t row_of(struct merging *m, int kind, int64_t apart_s)
{
    const struct site *site = m->site;
    int32_t longest = 0;
    for (size_t i = 0; i < site->count + site->kind_count; i++)
        m->row[i] = m->reaching[i] = m->beyond[i] = 0;
    for (size_t n = 0; n < m->ordered; n++) {
        size_t node = (size_t)m->order[n];
        bool own = node < site->count && site->rows[node].kind == kind;
        if (own) {
            bounds_raise(&m->row[node], m->beyond[node] + 1);
            bounds_raise(&longest, m->row[node]);
            for (size_t k = m->betweens->first[node]; k < m->betweens->first[node + 1]; k++)
                if ((int64_t)m->betweens->items[k].wait * 60 > apart_s)
                    bounds_raise(&m->row[m->betweens->items[k].to], m->row[node] + 1);
        }
        for (size_t k = node < site->count ? node : 0; k < site->count; k++) {
            if (node_of(m, (int)k) == node)
                hand_on(m, node, (int)k, own);
            if (node < site->count)
                break;
        }
    }
    return longest;
}

static int64_t cost_of(const struct fewest_kind *kind, int64_t batches)
{
    int64_t more = batches - kind->batches;
    more = more < 0 ? 0 : more > FEWEST_MORE ? FEWEST_MORE : more;
    return kind->cost_s[more];
}

/* Kinds of which each is either done in few batches or in more. */
struct choosing {
    const struct counting *c;
    const struct tally *tallies;
    const struct fewest_kind *kinds;
    int candidates[CANDIDATES_MOST];
    int extra[CANDIDATES_MOST];  /* batches that few are more than as few as can be */
    bool alone[CANDIDATES_MOST]; /* of one batch by the only person: it parts others */
    size_t count;
    struct merging merging;
    bool *merged, *few;
    int *more;                           /* per kind, of few batches */
    int64_t costs[1 << CANDIDATES_MOST]; /* per set of candidates */
    size_t refuted[TESTS_MOST];          /* sets of candidates that cannot all be done in so few batches */
    size_t refuted_count;
};

static void choose(struct choosing *choosing, size_t set)
{
    for (size_t i = 0; i < choosing->count; i++) {
        int kind = choosing->candidates[i];
        choosing->few[kind] = set >> i & 1;
        choosing->more[kind] = choosing->extra[i];
        choosing->merged[kind] = choosing->alone[i] && choosing->few[kind] && choosing->extra[i] == 0;
    }
}

/* What all kinds cost at the least where those of a set are done in few batches and the other candidates are not; INT64_MAX: that cannot
 * be. */
static int64_t cost_chosen(struct choosing *choosing, size_t set)
{
    struct merging *m = &choosing->merging;
    int64_t cost = 0;
    bool parts = false;
    choose(choosing, set);
    for (size_t k = 0; k < m->site->kind_count; k++)
        parts |= m->merged[k];
    find_owners(m);
    if (parts && !put_in_order(m))
        return INT64_MAX;
    for (size_t k = 0; k < m->site->kind_count; k++) {
        const struct fewest_kind *kind = &choosing->kinds[k];
        int64_t batches = kind->batches;
        if (batches == 0)
            continue;
        for (size_t i = 0; i < choosing->count; i++)
            if (choosing->candidates[i] == (int)k)
                batches += choosing->extra[i] + !(set >> i & 1);
        int64_t row = m->merged[k] || !parts ? 1 : row_of(m, (int)k, kind->apart_s);
        cost += cost_of(kind, row > batches ? row : batches);
    }
    return cost;
}

static bool has_group(const struct counting *c, const struct tally *tally)
{
    bool any = false;
    for (size_t i = 0; i < tally->count && tally->count > 1 && !any; i++)
        any = c->group[tally->items[i]] != SITE_NONE;
    return any;
}

static void find_candidates(struct choosing *choosing)
{
    const struct counting *c = choosing->c;
    const struct site *site = c->site;
    size_t nodes = site->count + site->kind_count;
    int64_t each = (int64_t)(site->kind_count + 2) *
                   (int64_t)(nodes + site->operations->link_count + site->kind_count * site->count);
    bool timed = *c->left > 0;
    for (size_t k = 0; k < site->kind_count && choosing->count < CANDIDATES_MOST; k++) {
        const struct fewest_kind *kind = &choosing->kinds[k];
        bool parts = site->crew->count == 1 && kind->batches == 1 && kind->count > 1;
        parts = parts && (each << (choosing->count + 1)) <= STEPS_MOST;
        if (kind->batches == 0 || kind->cost_s[1] <= kind->cost_s[0] ||
            !(parts || (timed && has_group(c, &choosing->tallies[k]))))
            continue;
        choosing->alone[choosing->count] = parts;
        choosing->candidates[choosing->count++] = (int)k;
    }
}

static bool is_refuted(const struct choosing *choosing, size_t set)
{
    for (size_t i = 0; i < choosing->refuted_count; i++)
        if ((choosing->refuted[i] & ~set) == 0)
            return true;
    return false;
}

static bool fits(struct choosing *choosing, size_t set, int *tests)
{
    choose(choosing, set);
    --*tests;
    struct few few = {choosing->few, choosing->more};
    return kinds_fit(choosing->c, choosing->tallies, &few);
}

static void price(struct choosing *choosing)
{
    for (size_t set = 0; set < (size_t)1 << choosing->count; set++)
        choosing->costs[set] = cost_chosen(choosing, set);
}

/* Where a kind by itself cannot be done in so few batches, one more are few from now on: what was refuted with it must be refuted anew. */
static void refute(struct choosing *choosing, size_t core)
{
    size_t kept = 0, kind = 0;
    while (core != (size_t)1 << kind && kind < choosing->count)
        kind++;
    if (kind == choosing->count || choosing->extra[kind] + 1 == FEWEST_MORE) {
        choosing->refuted[choosing->refuted_count++] = core;
        return;
    }
    choosing->extra[kind]++;
    for (size_t i = 0; i < choosing->refuted_count; i++)
        if (!(choosing->refuted[i] & core))
            choosing->refuted[kept++] = choosing->refuted[i];
    choosing->refuted_count = kept;
    price(choosing);
}

/* Of the cheapest set that nothing refutes. A set in which the work ends too late is made as small as it still does. */
static int64_t cheapest(struct choosing *choosing)
{
    const int64_t *costs = choosing->costs;
    int tests = *choosing->c->left > 0 ? TESTS_MOST : 0;
    price(choosing);
    for (;;) {
        size_t best = SIZE_MAX;
        for (size_t set = (size_t)1 << choosing->count; set-- > 0;)
            if (costs[set] < INT64_MAX && (best == SIZE_MAX || costs[set] < costs[best]) &&
                !is_refuted(choosing, set))
                best = set;
        if (best == SIZE_MAX)
            return 0;
        if (tests <= 0 || fits(choosing, best, &tests))
            return costs[best];
        size_t core = best;
        for (size_t i = 0; i < choosing->count && tests > 0; i++)
            if (core >> i & 1 && !fits(choosing, core & ~((size_t)1 << i), &tests))
                core &= ~((size_t)1 << i);
        refute(choosing, core);
    }
}

int64_t merged_cost(const struct counting *c, const struct tally *tallies, const struct fewest_kind *kinds)
{
    const struct site *site = c->site;
    size_t nodes = site->count + site->kind_count;
    int64_t alone = 0;
    struct choosing choosing = {.c = c, .tallies = tallies, .kinds = kinds};
    choosing.merged = ARENA_ARRAY(c->arena, site->kind_count, bool);
    choosing.few = ARENA_ARRAY(c->arena, site->kind_count, bool);
    choosing.more = ARENA_ARRAY(c->arena, site->kind_count, int);
    struct merging *m = &choosing.merging;
    *m = (struct merging){.site = site, .betweens = &c->betweens, .merged = choosing.merged};
    m->owner = ARENA_ARRAY(c->arena, site->count, int);
    m->open = ARENA_ARRAY(c->arena, nodes, int);
    m->order = ARENA_ARRAY(c->arena, nodes, int);
    m->row = ARENA_ARRAY(c->arena, nodes, int32_t);
    m->reaching = ARENA_ARRAY(c->arena, nodes, int32_t);
    m->beyond = ARENA_ARRAY(c->arena, nodes, int32_t);
    for (size_t k = 0; k < site->kind_count; k++)
        alone += kinds[k].batches > 0 ? kinds[k].cost_s[0] : 0;
    find_candidates(&choosing);
    int64_t best = cheapest(&choosing);
    return best > alone ? best : alone;
}
