/* SPDX-License-Identifier: MIT */
/* Saving: the new content or the old one, never half of it, and nothing left lying about. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "profile/save.h"
#include "support/failing_malloc.h"

static char folder[] = "/tmp/tankcost-test-XXXXXX";
static int home; /* the folder the test started in */

/* Each test runs in a fresh folder of its own. */
static int enter_folder(void **state)
{
    (void)state;
    memcpy(folder + sizeof folder - 7, "XXXXXX", 6);
    home = open(".", O_RDONLY);
    umask(022);
    return home >= 0 && mkdtemp(folder) != NULL && chdir(folder) == 0 ? 0 : -1;
}

static int leave_folder(void **state)
{
    (void)state;
    char command[80];
    chmod(folder, 0700);
    snprintf(command, sizeof command, "rm -rf %s", folder);
    int left = fchdir(home);
    close(home);
    return left == 0 && system(command) == 0 ? 0 : -1;
}

static int files_in(const char *path)
{
    int count = 0;
    DIR *dir = opendir(path);
    assert_non_null(dir);
    for (struct dirent *entry; (entry = readdir(dir)) != NULL;)
        count += strcmp(entry->d_name, ".") != 0 && strcmp(entry->d_name, "..") != 0;
    closedir(dir);
    return count;
}

static void write_plainly(const char *path, const char *content, mode_t mode)
{
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    fputs(content, file);
    fclose(file);
    assert_int_equal(chmod(path, mode), 0);
}

static void assert_content(const char *path, const char *wanted)
{
    char content[4096];
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    size_t length = fread(content, 1, sizeof content - 1, file);
    fclose(file);
    content[length] = '\0';
    assert_string_equal(content, wanted);
}

static mode_t mode_of(const char *path)
{
    struct stat about;
    assert_int_equal(stat(path, &about), 0);
    return about.st_mode & 07777;
}

static void assert_saved(const char *path, const char *content)
{
    struct tc_faults faults = TC_FAULTS_EMPTY;
    assert_int_equal(tc_save(path, content, strlen(content), &faults), TC_OK);
    assert_int_equal(tc_faults_count(&faults), 0);
    assert_content(path, content);
}

static void assert_refused(const char *path, const char *message)
{
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct tc_text text = TC_TEXT_EMPTY;
    assert_int_equal(tc_save(path, "new", 3, &faults), TC_IO);
    tc_faults_write(&faults, &text);
    assert_string_equal(tc_text_string(&text), message);
    assert_int_equal(tc_faults_errors(&faults), 1);
    tc_text_free(&text);
    tc_faults_free(&faults);
}

static void a_new_file_gets_what_umask_leaves(void **state)
{
    (void)state;
    assert_saved("plan.ini", "content\n");
    assert_int_equal(mode_of("plan.ini"), 0644);
    umask(077);
    assert_saved("mine.ini", "");
    assert_int_equal(mode_of("mine.ini"), 0600);
    assert_int_equal(files_in("."), 2);
}

static void an_old_file_keeps_its_mode(void **state)
{
    (void)state;
    write_plainly("plan.ini", "old, and longer than the new one", 0640);
    umask(077);
    assert_saved("plan.ini", "new");
    assert_int_equal(mode_of("plan.ini"), 0640);
    write_plainly("all.ini", "old", 0666);
    char path[80];
    snprintf(path, sizeof path, "%s/all.ini", folder);
    assert_saved(path, "new");
    assert_int_equal(mode_of("all.ini"), 0666);
    assert_int_equal(files_in("."), 2);
}

static void an_old_file_keeps_its_owner_where_allowed(void **state)
{
    (void)state;
    struct stat about;
    write_plainly("plan.ini", "old", 0600);
    if (geteuid() != 0 || chown("plan.ini", 12345, 54321) != 0)
        skip();
    assert_saved("plan.ini", "new");
    assert_int_equal(stat("plan.ini", &about), 0);
    assert_int_equal(about.st_uid, 12345);
    assert_int_equal(about.st_gid, 54321);
    assert_int_equal(about.st_mode & 07777, 0600);
}

static void many_bytes_of_any_kind_are_kept(void **state)
{
    (void)state;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    size_t size = 3u << 20;
    char *data = malloc(size), *back = malloc(size + 1);
    for (size_t i = 0; i < size; i++)
        data[i] = (char)(i * 7 + i / 251);
    assert_int_equal(tc_save("big", data, size, &faults), TC_OK);
    FILE *file = fopen("big", "r");
    assert_int_equal(fread(back, 1, size + 1, file), size);
    fclose(file);
    assert_memory_equal(data, back, size);
    free(data);
    free(back);
}

static void a_link_stays_and_its_target_is_written(void **state)
{
    (void)state;
    struct stat about;
    char target[64];

    assert_int_equal(mkdir("a", 0777), 0);
    assert_int_equal(mkdir("b", 0777), 0);
    write_plainly("b/real.ini", "old", 0600);
    assert_int_equal(symlink("../b/real.ini", "a/link.ini"), 0); /* seen from its own folder */
    assert_int_equal(symlink("a/link.ini", "far.ini"), 0);       /* a link to a link */
    snprintf(target, sizeof target, "%s/a/link.ini", folder);
    assert_int_equal(symlink(target, "absolute.ini"), 0);
    static const char *const links[] = {"a/link.ini", "far.ini", "absolute.ini"};
    for (size_t i = 0; i < 3; i++) {
        assert_saved(links[i], links[i]);
        assert_content("b/real.ini", links[i]);
        assert_int_equal(lstat(links[i], &about), 0);
        assert_true(S_ISLNK(about.st_mode));
    }
    assert_int_equal(mode_of("b/real.ini"), 0600);

    /* A link to a file that is not there yet makes it. */
    assert_int_equal(symlink("../b/new.ini", "a/dangling.ini"), 0);
    assert_saved("a/dangling.ini", "fresh");
    assert_content("b/new.ini", "fresh");
    assert_int_equal(lstat("a/dangling.ini", &about), 0);
    assert_true(S_ISLNK(about.st_mode));
    assert_int_equal(files_in("a"), 2);
    assert_int_equal(files_in("b"), 2);

    assert_int_equal(symlink("circle", "circle"), 0);
    assert_refused("circle", "circle: the file could not be written: Too many levels of symbolic links\n");
}

static void a_place_that_cannot_be_is_refused(void **state)
{
    (void)state;
    write_plainly("file", "old", 0644);
    assert_refused("none/plan.ini",
                   "none/plan.ini: the file could not be written: No such file or directory\n");
    assert_refused("file/plan.ini", "file/plan.ini: the file could not be written: Not a directory\n");
    assert_refused("", ": the file could not be written: No such file or directory\n");
    assert_int_equal(mkdir("sub", 0777), 0);
    assert_refused("sub", "sub: the file could not be written: Is a directory\n");
    assert_refused("sub/", "sub/: the file could not be written: Is a directory\n");
    assert_content("file", "old");
    assert_int_equal(files_in("."), 2);
    assert_int_equal(files_in("sub"), 0);
}

/* The device that is always full: Linux full(4). */
static void a_device_is_written_directly(void **state)
{
    (void)state;
    struct stat before, after;
    if (stat("/dev/full", &before) != 0)
        skip();
    assert_int_equal(symlink("/dev/full", "full"), 0);
    assert_refused("/dev/full", "/dev/full: the file could not be written: No space left on device\n");
    assert_refused("full", "full: the file could not be written: No space left on device\n");
    assert_int_equal(stat("/dev/full", &after), 0);
    assert_true(S_ISCHR(after.st_mode) && before.st_ino == after.st_ino);
    struct tc_faults faults = TC_FAULTS_EMPTY;
    assert_int_equal(tc_save("/dev/null", "x", 1, &faults), TC_OK);
}

/* Runs what a test wants as somebody for whom permissions count, in another process; true if it passed. */
static bool as_nobody(bool (*work)(void))
{
    pid_t child = fork();
    if (child == 0)
        _exit((geteuid() != 0 || (setgid(65534) == 0 && setuid(65534) == 0)) && work() ? 0 : 1);
    int status;
    return child > 0 && waitpid(child, &status, 0) == child && WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

static bool refused_for_permission(void)
{
    struct tc_faults faults = TC_FAULTS_EMPTY;
    bool good =
        tc_save("plan.ini", "new", 3, &faults) == TC_IO && tc_faults_count(&faults) == 1 &&
        strcmp(tc_faults_at(&faults, 0)->text, "the file could not be written: Permission denied") == 0;
    tc_faults_free(&faults);
    return good;
}

static void a_folder_that_cannot_be_written_is_refused(void **state)
{
    (void)state;
    write_plainly("plan.ini", "old", 0666);
    assert_int_equal(chmod(".", 0555), 0);
    assert_true(as_nobody(refused_for_permission));
    assert_content("plan.ini", "old");
    assert_int_equal(files_in("."), 1);
}

static void a_protected_file_is_not_replaced(void **state)
{
    (void)state;
    write_plainly("plan.ini", "old", 0444);
    assert_int_equal(chmod(".", 0777), 0); /* the folder alone would allow it */
    assert_true(as_nobody(refused_for_permission));
    assert_content("plan.ini", "old");
    assert_int_equal(files_in("."), 1);
}

/* A disk that fills up half-way: a limit on the size of files fails the second write. */
static void a_write_that_fails_half_way_leaves_the_old_file(void **state)
{
    (void)state;
    struct rlimit old, small;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    char *data = calloc(1, 100000);

    write_plainly("plan.ini", "old", 0644);
    assert_int_equal(getrlimit(RLIMIT_FSIZE, &old), 0);
    small = old;
    small.rlim_cur = 50000;
    void (*handler)(int) = signal(SIGXFSZ, SIG_IGN);
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &small), 0);
    enum tc_status status = tc_save("plan.ini", data, 100000, &faults);
    setrlimit(RLIMIT_FSIZE, &old);
    signal(SIGXFSZ, handler);
    free(data);

    assert_int_equal(status, TC_IO);
    assert_string_equal(tc_faults_at(&faults, 0)->text, "the file could not be written: File too large");
    tc_faults_free(&faults);
    assert_content("plan.ini", "old");
    assert_int_equal(files_in("."), 1);
}

/* Names taken by others are passed by. */
static void a_name_taken_is_passed_by(void **state)
{
    (void)state;
    char taken[64];
    snprintf(taken, sizeof taken, ".tankcost-%ld-0.tmp", (long)getpid());
    write_plainly(taken, "not ours", 0644);
    assert_saved("plan.ini", "new");
    assert_content(taken, "not ours");
    assert_int_equal(files_in("."), 2);
    for (int i = 1; i < 100; i++) {
        snprintf(taken, sizeof taken, ".tankcost-%ld-%d.tmp", (long)getpid(), i);
        write_plainly(taken, "not ours", 0644);
    }
    assert_refused("plan.ini", "plan.ini: the file could not be written: File exists\n");
    assert_content("plan.ini", "new");
}

/* The number of a process that is no more. */
static long ended_process(void)
{
    pid_t child = fork();
    if (child == 0)
        _exit(0);
    assert_true(child > 0 && waitpid(child, NULL, 0) == child);
    return (long)child;
}

/* Another process locks the file at path, as one does who writes it from another machine, until it is killed.
 */
static pid_t lock_elsewhere(const char *path)
{
    int ready[2];
    char byte;
    assert_int_equal(pipe(ready), 0);
    pid_t child = fork();
    if (child == 0) {
        struct flock whole = {.l_type = F_WRLCK, .l_whence = SEEK_SET};
        int file = open(path, O_WRONLY);
        if (fcntl(file, F_SETLK, &whole) != 0 || write(ready[1], "", 1) != 1)
            _exit(1);
        for (;;)
            pause();
    }
    close(ready[1]);
    assert_int_equal(read(ready[0], &byte, 1), 1);
    close(ready[0]);
    return child;
}

/* What a process left that was killed while it wrote goes with the next saving; nothing else does. */
static void what_the_killed_left_is_taken_away(void **state)
{
    (void)state;
    char name[64];
    long gone = ended_process();
    static const char *const kept[] = {
        ".tankcost-%ld-1.tmp.ini",
        ".tankcost-%ld.tmp",
        ".tankcost-%ld-.tmp",
        "tankcost-%ld-0.tmp",
        ".tankcost-0%ldx-0.tmp",
        ".tankcost--%ld-0.tmp",
        ".tankcost-999999999999999%ld-0.tmp",
    };
    enum { KEPT = sizeof kept / sizeof kept[0] };
    for (size_t i = 0; i < KEPT; i++) {
        snprintf(name, sizeof name, kept[i], gone);
        write_plainly(name, "not ours", 0644);
    }
    snprintf(name, sizeof name, ".tankcost-%ld-5.tmp", gone);
    assert_int_equal(mkdir(name, 0777), 0);
    snprintf(name, sizeof name, ".tankcost-%ld-0.tmp", (long)getpid());
    write_plainly(name, "of one that lives", 0644);
    snprintf(name, sizeof name, ".tankcost-%ld-0.tmp", gone);
    write_plainly(name, "half", 0644);
    snprintf(name, sizeof name, ".tankcost-%ld-12.tmp", gone);
    write_plainly(name, "half", 0600);
    pid_t child = lock_elsewhere(name);

    assert_saved("plan.ini", "new");
    assert_int_equal(files_in("."), KEPT + 1 + 1 + 1 + 1);
    assert_content(name, "half");

    kill(child, SIGKILL);
    assert_int_equal(waitpid(child, NULL, 0), child);
    assert_int_equal(mkdir("sub", 0777), 0);
    assert_saved("sub/plan.ini", "new"); /* only where something is saved */
    assert_int_equal(files_in("."), KEPT + 1 + 1 + 1 + 1 + 1);
    assert_saved("plan.ini", "newer");
    assert_int_equal(files_in("."), KEPT + 1 + 1 + 1 + 1);
    assert_int_equal(access(name, F_OK), -1);
}

static void running_out_of_memory_leaves_the_old_file(void **state)
{
    (void)state;
    assert_int_equal(mkdir("sub", 0777), 0);
    write_plainly("sub/plan.ini", "old", 0644);
    assert_int_equal(symlink("sub/plan.ini", "link"), 0);
    for (long n = 0;; n++) {
        struct tc_faults faults = TC_FAULTS_EMPTY;
        failing_malloc_start(n, false);
        enum tc_status status = tc_save("link", "new", 3, &faults);
        bool failed = failing_malloc_stop();
        tc_faults_free(&faults);
        assert_int_equal(files_in("sub"), 1);
        if (status == TC_OK) {
            /* The folder's name for the last sync is all that may be done without. */
            assert_content("sub/plan.ini", "new");
            if (!failed)
                break;
            write_plainly("sub/plan.ini", "old", 0644);
            continue;
        }
        assert_true(failed);
        assert_int_equal(status, TC_NO_MEMORY);
        assert_content("sub/plan.ini", "old");
    }
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, enter_folder, leave_folder)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(a_new_file_gets_what_umask_leaves),
        TEST(an_old_file_keeps_its_mode),
        TEST(an_old_file_keeps_its_owner_where_allowed),
        TEST(many_bytes_of_any_kind_are_kept),
        TEST(a_link_stays_and_its_target_is_written),
        TEST(a_place_that_cannot_be_is_refused),
        TEST(a_device_is_written_directly),
        TEST(a_folder_that_cannot_be_written_is_refused),
        TEST(a_protected_file_is_not_replaced),
        TEST(a_write_that_fails_half_way_leaves_the_old_file),
        TEST(a_name_taken_is_passed_by),
        TEST(what_the_killed_left_is_taken_away),
        TEST(running_out_of_memory_leaves_the_old_file),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
