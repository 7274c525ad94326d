/* SPDX-License-Identifier: MIT */
#include "core/cost/basket.h"

#include <math.h>
#include <string.h>

/* Where the search gives up: far beyond what lists of real shops take. */
#define MOST_STEPS 2000000

/* Less than this is no saving but rounding, minor units. */
#define SLACK 1e-6

/* How a shop is used. */
enum use { CLOSED, PAID, FREE, UNDECIDED };

struct search {
    const struct tc_basket *basket;
    double cost[TC_BASKET_ITEMS_MAX][TC_SHOPS_MAX]; /* with tax; INFINITY where not sold */
    int item[TC_BASKET_ITEMS_MAX];                  /* those that are sold, the dearest first */
    int item_count;
    /* For each shop the items in the order in which it pays to buy them there to make its order larger. */
    int by_ratio[TC_SHOPS_MAX][TC_BASKET_ITEMS_MAX];
    enum use use[TC_SHOPS_MAX];
    /* Before any shop is decided: */
    double cover[TC_SHOPS_MAX]; /* the least paid beyond `cheapest` that makes a shop's order large enough */
    double all_least;           /* what all costs at least, */
    double most_goods;          /* and is worth at most */
    bool out[TC_SHOPS_MAX];     /* no better answer uses the shop */
    double wanted;              /* goods that the orders brought for nothing need, of the shops decided so */
    long steps;
    double best;
    int best_shop[TC_BASKET_ITEMS_MAX];

    /* While items are given out. */
    int shop[TC_BASKET_ITEMS_MAX];        /* -1: not yet */
    double least[TC_BASKET_ITEMS_MAX];    /* at the shops that are used */
    double rest[TC_BASKET_ITEMS_MAX + 1]; /* sum of least from the k-th item of the order on */
    double lacking[TC_SHOPS_MAX];         /* goods a FREE shop's order still needs */
};

static bool sold(const struct search *search, int i, int s)
{
    return isfinite(search->cost[i][s]);
}

/* ------------------------------------------------------------------ giving out items */

/* The least that must be paid more, so that a shop's order gets large enough: items may be cut. INFINITY:
 * never. */
static double cover_cost(const struct search *search, int s)
{
    double lacking = search->lacking[s], more = 0;
    for (int k = 0; k < search->item_count && lacking > SLACK; k++) {
        int i = search->by_ratio[s][k];
        double price = (double)search->basket->item[i].price[s];
        if (search->shop[i] >= 0 || !sold(search, i, s) || price <= 0)
            continue;
        double share = fmin(1, lacking / price);
        more += share * (search->cost[i][s] - search->least[i]);
        lacking -= share * price;
    }
    return lacking > SLACK ? INFINITY : more;
}

/* What the items not given out cost at least. */
static double bound_rest(const struct search *search, int k)
{
    double more = 0;
    for (int s = 0; s < search->basket->shop_count; s++)
        if (search->use[s] == FREE)
            more = fmax(more, cover_cost(search, s));
    return search->rest[k] + more;
}

static void keep(struct search *search, double paid)
{
    search->best = paid;
    memcpy(search->best_shop, search->shop, sizeof search->best_shop);
}

/* Gives out the k-th item of the order and those behind it; paid: by those before. */
static void give_out(struct search *search, int k, double paid)
{
    if (++search->steps > MOST_STEPS || paid + bound_rest(search, k) >= search->best - SLACK)
        return;
    if (k == search->item_count) {
        keep(search, paid);
        return;
    }
    int i = search->item[k];
    bool tried[TC_SHOPS_MAX] = {false};
    for (;;) { /* the cheapest shop first */
        int next = -1;
        for (int s = 0; s < search->basket->shop_count; s++)
            if (search->use[s] != CLOSED && !tried[s] && sold(search, i, s) &&
                (next < 0 || search->cost[i][s] < search->cost[i][next]))
                next = s;
        if (next < 0)
            break;
        tried[next] = true;
        double before = search->lacking[next];
        search->shop[i] = next;
        search->lacking[next] -= (double)search->basket->item[i].price[next];
        give_out(search, k + 1, paid + search->cost[i][next]);
        search->lacking[next] = before;
        search->shop[i] = -1;
    }
}

/* -------------------------------------------------------------------- deciding shops */

/* The cheapest shop for an item of those not closed, or -1; of equals one whose order is to be large. */
static int cheapest(const struct search *search, int i)
{
    int best = -1;
    for (int s = 0; s < search->basket->shop_count; s++)
        if (search->use[s] != CLOSED && sold(search, i, s) &&
            (best < 0 || search->cost[i][s] < search->cost[i][best]))
            best = s;
    return best;
}

/*
 * What all costs at least, as far as shops are decided; INFINITY where an item has no shop left, or orders
 * that are to be brought for nothing need more goods than there are.
 */
static double bound_shops(const struct search *search)
{
    double sum = 0, paid = 0, cover = 0;
    if (search->wanted > search->most_goods + SLACK)
        return INFINITY;
    for (int s = 0; s < search->basket->shop_count; s++) {
        if (search->use[s] == PAID)
            paid += (double)search->basket->shop[s].delivery;
        else if (search->use[s] == FREE)
            cover = fmax(cover, search->cover[s]);
    }
    if (search->all_least + cover + paid >= search->best - SLACK)
        return INFINITY;
    for (int k = 0; k < search->item_count; k++) {
        int s = cheapest(search, search->item[k]);
        if (s < 0)
            return INFINITY;
        sum += search->cost[search->item[k]][s];
    }
    return sum + paid;
}

/* Puts the k-th of a list to its place among those before it, which are in order. */
static void insert(int *list, double *rank, int k)
{
    int item = list[k];
    double mine = rank[k];
    for (; k > 0 && rank[k - 1] > mine; k--) {
        list[k] = list[k - 1];
        rank[k] = rank[k - 1];
    }
    list[k] = item;
    rank[k] = mine;
}

/* The items by what buying them at a shop costs more for each unit of goods. */
static void sort_by_ratio(struct search *search, int s)
{
    double rank[TC_BASKET_ITEMS_MAX];
    for (int k = 0; k < search->item_count; k++) {
        int i = search->item[k];
        double price = (double)search->basket->item[i].price[s];
        search->by_ratio[s][k] = i;
        rank[k] =
            sold(search, i, s) && price > 0 ? (search->cost[i][s] - search->least[i]) / price : INFINITY;
        insert(search->by_ratio[s], rank, k);
    }
}

/* All shops are decided: gives out the items. */
static void try_uses(struct search *search)
{
    double paid = 0;
    int shops = search->basket->shop_count;
    for (int s = 0; s < shops; s++) {
        search->lacking[s] = search->use[s] == FREE ? (double)search->basket->shop[s].free_from : 0;
        if (search->use[s] == PAID)
            paid += (double)search->basket->shop[s].delivery;
    }
    search->rest[search->item_count] = 0;
    for (int k = search->item_count; k-- > 0;) {
        int i = search->item[k];
        search->least[i] = search->cost[i][cheapest(search, i)];
        search->rest[k] = search->rest[k + 1] + search->least[i];
        search->shop[i] = -1;
    }
    for (int s = 0; s < shops; s++)
        if (search->use[s] == FREE)
            sort_by_ratio(search, s);
    give_out(search, 0, paid);
}

/* Worth of all that a shop sells of the list. */
static double all_goods(const struct search *search, int s)
{
    double goods = 0;
    for (int k = 0; k < search->item_count; k++)
        if (sold(search, search->item[k], s))
            goods += (double)search->basket->item[search->item[k]].price[s];
    return goods;
}

static void decide(struct search *search, int s)
{
    if (++search->steps > MOST_STEPS || bound_shops(search) >= search->best - SLACK)
        return;
    if (s == search->basket->shop_count) {
        try_uses(search);
        return;
    }
    const struct tc_shop_terms *shop = &search->basket->shop[s];
    if (search->out[s]) {
        search->use[s] = CLOSED;
        decide(search, s + 1);
        search->use[s] = UNDECIDED;
        return;
    }
    search->use[s] = PAID;
    decide(search, s + 1);
    if (shop->delivery > 0 && shop->free_from > 0 && all_goods(search, s) >= (double)shop->free_from) {
        search->use[s] = FREE;
        search->wanted += (double)shop->free_from;
        decide(search, s + 1);
        search->wanted -= (double)shop->free_from;
    }
    if (shop->delivery > 0) { /* nothing is lost by a shop that brings all for nothing */
        search->use[s] = CLOSED;
        decide(search, s + 1);
    }
    search->use[s] = UNDECIDED;
}

/* ----------------------------------------------------------------------------- start */

/* The items that are sold, the dearest first. */
static void sort_items(struct search *search)
{
    double rank[TC_BASKET_ITEMS_MAX];
    const struct tc_basket *basket = search->basket;
    search->item_count = 0;
    for (int i = 0; i < basket->item_count; i++) {
        int s = cheapest(search, i);
        if (s < 0)
            continue;
        search->least[i] = search->cost[i][s];
        rank[search->item_count] = -search->least[i];
        search->item[search->item_count] = i;
        insert(search->item, rank, search->item_count++);
    }
}

static bool in_range(const struct tc_basket *basket)
{
    if (basket->shop_count < 0 || basket->shop_count > TC_SHOPS_MAX || basket->item_count < 0 ||
        basket->item_count > TC_BASKET_ITEMS_MAX)
        return false;
    for (int s = 0; s < basket->shop_count; s++) {
        const struct tc_shop_terms *shop = &basket->shop[s];
        if (shop->delivery < 0 || shop->free_from < 0 || !(shop->tax >= 0) || !isfinite(shop->tax))
            return false;
        for (int i = 0; i < basket->item_count; i++)
            if (basket->item[i].price[s] < TC_NOT_SOLD || basket->item[i].fee[s] < 0)
                return false;
    }
    return true;
}

/* What holds whichever shops are used. */
static void look_ahead(struct search *search)
{
    int shops = search->basket->shop_count;
    search->all_least = search->most_goods = 0;
    for (int k = 0; k < search->item_count; k++) {
        int i = search->item[k];
        double most = 0;
        for (int s = 0; s < shops; s++)
            if (sold(search, i, s))
                most = fmax(most, (double)search->basket->item[i].price[s]);
        search->most_goods += most;
        search->all_least += search->least[i];
    }
    for (int s = 0; s < shops; s++) {
        search->lacking[s] = (double)search->basket->shop[s].free_from;
        sort_by_ratio(search, s);
        search->cover[s] = cover_cost(search, s);
    }
}

/* Keeps what is given out where it is paid less for than for the best so far. */
static void try_given_out(struct search *search)
{
    struct tc_basket_answer answer;
    memcpy(answer.shop, search->shop, sizeof answer.shop);
    tc_basket_add_up(search->basket, &answer);
    if (answer.paid < search->best - SLACK)
        keep(search, answer.paid);
}

/* Leaves out shops that cost too much to use, whichever others are used. */
static void leave_out(struct search *search)
{
    for (int s = 0; s < search->basket->shop_count; s++) {
        double paid = (double)search->basket->shop[s].delivery;
        double free = search->basket->shop[s].free_from > 0 ? search->cover[s] : paid;
        search->out[s] = search->all_least + fmin(paid, free) >= search->best - SLACK;
    }
}

/* Something to beat: each item where it is cheapest, and as many as can be at one shop. */
static void try_simple(struct search *search)
{
    for (int at = -1; at < search->basket->shop_count; at++) {
        for (int k = 0; k < search->item_count; k++) {
            int i = search->item[k];
            search->shop[i] = at >= 0 && sold(search, i, at) ? at : cheapest(search, i);
        }
        try_given_out(search);
    }
    for (int i = 0; i < TC_BASKET_ITEMS_MAX; i++)
        search->shop[i] = -1;
}

static void start(struct search *search, const struct tc_basket *basket)
{
    memset(search, 0, sizeof *search);
    search->basket = basket;
    search->best = INFINITY;
    for (int s = 0; s < basket->shop_count; s++) {
        search->use[s] = UNDECIDED;
        for (int i = 0; i < basket->item_count; i++) {
            const struct tc_basket_item *item = &basket->item[i];
            search->cost[i][s] =
                item->price[s] == TC_NOT_SOLD
                    ? INFINITY
                    : ((double)item->price[s] + (double)item->fee[s]) * (1 + basket->shop[s].tax);
        }
    }
    for (int i = 0; i < TC_BASKET_ITEMS_MAX; i++)
        search->shop[i] = search->best_shop[i] = -1;
    sort_items(search);
    look_ahead(search);
    try_simple(search);
    leave_out(search);
}

/* ------------------------------------------------------------------------- few items */

/* So few items are spread by their subsets: 3^8 ways to give one shop a part of what is left. */
enum { FEW_ITEMS = 8, SUBSETS = 1 << FEW_ITEMS };

/* What each subset of the items costs at a shop, delivery and all; INFINITY where it does not sell them. */
static void cost_subsets(const struct search *search, int s, double cost[SUBSETS])
{
    const struct tc_shop_terms *shop = &search->basket->shop[s];
    double goods[SUBSETS];
    cost[0] = goods[0] = 0;
    for (int set = 1; set < 1 << search->item_count; set++) {
        int k = 0;
        while (!(set >> k & 1))
            k++;
        int i = search->item[k], rest = set & (set - 1);
        cost[set] = cost[rest] + search->cost[i][s];
        goods[set] = goods[rest] + (sold(search, i, s) ? (double)search->basket->item[i].price[s] : 0);
    }
    for (int set = 1; set < 1 << search->item_count; set++)
        if (goods[set] > 0 && (shop->free_from == 0 || goods[set] < (double)shop->free_from))
            cost[set] += (double)shop->delivery;
}

/* The cheapest spread, shop after shop: what each subset costs at the shops so far. */
static void spread_few(struct search *search)
{
    int all = (1 << search->item_count) - 1;
    double least[SUBSETS], here[SUBSETS];
    unsigned char taken[TC_SHOPS_MAX][SUBSETS]; /* of a subset, what is bought at the shop */
    for (int set = 0; set <= all; set++)
        least[set] = set == 0 ? 0 : INFINITY;
    memset(taken, 0, sizeof taken);
    for (int s = 0; s < search->basket->shop_count; s++) {
        if (search->out[s])
            continue;
        cost_subsets(search, s, here);
        for (int set = all; set > 0;
             set--) /* what it leaves to the shops before is smaller, and not changed yet */
            for (int part = set; part > 0; part = (part - 1) & set) {
                double paid = here[part] + least[set ^ part];
                if (!(paid < least[set] - SLACK))
                    continue;
                least[set] = paid;
                taken[s][set] = (unsigned char)part;
            }
    }
    if (!(least[all] < search->best - SLACK))
        return;
    for (int s = search->basket->shop_count, left = all; s-- > 0;) {
        int part = taken[s][left];
        for (int k = 0; k < search->item_count; k++)
            if (part >> k & 1)
                search->shop[search->item[k]] = s;
        left ^= part;
    }
    keep(search, least[all]);
}

enum tc_status tc_basket_spread(const struct tc_basket *basket, struct tc_basket_answer *answer)
{
    struct search search;
    memset(answer, 0, sizeof *answer);
    if (!in_range(basket))
        return TC_RANGE;
    start(&search, basket);
    if (search.item_count <= FEW_ITEMS)
        spread_few(&search);
    else
        decide(&search, 0);
    memcpy(answer->shop, search.best_shop, sizeof answer->shop);
    tc_basket_add_up(basket, answer);
    answer->proven = search.steps <= MOST_STEPS;
    return TC_OK;
}

void tc_basket_add_up(const struct tc_basket *basket, struct tc_basket_answer *answer)
{
    memset(answer->goods, 0, sizeof answer->goods);
    memset(answer->used, 0, sizeof answer->used);
    memset(answer->delivered, 0, sizeof answer->delivered);
    answer->unsold = 0;
    answer->paid = 0;
    for (int i = 0; i < basket->item_count; i++) {
        int s = answer->shop[i];
        const struct tc_basket_item *item = &basket->item[i];
        if (s < 0 || item->price[s] == TC_NOT_SOLD) {
            answer->shop[i] = -1;
            answer->unsold++;
            continue;
        }
        answer->used[s] = true;
        answer->goods[s] += item->price[s];
        answer->paid += ((double)item->price[s] + (double)item->fee[s]) * (1 + basket->shop[s].tax);
    }
    for (int s = 0; s < basket->shop_count; s++) {
        const struct tc_shop_terms *shop = &basket->shop[s];
        answer->delivered[s] = answer->goods[s] > 0 && shop->delivery > 0 &&
                               (shop->free_from == 0 || answer->goods[s] < shop->free_from);
        if (answer->delivered[s])
            answer->paid += (double)shop->delivery;
    }
    answer->proven = true;
}
