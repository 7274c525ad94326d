/* SPDX-License-Identifier: MIT */
#include "screen/terminal.h"

#include <errno.h>
#include <ncurses.h>
#include <poll.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <termios.h>
#include <unistd.h>

#include "core/base/clean.h"
#include "profile/save.h"
#include "screen/rescue.h"
#include "screen/style.h"
#include "screen/signals.h"

/*
 * Milliseconds after which Esc is Esc and not the beginning of another key. A
 * terminal of this machine writes the bytes of a key at once, a network may
 * part them; and no paste holds an Esc, so there it is the beginning of its end.
 * The variable ESCDELAY overrules the first two, as in all that uses ncurses.
 */
enum { ESCAPE_HERE = 4, ESCAPE_AFAR = 25, ESCAPE_PASTE = 200 };

/* ncurses counts in shorts, and a screen of this size is none to read on: what is beyond stays empty. */
enum { LARGEST = 1000 };

/* Keys of our own, beyond those of ncurses. */
enum { KEY_PASTE = KEY_MAX + 1, KEY_PASTE_END };

static SCREEN *screen;
static int escape_delay;       /* outside pastes */
static struct tc_canvas shown; /* what ncurses was given last; empty: not known */
static bool colours;
static bool mouse;
static bool resized; /* since the screen was drawn last */
static struct termios shell_modes;
static int ended_by;

/* ---------------------------------------------------------------------------- start */

/* What a crash has to put right depends on whether the mouse is taken. */
static void prepare_rescue(void)
{
    struct tc_rescue rescue;
    tc_rescue_prepare(&rescue, STDOUT_FILENO, &shell_modes, mouse);
    tc_signals_rescue(&rescue);
}

/* The keys' sequences that terminals of all kinds send, also where their description lacks them. */
static void define_common_keys(void)
{
    static const struct {
        const char *sequence;
        int key;
    } keys[] = {
        {"\033[A", KEY_UP},    {"\033[B", KEY_DOWN},   {"\033[C", KEY_RIGHT},    {"\033[D", KEY_LEFT},
        {"\033[H", KEY_HOME},  {"\033[F", KEY_END},    {"\033OH", KEY_HOME},     {"\033OF", KEY_END},
        {"\033[1~", KEY_HOME}, {"\033[4~", KEY_END},   {"\033[7~", KEY_HOME},    {"\033[8~", KEY_END},
        {"\033[3~", KEY_DC},   {"\033[5~", KEY_PPAGE}, {"\033[6~", KEY_NPAGE},   {"\033[Z", KEY_BTAB},
        {"\033OP", KEY_F(1)},  {"\033[11~", KEY_F(1)}, {"\033[200~", KEY_PASTE}, {"\033[201~", KEY_PASTE_END},
    };
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++)
        if (key_defined(keys[i].sequence) == 0)
            define_key(keys[i].sequence, keys[i].key);
}

/* ^C is a key (it asks before it leaves) and so are ^S and ^Q; ^Z and ^\ stay signals. */
static void set_modes(void)
{
    struct termios modes;
    cbreak();
    noecho();
    nonl();
    if (tcgetattr(STDIN_FILENO, &modes) == 0) {
        modes.c_cc[VINTR] = _POSIX_VDISABLE;
        modes.c_iflag &= ~(tcflag_t)(IXON | IXOFF);
        tcsetattr(STDIN_FILENO, TCSANOW, &modes);
    }
    def_prog_mode();
}

/* Whether the terminal says where a paste begins and ends. */
static void set_paste(bool on)
{
    const char *bytes = tc_rescue_paste(on);
    tc_write_all(STDOUT_FILENO, bytes, strlen(bytes)); /* where that fails, nothing is lost but the comfort */
}

static void take_size(void)
{
    int width, height;
    tc_terminal_size(&width, &height);
    resize_term(height, width);
    resized = true;
}

enum tc_status tc_terminal_start(bool colour)
{
    ended_by = 0;
    mouse = false;
    if (!isatty(STDIN_FILENO) || !isatty(STDOUT_FILENO) ||
        !tc_rescue_can_draw(getenv("TERM"), STDOUT_FILENO) || tcgetattr(STDIN_FILENO, &shell_modes) != 0)
        return TC_NO_RESULT;
    /* Before ncurses, which leaves alone what others have taken. The rescue is complete once it runs. */
    struct tc_rescue rescue = {.terminal = STDOUT_FILENO, .modes = shell_modes};
    if (tc_signals_start(&rescue) != TC_OK)
        return TC_IO;
    set_escdelay(getenv("SSH_CONNECTION") ? ESCAPE_AFAR : ESCAPE_HERE);
    use_env(FALSE); /* the size is asked for below, and bounded; ncurses would believe any */
    use_tioctl(FALSE);
    screen = newterm(NULL, stdout, stdin); /* takes ESCDELAY */
    if (!screen) { /* terminfo gives some terminals no size, as the Linux console, and ncurses wants one */
        use_tioctl(TRUE);
        screen = newterm(NULL, stdout, stdin);
    }
    if (!screen) {
        tc_signals_stop();
        return TC_NO_RESULT;
    }
    escape_delay = get_escdelay();
    prepare_rescue();
    set_modes();
    intrflush(stdscr, FALSE);
    keypad(stdscr, TRUE);
    nodelay(stdscr, TRUE);
    typeahead(-1); /* what is drawn is drawn whole */
    define_common_keys();
    set_paste(true);
    colours = colour && has_colors();
    if (colours)
        tc_style_start_colours();
    take_size();
    return TC_OK;
}

void tc_terminal_stop(void)
{
    if (!screen)
        return;
    tc_terminal_mouse(false);
    set_paste(false);
    tcflush(STDIN_FILENO, TCIFLUSH); /* keys that came too late are not for the shell */
    endwin();
    delscreen(screen);
    screen = NULL;
    tc_canvas_free(&shown);
    tc_signals_stop();
}

int tc_terminal_signal(void)
{
    return ended_by;
}

void tc_terminal_size(int *width, int *height)
{
    struct winsize size;
    if (ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_row > 0 && size.ws_col > 0) {
        *width = size.ws_col;
        *height = size.ws_row;
    } else {
        *width = COLS;
        *height = LINES;
    }
    *width = *width < LARGEST ? *width : LARGEST;
    *height = *height < LARGEST ? *height : LARGEST;
}

/* ---------------------------------------------------------------------------- drawing */

/* The characters of a cell: one, and what combines with it. */
static void to_wide(const char *text, wchar_t wide[CCHARW_MAX + 1])
{
    size_t length = strlen(text), count = 0;
    while (length > 0 && count < CCHARW_MAX) {
        uint32_t code;
        int n = tc_utf8_decode(text, length, &code);
        if (n == 0)
            break;
        wide[count++] = (wchar_t)code;
        text += n;
        length -= (size_t)n;
    }
    wide[count] = L'\0';
}

static void put_glyph(int column, int row, const struct tc_glyph *glyph)
{
    wchar_t wide[CCHARW_MAX + 1];
    cchar_t cell;
    short pair;
    if (glyph->text[0] == '\0')
        return; /* the right half of a wide character */
    attr_t attributes = (attr_t)tc_style_attributes(glyph->tone, colours, &pair);
    to_wide(glyph->text, wide);
    /* The lower right corner is drawn, though the cursor cannot go on from there: errors mean nothing here.
     */
    if (setcchar(&cell, wide, attributes, pair, NULL) == OK)
        mvadd_wch(row, column, &cell);
}

/*
 * ncurses makes the lines that scroll as many as the terminal's description has, before it knows the size:
 * what it writes on the lines below would go astray. To be drawn anew, since the cursor moves.
 */
static void set_margins(void)
{
    doupdate(); /* what it has to say comes before */
    const char *bytes = tc_rescue_margins(LINES);
    tc_write_all(STDOUT_FILENO, bytes, strlen(bytes)); /* where that fails, so does all that is drawn */
}

static bool same_glyph(const struct tc_glyph *a, const struct tc_glyph *b)
{
    return a->tone == b->tone && strcmp(a->text, b->text) == 0;
}

/* Keeps what is shown, to be compared with the next; without the memory for it that is drawn whole. */
static void keep_shown(const struct tc_canvas *canvas)
{
    if ((shown.width != canvas->width || shown.height != canvas->height) &&
        tc_canvas_start(&shown, canvas->width, canvas->height) != TC_OK)
        return;
    for (int row = 0; row < canvas->height; row++)
        tc_canvas_copy(&shown, 0, row, canvas, 0, canvas->width, row);
}

/* Hands ncurses the cells that are not as they were: it takes its time over each. */
static void put_canvas(const struct tc_canvas *canvas)
{
    bool known = shown.width == canvas->width && shown.height == canvas->height;
    if (!known)
        erase();
    for (int row = 0; row < canvas->height && row < LINES; row++)
        for (int column = 0; column < canvas->width && column < COLS; column++) {
            const struct tc_glyph *glyph = tc_canvas_at(canvas, column, row);
            if (!known || !same_glyph(glyph, tc_canvas_at(&shown, column, row)))
                put_glyph(column, row, glyph);
        }
    keep_shown(canvas);
}

void tc_terminal_show(const struct tc_canvas *canvas, const struct tc_cursor *cursor, bool redraw)
{
    if (redraw || resized)
        tc_canvas_free(&shown);
    put_canvas(canvas);
    move(cursor->row, cursor->column);
    if (resized)
        set_margins();
    if (redraw || resized)
        clearok(stdscr, TRUE);
    resized = false;
    wnoutrefresh(stdscr);
    doupdate();
}

void tc_terminal_mouse(bool on)
{
    if (on == mouse)
        return;
    mouse = on;
    mouseinterval(0);
    mousemask(on ? BUTTON1_PRESSED | BUTTON4_PRESSED | BUTTON5_PRESSED : 0, NULL);
    prepare_rescue();
}

/* ---------------------------------------------------------------------------- presses */

static uint32_t key_press(int key)
{
    switch (key) {
    case KEY_UP: return TC_EVENT_UP;
    case KEY_DOWN: return TC_EVENT_DOWN;
    case KEY_LEFT: return TC_EVENT_LEFT;
    case KEY_RIGHT: return TC_EVENT_RIGHT;
    case KEY_PPAGE: return TC_EVENT_PAGE_UP;
    case KEY_NPAGE: return TC_EVENT_PAGE_DOWN;
    case KEY_HOME: return TC_EVENT_HOME;
    case KEY_END: return TC_EVENT_END;
    case KEY_ENTER: return TC_EVENT_ENTER;
    case KEY_BTAB: return TC_EVENT_BACK_TAB;
    case KEY_BACKSPACE: return TC_EVENT_BACKSPACE;
    case KEY_DC: return TC_EVENT_DELETE;
    case KEY_PASTE: return TC_EVENT_PASTE;
    case KEY_PASTE_END: return TC_EVENT_PASTE_END;
    case KEY_HELP:
    case KEY_F(1): return TC_EVENT_HELP;
    default: return TC_EVENT_NONE;
    }
}

static uint32_t control_press(wint_t code)
{
    switch (code) {
    case '\r':
    case '\n': return TC_EVENT_ENTER;
    case '\t': return TC_EVENT_TAB;
    case 0x08:
    case 0x7F: return TC_EVENT_BACKSPACE;
    case 0x1B: return TC_EVENT_ESCAPE;
    case 0x03: return TC_EVENT_BREAK;
    case 0x0C: return TC_EVENT_REDRAW;
    case 0x15: return TC_EVENT_CLEAR_LINE;
    default: return TC_EVENT_NONE;
    }
}

/*
 * After Esc: if it begins a sequence of a key that is not known, which is at
 * hand already, that is read and means nothing. ECMA-48: CSI sequences end
 * with a byte from @ to ~, SS3 ones with the next byte.
 */
static bool skip_sequence(void)
{
    wint_t code;
    int kind = get_wch(&code);
    if (kind == KEY_CODE_YES) {
        ungetch((int)code); /* Esc, and then a key that is known */
        return false;
    }
    if (kind != OK)
        return false;
    if (code != '[' && code != 'O') {
        unget_wch((wchar_t)code);
        return false;
    }
    bool control = code == '[';
    while (get_wch(&code) == OK && control && !(code >= '@' && code <= '~'))
        ;
    return true;
}

static void take_mouse(struct tc_key_event *press)
{
    MEVENT event;
    if (getmouse(&event) != OK)
        return;
    press->column = event.x;
    press->row = event.y;
    if (event.bstate & BUTTON4_PRESSED)
        press->code = TC_EVENT_WHEEL_UP;
    else if (event.bstate & BUTTON5_PRESSED)
        press->code = TC_EVENT_WHEEL_DOWN;
    else if (event.bstate & BUTTON1_PRESSED)
        press->code = TC_EVENT_CLICK;
}

/* Takes what ncurses has; false if that is nothing. A press of TC_EVENT_NONE is a key without a meaning. */
static bool take_press(struct tc_key_event *press)
{
    wint_t code;
    int kind = get_wch(&code);
    *press = (struct tc_key_event){.code = TC_EVENT_NONE};
    if (kind == ERR)
        return false;
    if (kind == KEY_CODE_YES && code == KEY_MOUSE)
        take_mouse(press);
    else if (kind == KEY_CODE_YES)
        press->code = key_press((int)code);
    else if (code < 0x20 || code == 0x7F)
        press->code = control_press(code);
    else if (tc_event_is_text((uint32_t)code))
        press->code = (uint32_t)code;
    if (press->code == TC_EVENT_ESCAPE && skip_sequence())
        press->code = TC_EVENT_NONE;
    if (press->code == TC_EVENT_PASTE)
        set_escdelay(ESCAPE_PASTE);
    else if (press->code == TC_EVENT_PASTE_END || press->code == TC_EVENT_ESCAPE)
        set_escdelay(escape_delay);
    return true;
}

static void suspend(void)
{
    bool with_mouse = mouse;
    tc_terminal_mouse(false);
    set_paste(false);
    endwin();
    tc_signals_stop_process();
    reset_prog_mode();
    set_paste(true);
    tc_terminal_mouse(with_mouse);
}

/* What signals ask for; false if nothing that a loop has to know. */
static bool take_signals(enum tc_read *read, struct tc_key_event *press)
{
    struct tc_signals signals = tc_signals_take();
    if (signals.end) {
        ended_by = signals.end;
        *read = TC_READ_SIGNAL;
        return true;
    }
    if (signals.stopped)
        suspend();
    if (!signals.stopped && !signals.continued && !signals.resized)
        return false;
    if (signals.stopped || signals.continued) {
        reset_prog_mode();
        clearok(curscr, TRUE); /* others have written on the screen meanwhile */
    }
    take_size();
    *press = (struct tc_key_event){.code = TC_EVENT_RESIZE};
    *read = TC_READ_PRESS;
    return true;
}

/* Whether there is really something to be read: bytes that are no characters are, the end of input is not. */
static bool input_waits(void)
{
    int count = 0;
    return ioctl(STDIN_FILENO, FIONREAD, &count) == 0 && count > 0;
}

enum tc_read tc_terminal_read(int milliseconds, struct tc_key_event *press)
{
    enum tc_read read;
    int empty = 0; /* how often input was said to be there and was not */
    for (;;) {
        if (take_signals(&read, press))
            return read;
        if (take_press(press)) {
            if (press->code != TC_EVENT_NONE)
                return TC_READ_PRESS;
            empty = 0;
            continue;
        }
        if (empty >= 3)
            return TC_READ_LOST; /* end of file says that input is there, for ever */
        struct pollfd files[] = {{STDIN_FILENO, POLLIN, 0}, {tc_signals_file(), POLLIN, 0}};
        int ready = poll(files, 2, milliseconds);
        if (ready < 0 && errno != EINTR)
            return TC_READ_LOST;
        if (ready == 0)
            return TC_READ_NOTHING;
        if (ready > 0 && files[0].revents)
            empty = input_waits() ? 0 : empty + 1;
    }
}
