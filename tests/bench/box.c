/* SPDX-License-Identifier: MIT */
/*
 * The least a wide ncurses program does: one box, then it waits for a key.
 * bench_start measures tankcost against it.
 */
#include <locale.h>
#include <ncurses.h>

int main(void)
{
    setlocale(LC_CTYPE, "");
    if (!newterm(NULL, stdout, stdin))
        return 1;
    box(stdscr, 0, 0);
    refresh();
    getch();
    return endwin() == ERR;
}
