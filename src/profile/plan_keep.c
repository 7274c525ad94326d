/* SPDX-License-Identifier: MIT */
#include "profile/plan_keep.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "core/base/clean.h"
#include "profile/plan_read.h"
#include "profile/plan_save.h"
#include "profile/save.h"

/* The first line of a kept plan that belongs to a file. */
static const char belongs[] = "# belongs to: ";

/* A name for a plan in the folder that is not taken; false where there is none. */
static bool find_name(const struct tc_plan *plan, const char *folder, char path[TC_KEPT_PATH_SIZE])
{
    const char *name = plan->name[0] ? plan->name : "plan";
    for (int i = 1; i < 100; i++) {
        char number[16] = "";
        if (i > 1)
            snprintf(number, sizeof number, "-%d", i);
        if (snprintf(path, TC_KEPT_PATH_SIZE, "%s/%s%s.ini", folder, name, number) >= TC_KEPT_PATH_SIZE)
            return false;
        if (access(path, F_OK) != 0)
            return true;
    }
    return false;
}

enum tc_status tc_plan_keep(const struct tc_plan *plan, const char *folder, struct tc_kept_plan *kept,
                            struct tc_faults *faults)
{
    struct tc_text text = TC_TEXT_EMPTY;
    if (kept->kept[0] == '\0') {
        tc_make_folders(folder, faults);
        if (!find_name(plan, folder, kept->kept))
            return TC_RANGE;
    }
    if (kept->path[0] && tc_is_clean(kept->path, strlen(kept->path)))
        tc_text_addf(&text, "%s%s\n", belongs, kept->path);
    char *written = tc_plan_write(plan);
    tc_text_add(&text, written ? written : "");
    enum tc_status status = !written || text.failed
                                ? TC_NO_MEMORY
                                : tc_save(kept->kept, tc_text_string(&text), text.length, faults);
    free(written);
    tc_text_free(&text);
    return status;
}

/* --------------------------------------------------------------------- reading */

/* The file that a kept plan belongs to, from its first line. */
static void read_path(struct tc_kept_plan *kept)
{
    char line[TC_KEPT_PATH_SIZE + sizeof belongs];
    FILE *file = fopen(kept->kept, "r");
    kept->path[0] = '\0';
    if (!file)
        return;
    if (fgets(line, sizeof line, file) && strncmp(line, belongs, strlen(belongs)) == 0) {
        const char *path = line + strlen(belongs);
        snprintf(kept->path, sizeof kept->path, "%.*s", (int)strcspn(path, "\n"), path);
    }
    fclose(file);
}

static int compare(const void *a, const void *b)
{
    const struct tc_kept_plan *x = a, *y = b;
    return strcmp(x->kept, y->kept);
}

size_t tc_plan_kept(const char *folder, struct tc_kept_plan *kept, size_t most)
{
    size_t count = 0;
    DIR *open_folder = opendir(folder);
    if (!open_folder)
        return 0;
    for (struct dirent *entry; count < most && (entry = readdir(open_folder)) != NULL;) {
        size_t length = strlen(entry->d_name);
        if (entry->d_name[0] == '.' || length <= 4 || strcmp(entry->d_name + length - 4, ".ini") != 0)
            continue;
        int written = snprintf(kept[count].kept, sizeof kept[count].kept, "%s/%s", folder, entry->d_name);
        if (written >= (int)sizeof kept[count].kept)
            continue;
        read_path(&kept[count++]);
    }
    closedir(open_folder);
    if (count > 0)
        qsort(kept, count, sizeof *kept, compare);
    return count;
}

/* The section of the plan among those of its file; NULL where there is none. */
static const struct tc_section *section_of_plan(const struct tc_sections *sections)
{
    for (size_t i = 0; i < sections->count; i++)
        if (strcmp(sections->items[i]->kind, "plan") == 0)
            return sections->items[i];
    return NULL;
}

bool tc_plan_kept_read(const struct tc_stock *stock, const struct tc_kept_plan *kept, struct tc_plan *plan,
                       struct tc_faults *faults)
{
    struct tc_sections *sections = tc_sections_new();
    struct tc_stock beside = *stock; /* the same records */
    struct tc_build build = {.stock = &beside, .sections = sections, .faults = faults, .status = TC_OK};
    bool good = false;
    if (sections && tc_sections_add(sections, kept->kept, faults) == TC_OK &&
        tc_sections_values(sections, faults) == TC_OK && section_of_plan(sections))
        good = tc_build_plan(&build, section_of_plan(sections), plan) && build.status == TC_OK;
    if (sections)
        tc_sections_free(sections);
    return good;
}
