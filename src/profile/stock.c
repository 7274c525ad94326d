/* SPDX-License-Identifier: MIT */
#include "profile/stock.h"

#include <math.h>
#include <dirent.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "profile/kind.h"
#include "profile/section.h"

void tc_stock_start(struct tc_stock *stock)
{
    memset(stock, 0, sizeof *stock);
}

void tc_stock_free(struct tc_stock *stock)
{
    tc_kind_free_records(stock);
    free(stock->prices);
    free(stock->doubtful);
    tc_sections_free(stock->sections);
    tc_stock_start(stock);
}

/* ---------------------------------------------------------------------- reading */

static bool begin_layer(struct tc_stock *stock)
{
    if (!stock->sections)
        stock->sections = tc_sections_new();
    if (stock->sections)
        tc_sections_next_layer(stock->sections);
    return stock->sections != NULL;
}

static bool is_profile(const char *name)
{
    size_t length = strlen(name);
    return name[0] != '.' && length > 4 && strcmp(name + length - 4, ".ini") == 0;
}

static int compare_names(const void *a, const void *b)
{
    return strcmp(*(char *const *)a, *(char *const *)b);
}

struct names {
    char **items;
    size_t count;
};

static void free_names(struct names *names)
{
    for (size_t i = 0; i < names->count; i++)
        free(names->items[i]);
    free(names->items);
}

/* The names of the profiles in an open folder, sorted. */
static enum tc_status list_profiles(DIR *folder, struct names *names)
{
    for (struct dirent *entry; (entry = readdir(folder)) != NULL;) {
        if (!is_profile(entry->d_name))
            continue;
        char **grown = realloc(names->items, (names->count + 1) * sizeof *grown);
        if (!grown)
            return TC_NO_MEMORY;
        names->items = grown;
        size_t size = strlen(entry->d_name) + 1;
        names->items[names->count] = malloc(size);
        if (!names->items[names->count])
            return TC_NO_MEMORY;
        memcpy(names->items[names->count++], entry->d_name, size);
    }
    if (names->count > 0) /* else there are no items to point at */
        qsort(names->items, names->count, sizeof *names->items, compare_names);
    return TC_OK;
}

static enum tc_status read_names(struct tc_stock *stock, const char *path, const struct names *names,
                                 struct tc_faults *faults)
{
    char **paths = calloc(names->count > 0 ? names->count : 1, sizeof *paths);
    enum tc_status status = paths ? TC_OK : TC_NO_MEMORY;
    for (size_t i = 0; i < names->count && status == TC_OK; i++) {
        struct tc_text file = TC_TEXT_EMPTY;
        tc_text_addf(&file, "%s/%s", path, names->items[i]);
        paths[i] = tc_text_take(&file);
        status = paths[i] ? TC_OK : TC_NO_MEMORY;
        tc_text_free(&file);
    }
    if (status == TC_OK)
        status = tc_sections_add_all(stock->sections, (const char *const *)paths, names->count, faults);
    for (size_t i = 0; paths && i < names->count; i++)
        free(paths[i]);
    free(paths);
    return status;
}

/* Reads all profiles of one folder; *there is set if it exists. */
static enum tc_status read_subfolder(struct tc_stock *stock, const char *path, bool *there,
                                     struct tc_faults *faults)
{
    struct names names = {NULL, 0};
    DIR *folder = opendir(path);
    if (!folder) {
        if (errno == ENOENT)
            return TC_OK;
        if (errno == ENOMEM)
            return TC_NO_MEMORY;
        *there = true;
        tc_faults_error(faults, (struct tc_place){path, 0, NULL, NULL}, "the folder cannot be read: %s",
                        strerror(errno));
        return TC_OK;
    }
    *there = true;
    enum tc_status status = list_profiles(folder, &names);
    closedir(folder);
    if (status == TC_OK)
        status = read_names(stock, path, &names, faults);
    free_names(&names);
    return status;
}

static const char *folder_at(const void *context, size_t i)
{
    (void)context;
    return tc_kind_folder_at(i);
}

static size_t folder_count(void)
{
    size_t count = 0;
    while (tc_kind_folder_at(count))
        count++;
    return count;
}

/* A note on what lies in the folder beside those that are read: a misspelt one, or a profile in none. */
static void note_stray(const char *path, const char *name, struct tc_faults *faults)
{
    const char *nearest = tc_name_nearest(name, folder_at, NULL, folder_count());
    struct tc_text file = TC_TEXT_EMPTY, known = TC_TEXT_EMPTY;
    tc_kind_list_folders(&known);
    tc_text_addf(&file, "%s/%s", path, name);
    struct tc_place place = {tc_text_string(&file), 0, NULL, NULL};
    if (strcmp(name, "kits") == 0)
        tc_faults_note(faults, place, "is not read; kits are called setups: rename the folder to setups");
    else if (is_profile(name))
        tc_faults_note(faults, place, "is not read here; put it into %s", tc_text_string(&known));
    else if (nearest)
        tc_faults_note(faults, place, "is not read; did you mean '%s'?", nearest);
    tc_text_free(&file);
    tc_text_free(&known);
}

static void note_strays(const char *path, struct tc_faults *faults)
{
    DIR *folder = opendir(path);
    if (!folder)
        return;
    for (struct dirent *entry; (entry = readdir(folder)) != NULL;) {
        bool known = entry->d_name[0] == '.';
        for (size_t i = 0; tc_kind_folder_at(i); i++)
            known = known || strcmp(entry->d_name, tc_kind_folder_at(i)) == 0;
        if (!known)
            note_stray(path, entry->d_name, faults);
    }
    closedir(folder);
}

/* A fault of the folder itself, told with the folders it should have. */
static void fault_of_folder(struct tc_place place, const char *what, struct tc_faults *faults)
{
    struct tc_text known = TC_TEXT_EMPTY;
    tc_kind_list_folders(&known);
    tc_faults_error(faults, place, "%s %s in it", what, tc_text_string(&known));
    tc_text_free(&known);
}

enum tc_status tc_stock_read_folder(struct tc_stock *stock, const char *folder, bool optional,
                                    struct tc_faults *faults)
{
    struct tc_place place = {folder, 0, NULL, NULL};
    struct stat about;
    if (!begin_layer(stock))
        return TC_NO_MEMORY;
    if (stat(folder, &about) != 0) {
        if (!optional || errno != ENOENT)
            tc_faults_error(faults, place, "the folder cannot be read: %s", strerror(errno));
        return TC_OK;
    }
    if (!S_ISDIR(about.st_mode)) {
        fault_of_folder(place, "is not a folder; name one with", faults);
        return TC_OK;
    }
    bool any = false;
    enum tc_status status = TC_OK;
    note_strays(folder, faults);
    for (size_t i = 0; tc_kind_folder_at(i) && status == TC_OK; i++) {
        struct tc_text path = TC_TEXT_EMPTY;
        tc_text_addf(&path, "%s/%s", folder, tc_kind_folder_at(i));
        status = path.failed ? TC_NO_MEMORY : read_subfolder(stock, tc_text_string(&path), &any, faults);
        tc_text_free(&path);
    }
    if (status == TC_OK && !any && !optional)
        fault_of_folder(place, "has no folder", faults);
    return status;
}

enum tc_status tc_stock_read_file(struct tc_stock *stock, const char *path, struct tc_faults *faults)
{
    return begin_layer(stock) ? tc_sections_add(stock->sections, path, faults) : TC_NO_MEMORY;
}

enum tc_status tc_stock_read_bytes(struct tc_stock *stock, const char *name, const char *bytes, size_t length,
                                   struct tc_faults *faults)
{
    if (!begin_layer(stock))
        return TC_NO_MEMORY;
    return tc_sections_add_bytes(stock->sections, name, bytes, length, faults);
}

/* ---------------------------------------------------------------------- finding */

const void *tc_stock_find(const struct tc_stock *stock, const char *kind, const char *name)
{
    const struct tc_section *section = stock->sections ? tc_sections_find(stock->sections, kind, name) : NULL;
    if (!section || section->record == 0)
        return NULL;
    return tc_kind_record(tc_kind_find(kind), stock, section->record - 1);
}

const struct tc_tank *tc_stock_tank(const struct tc_stock *stock, const char *name)
{
    return tc_stock_find(stock, "tank", name);
}

const struct tc_part *tc_stock_part(const struct tc_stock *stock, enum tc_slot slot, const char *name)
{
    return tc_stock_find(stock, tc_slot_name(slot), name);
}

const struct tc_setup *tc_stock_setup(const struct tc_stock *stock, const char *name)
{
    return tc_stock_find(stock, "setup", name);
}

const struct tc_region *tc_stock_region(const struct tc_stock *stock, const char *name)
{
    return tc_stock_find(stock, "region", name);
}

const struct tc_named_tariff *tc_stock_tariff(const struct tc_stock *stock, const char *name)
{
    return tc_stock_find(stock, "tariff", name);
}

const struct tc_shop *tc_stock_shop(const struct tc_stock *stock, const char *name)
{
    return tc_stock_find(stock, "shop", name);
}

const struct tc_extra *tc_stock_extra(const struct tc_stock *stock, const char *name)
{
    return tc_stock_find(stock, "extra", name);
}

const struct tc_sale *tc_stock_sale(const struct tc_stock *stock, const char *name)
{
    return tc_stock_find(stock, "sale", name);
}

const struct tc_plan *tc_stock_plan(const struct tc_stock *stock, const char *name)
{
    return tc_stock_find(stock, "plan", name);
}

const struct tc_plan *tc_stock_plan_of(const struct tc_stock *stock, const char *path)
{
    const struct tc_sections *sections = stock->sections;
    for (size_t i = sections ? sections->count : 0; i-- > 0;) {
        const struct tc_section *section = sections->items[i];
        if (strcmp(section->kind, "plan") == 0 && strcmp(sections->files[section->file].ini.file, path) == 0)
            return section->bad || section->replaced ? NULL : tc_stock_plan(stock, section->name);
    }
    return NULL;
}

bool tc_stock_where(const struct tc_stock *stock, const char *kind, const char *name, const char **file,
                    int *line)
{
    const struct tc_section *section = stock->sections ? tc_sections_find(stock->sections, kind, name) : NULL;
    if (!section)
        return false;
    struct tc_place place = tc_section_place(stock->sections, section, NULL);
    *file = place.file;
    *line = place.line;
    return true;
}

/* The names of one kind, for tc_name_nearest. */
struct kind_names {
    const struct tc_stock *stock;
    const struct tc_kind *kind;
};

static const char *name_at(const void *context, size_t i)
{
    const struct kind_names *names = context;
    const struct tc_kind *kind = names->kind;
    if (kind->slot >= 0 && (int)names->stock->parts[i].slot != kind->slot)
        return NULL;
    return (const char *)tc_kind_record(kind, names->stock, i) + kind->shelf.name;
}

const char *tc_stock_nearest(const struct tc_stock *stock, const char *kind, const char *name)
{
    const struct kind_names names = {stock, tc_kind_find(kind)};
    return names.kind ? tc_name_nearest(name, name_at, &names, tc_kind_count(names.kind, stock)) : NULL;
}

/* ---------------------------------------------------------------------- settling */

/* One of the region's tariffs: the named one, or a flat one of its price. */
static bool settle(const struct tc_stock *stock, const struct tc_utility *utility,
                   enum tc_dimension dimension, struct tc_tariff *tariff, char problem[TC_PROBLEM_SIZE])
{
    const char *name = utility->tariff;
    if (tc_utility_flat(utility, tariff))
        return true;
    const struct tc_named_tariff *named = tc_stock_tariff(stock, name);
    if (!named)
        return tc_problem(problem, "there is no tariff '%s'", name);
    if (named->dimension != dimension)
        return tc_problem(problem, "the tariff '%s' is one of %s, not of %s", name,
                          named->dimension == TC_DIM_ENERGY ? "electricity" : "water",
                          dimension == TC_DIM_ENERGY ? "electricity" : "water");
    *tariff = named->tariff;
    return true;
}

bool tc_stock_tariffs(const struct tc_stock *stock, const struct tc_region *region,
                      struct tc_tariffs *tariffs, char problem[TC_PROBLEM_SIZE])
{
    return settle(stock, &region->electricity, TC_DIM_ENERGY, &tariffs->electricity, problem) &&
           settle(stock, &region->water, TC_DIM_VOLUME, &tariffs->water, problem);
}

/* ----------------------------------------------------------------------- prices */

int tc_shop_price_compare(const void *a, const void *b)
{
    const struct tc_shop_price *x = a, *y = b;
    if (x->shop != y->shop)
        return x->shop < y->shop ? -1 : 1;
    if (x->slot != y->slot)
        return x->slot < y->slot ? -1 : 1;
    return (x->item > y->item) - (x->item < y->item);
}

const struct tc_shop *tc_stock_first_shop(const struct tc_stock *stock, const char *region)
{
    for (size_t i = 0; i < stock->shop_count; i++)
        if (strcmp(stock->shops[i].region, region) == 0 && stock->shops[i].seller == TC_SELLER_SHOP)
            return &stock->shops[i];
    return NULL;
}

bool tc_stock_sale_in(const struct tc_stock *stock, const struct tc_sale *sale, const char *region)
{
    const struct tc_shop *shop = tc_stock_shop(stock, sale->shop);
    return shop && strcmp(shop->region, region) == 0;
}

/* The place of the record of a tank or part in its array, or -1. */
static int item_place(const struct tc_stock *stock, int slot, const struct tc_goods *goods)
{
    const char *kind = slot < 0 ? "tank" : tc_slot_name((enum tc_slot)slot);
    const struct tc_section *section =
        stock->sections ? tc_sections_find(stock->sections, kind, goods->name) : NULL;
    return section ? (int)section->record - 1 : -1;
}

static const struct tc_shop_price *find_price(const struct tc_stock *stock, const struct tc_shop *shop,
                                              int slot, int item)
{
    const struct tc_shop_price wanted = {.shop = (int)(shop - stock->shops), .slot = slot, .item = item};
    return item < 0 || stock->price_count == 0
               ? NULL
               : bsearch(&wanted, stock->prices, stock->price_count, sizeof wanted, tc_shop_price_compare);
}

const struct tc_shop_price *tc_stock_listed(const struct tc_stock *stock, const struct tc_shop *shop,
                                            int slot, const struct tc_goods *goods)
{
    return find_price(stock, tc_stock_shop(stock, shop->name), slot, item_place(stock, slot, goods));
}

bool tc_stock_asked(const struct tc_stock *stock, const struct tc_region *region, const struct tc_shop *shop,
                    int slot, const struct tc_goods *goods, double *amount)
{
    const struct tc_shop_price *listed = shop ? tc_stock_listed(stock, shop, slot, goods) : NULL;
    bool private = shop && shop->seller == TC_SELLER_PRIVATE; /* sells what is on the list and nothing else */
    const struct tc_price *own = private ? NULL : tc_price_in(&goods->price, region->currency);
    *amount = listed ? listed->amount : own ? own->amount : 0;
    return listed || own;
}

bool tc_stock_price(const struct tc_stock *stock, const struct tc_region *region, int slot,
                    const struct tc_goods *goods, double *amount)
{
    const struct tc_price *own = tc_price_in(&goods->price, region->currency);
    int item = item_place(stock, slot, goods);
    bool any = false, shops = false, unlisted = false;
    *amount = 0;
    for (size_t i = 0; i < stock->shop_count; i++) {
        const struct tc_shop *shop = &stock->shops[i];
        if (strcmp(shop->region, region->name) != 0)
            continue;
        const struct tc_shop_price *listed = find_price(stock, shop, slot, item);
        shops = shops || shop->seller == TC_SELLER_SHOP;
        unlisted = unlisted || (!listed && shop->seller == TC_SELLER_SHOP);
        if (!listed || (any && listed->amount >= *amount))
            continue;
        *amount = listed->amount;
        any = true;
    }
    if (own && (unlisted || !shops) && (!any || own->amount < *amount)) {
        *amount = own->amount;
        any = true;
    }
    return any;
}

double tc_stock_own_price(const struct tc_stock *stock, const struct tc_shop *shop, int slot,
                          const struct tc_goods *goods)
{
    const struct tc_shop_price *listed = shop ? tc_stock_listed(stock, shop, slot, goods) : NULL;
    return listed ? listed->amount : (double)NAN;
}
