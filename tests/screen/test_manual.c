/* SPDX-License-Identifier: MIT */
/*
 * The keys of the screen in tankcost(1) are those of the table that presses are
 * looked up in. See support/manual_page.h for how they are written anew.
 */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <string.h>

#include "screen/binding.h"
#include "support/manual_page.h"
#include "support/screen_case.h"

#define PAGE "man/tankcost.1"

enum { NAME_SIZE = 64 };

/* A key's name as an argument of a macro: punctuation alone would be taken for that of the sentence. */
static void add_key(uint32_t press, struct tc_text *list)
{
    char name[NAME_SIZE];
    tc_event_name(name, press);
    tc_text_addf(list, "%s%s", strlen(name) == 1 && strchr("?!.,;:()[]", name[0]) ? "\\&" : "", name);
}

static void add_binding(const struct tc_binding *binding, struct tc_text *list)
{
    tc_text_add(list, ".It Ic ");
    add_key(binding->event, list);
    if (binding->other != TC_EVENT_NONE) {
        tc_text_add(list, " , ");
        add_key(binding->other, list);
    }
    tc_text_add_char(list, '\n');
    manual_add_sentence(binding->help, list);
}

static void every_key_stands_in_the_page(void **state)
{
    (void)state;
    struct screen_case c;
    struct manual_page page;
    struct tc_text list = TC_TEXT_EMPTY;
    enum tc_layer layer = TC_LAYER_PICTURE; /* which begins no list: its keys explain themselves */
    screen_case_start(&c, 80, 24);
    for (size_t i = 0; tc_binding_at(&c.state, i); i++) {
        const struct tc_binding *binding = tc_binding_at(&c.state, i);
        if (!binding->help)
            continue;
        if (binding->layer != layer) {
            tc_text_addf(&list, "%s.Ss \\&%s\n.Bl -tag -width \"Page Down, Space\"\n", i > 0 ? ".El\n" : "",
                         tc_binding_layer_title(binding->layer));
            layer = binding->layer;
        }
        add_binding(binding, &list);
    }
    tc_text_add(&list, ".El\n");
    manual_page_start(&page, PAGE);
    manual_page_list(&page, "of the screen", tc_text_string(&list));
    tc_text_free(&list);
    manual_page_end(&page);
    screen_case_free(&c);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_key_stands_in_the_page),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
