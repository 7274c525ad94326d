/* SPDX-License-Identifier: MIT */
#include "screen/rescue.h"

#include <ncurses.h>
#include <term.h> /* which makes macros of many plain words: so it is kept to this file */

bool tc_rescue_can_draw(const char *name, int terminal)
{
    int problem;
    if (!name || !*name || setupterm(name, terminal, &problem) != OK)
        return false;
    const char *address = tigetstr("cup");
    bool able = address && address != (char *)-1 && *address;
    del_curterm(cur_term);
    return able;
}

const char *tc_rescue_paste(bool on)
{
    const char *address = tigetstr("cup");
    if (!address || address == (char *)-1 || address[0] != '\033' || address[1] != '[')
        return "";
    return on ? "\033[?2004h" : "\033[?2004l";
}

const char *tc_rescue_margins(int height)
{
    const char *margins = tigetstr("csr");
    const char *bytes = margins && margins != (char *)-1 ? tiparm(margins, 0, height - 1) : NULL;
    return bytes ? bytes : "";
}

/* tputs takes a function without a context. */
static struct tc_rescue *filled;

static int put_byte(int byte)
{
    if (filled->length < sizeof filled->bytes)
        filled->bytes[filled->length++] = (char)byte;
    return byte;
}

void tc_rescue_prepare(struct tc_rescue *rescue, int terminal, const struct termios *modes, bool mouse)
{
    static const char *const names[] = {"sgr0", "cnorm", "rmkx", "rmcup"};
    *rescue = (struct tc_rescue){.terminal = terminal, .modes = *modes};
    filled = rescue;
    for (const char *c = mouse ? "\033[?1000l\033[?1002l\033[?1006l" : ""; *c; c++)
        put_byte(*c);
    for (const char *c = tc_rescue_paste(false); *c; c++)
        put_byte(*c);
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        const char *string = tigetstr(names[i]);
        if (string && string != (char *)-1)
            tputs(string, 1, put_byte);
    }
    filled = NULL;
}
