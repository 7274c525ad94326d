/* SPDX-License-Identifier: MIT */
#include "profile/save.h"

#include <ctype.h>
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <signal.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "core/base/text.h"

/* As many links in a row as the kernel follows. */
#define LINK_MAX_FOLLOWED 40

/* All functions here return false with the reason in errno. */

bool tc_write_all(int file, const void *data, size_t length)
{
    const char *bytes = data;

    while (length > 0) {
        ssize_t n = write(file, bytes, length);
        if (n < 0 && errno == EINTR)
            continue;
        if (n < 0)
            return false;
        bytes += n;
        length -= (size_t)n;
    }
    return true;
}

/* The length of the folder part of path, with its last '/': 0 for a bare name. */
static size_t folder_length(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash == NULL ? 0 : (size_t)(slash - path) + 1;
}

/* Where the link at path leads to, as seen from where path is seen; owned by the caller. */
static char *link_target(const char *path, size_t size)
{
    /* Not all file systems tell the length of a link. */
    size_t room = (size > 0 ? size : 4095) + 1;
    char *link = malloc(room);
    struct tc_text target = TC_TEXT_EMPTY;

    if (link == NULL)
        return NULL;
    ssize_t length = readlink(path, link, room);
    if (length < 0 || (size_t)length >= room) {
        if (length >= 0)
            errno = ENAMETOOLONG; /* or it changed under our hands */
        free(link);
        return NULL;
    }
    link[length] = '\0';
    if (link[0] != '/')
        tc_text_add_bytes(&target, path, folder_length(path));
    tc_text_add(&target, link);
    free(link);
    return tc_text_take(&target);
}

/*
 * Follows path to the file it stands for, there or not, which the caller
 * owns. *about is that file's; *exists tells if there is one.
 */
static char *follow(const char *path, struct stat *about, bool *exists)
{
    char *at = strdup(path);

    *exists = false;
    for (int links = 0; at != NULL; links++) {
        if (lstat(at, about) != 0) {
            if (errno == ENOENT)
                return at;
            break;
        }
        if (!S_ISLNK(about->st_mode)) {
            *exists = true;
            return at;
        }
        if (links == LINK_MAX_FOLLOWED) {
            errno = ELOOP;
            break;
        }
        char *target = link_target(at, (size_t)about->st_size);
        free(at);
        at = target;
    }
    int why = errno;
    free(at);
    errno = why;
    return NULL;
}

/* ------------------------------------------------------------------ the file beside */

/* A file is written under such a name until it is whole: of the process that writes it, and a number. */
#define BESIDE_START ".tankcost-"
#define BESIDE_END   ".tmp"

/* Passes the digits at *at; their number, or -1 where there are none or too many. */
static long pass_digits(const char **at)
{
    long number = isdigit((unsigned char)**at) ? 0 : -1;
    for (; isdigit((unsigned char)**at); (*at)++)
        number = number < 0 || number >= INT_MAX / 10 ? -1 : number * 10 + (**at - '0');
    return number;
}

/* The process whose file beside another has this name; 0 for any other name. */
static pid_t writer_of(const char *name)
{
    if (strncmp(name, BESIDE_START, sizeof BESIDE_START - 1) != 0)
        return 0;
    name += sizeof BESIDE_START - 1;
    long process = pass_digits(&name);
    if (process <= 0 || *name++ != '-' || pass_digits(&name) < 0 || strcmp(name, BESIDE_END) != 0)
        return 0;
    return (pid_t)process;
}

/* The lock of who writes a file; false where another process has it, or the file system has none. */
static bool lock(int file)
{
    struct flock whole = {.l_type = F_WRLCK, .l_whence = SEEK_SET};
    return fcntl(file, F_SETLK, &whole) == 0;
}

/* Takes a file away whose writer is gone: it is no process of this machine, nor has one of another a lock on
 * it. */
static void sweep(int folder, const char *name)
{
    struct stat about;
    pid_t process = writer_of(name);

    if (process <= 0 || kill(process, 0) == 0 || errno != ESRCH)
        return;
    int file = openat(folder, name, O_WRONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC);
    if (file < 0)
        return;
    if (fstat(file, &about) == 0 && S_ISREG(about.st_mode) && about.st_uid == geteuid() && lock(file))
        unlinkat(folder, name, 0);
    close(file);
}

/* Takes away what was left in the folder of path by writers who were killed. */
static void sweep_folder(const char *path)
{
    struct tc_text name = TC_TEXT_EMPTY;
    tc_text_add_bytes(&name, path, folder_length(path));
    DIR *folder = name.failed ? NULL : opendir(name.length > 0 ? name.data : ".");
    tc_text_free(&name);
    if (folder == NULL)
        return;
    for (const struct dirent *entry; (entry = readdir(folder)) != NULL;)
        sweep(dirfd(folder), entry->d_name);
    closedir(folder);
}

/* Creates a file of a new name in the folder of path; its name, owned by the caller, or NULL. */
static char *create_beside(const char *path, mode_t mode, int *file)
{
    for (int attempt = 0; attempt < 100; attempt++) {
        struct tc_text text = TC_TEXT_EMPTY;
        tc_text_add_bytes(&text, path, folder_length(path));
        tc_text_addf(&text, BESIDE_START "%ld-%d" BESIDE_END, (long)getpid(), attempt);
        char *name = tc_text_take(&text);
        if (name == NULL) {
            errno = ENOMEM;
            return NULL;
        }
        /* Not mkstemp(): the kernel then applies umask, which could be asked for only by changing it. */
        *file = open(name, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, mode);
        if (*file >= 0) {
            (void)lock(*file); /* where it has no locks, nobody takes the file for left over either */
            return name;
        }
        free(name);
        if (errno != EEXIST)
            return NULL;
    }
    return NULL;
}

/* Gives the new file the permissions of the old one, and its owner where allowed. */
static bool take_over(int file, const struct stat *old)
{
    struct stat now;

    if (fstat(file, &now) != 0)
        return false;
    /* Keeping the owner is a courtesy of root's: where it is refused, the content still counts. */
    if ((now.st_uid != old->st_uid || now.st_gid != old->st_gid) &&
        fchown(file, old->st_uid, old->st_gid) != 0)
        errno = 0;
    return fchmod(file, old->st_mode & 0777) == 0;
}

/* Some file systems cannot sync and say so; nothing better can be had there. */
static bool sync_file(int file)
{
    return fsync(file) == 0 || errno == EINVAL || errno == ENOSYS || errno == ENOTSUP;
}

/* So that the new name is on the disk as well. Where that fails the file is in place all the same, and the
 * rest is left to the system.
 */
static void sync_folder(const char *path)
{
    struct tc_text folder = TC_TEXT_EMPTY;

    tc_text_add_bytes(&folder, path, folder_length(path));
    int file = folder.failed ? -1 : open(folder.length > 0 ? folder.data : ".", O_RDONLY | O_CLOEXEC);
    tc_text_free(&folder);
    if (file >= 0) {
        sync_file(file);
        close(file);
    }
}

/* close() reports what a network file system could not write. */
static bool close_after(int file, bool good)
{
    int why = errno;

    if (close(file) == 0 || errno == EINTR) {
        errno = why;
        return good;
    }
    if (!good)
        errno = why;
    return false;
}

/* Writes a file beside path and puts it in its place. */
static bool replace(const char *path, const struct stat *old, const void *data, size_t length)
{
    int file;
    sweep_folder(path); /* first: a full disk may have been what killed them */
    /* What will be as private as the old file must not be less so while it is written. */
    char *beside = create_beside(path, old == NULL ? 0666 : 0600, &file);

    if (beside == NULL)
        return false;
    bool good = tc_write_all(file, data, length) && (old == NULL || take_over(file, old)) && sync_file(file);
    good = close_after(file, good) && rename(beside, path) == 0;
    if (!good) {
        int why = errno;
        unlink(beside);
        errno = why;
    }
    free(beside);
    if (good)
        sync_folder(path);
    return good;
}

static bool write_directly(const char *path, const void *data, size_t length)
{
    int file = open(path, O_WRONLY | O_NOCTTY | O_CLOEXEC);

    return file >= 0 && close_after(file, tc_write_all(file, data, length));
}

enum tc_status tc_save(const char *path, const void *data, size_t length, struct tc_faults *faults)
{
    struct stat about;
    bool exists, good = false;
    /* A pipe, terminal or socket is opened by the name given: where a link in /dev leads need be no path. */
    bool device = stat(path, &about) == 0 && !S_ISREG(about.st_mode);
    char *target = device ? strdup(path) : follow(path, &about, &exists);

    if (target != NULL) {
        if (device || (exists && !S_ISREG(about.st_mode)))
            good = write_directly(target, data, length);
        else if (exists && faccessat(AT_FDCWD, target, W_OK, AT_EACCESS) != 0)
            good = false; /* the folder would let us replace it, but its owner protected it */
        else
            good = replace(target, exists ? &about : NULL, data, length);
    }
    int why = errno;
    free(target);
    if (good)
        return TC_OK;
    tc_faults_error(faults, (struct tc_place){path, 0, NULL, NULL}, "the file could not be written: %s",
                    strerror(why));
    return why == ENOMEM ? TC_NO_MEMORY : TC_IO;
}

bool tc_make_folders(const char *folder, struct tc_faults *faults)
{
    char *path = strdup(folder);
    bool good = path != NULL;

    for (size_t at = 1; good && at <= strlen(folder); at++) {
        if (folder[at] != '/' && folder[at] != '\0')
            continue;
        path[at] = '\0';
        good = mkdir(path, 0777) == 0 || errno == EEXIST;
        if (!good)
            tc_faults_error(faults, (struct tc_place){path, 0, NULL, NULL},
                            "the folder could not be made: %s", strerror(errno));
        path[at] = folder[at];
    }
    free(path);
    return good;
}

/* --------------------------------------------------------------------- reading */

/* A profile is far smaller; more is no profile, and nothing to hold in memory. */
#define LOADED_MAX ((size_t)64 << 20)

/* Adds what an open file holds; false, with errno, where that fails. */
static bool read_all(int file, struct tc_text *text)
{
    char piece[16384];

    for (;;) {
        ssize_t n = read(file, piece, sizeof piece);
        if (n < 0 && errno == EINTR)
            continue;
        if (n <= 0)
            return n == 0;
        tc_text_add_bytes(text, piece, (size_t)n);
        if (text->length > LOADED_MAX) {
            errno = EFBIG;
            return false;
        }
    }
}

/* The same of the file at path; *there is false where there is none with anything in it to be kept. */
static bool load(const char *path, struct tc_text *text, bool *there)
{
    struct stat about;

    *there = false;
    if (stat(path, &about) != 0)
        return errno == ENOENT;
    if (!S_ISREG(about.st_mode))
        return true;
    *there = true;
    int file = open(path, O_RDONLY | O_NOCTTY | O_CLOEXEC);
    if (file < 0)
        return false;
    bool good = read_all(file, text);
    int why = errno;
    close(file);
    errno = why;
    return good;
}

enum tc_status tc_load(const char *path, struct tc_text *text, bool *there, struct tc_faults *faults)
{
    if (!load(path, text, there)) {
        tc_faults_error(faults, (struct tc_place){path, 0, NULL, NULL},
                        "the file that is there could not be read, and is left as it is: %s",
                        strerror(errno));
        return TC_IO;
    }
    return text->failed ? TC_NO_MEMORY : TC_OK;
}

static struct tc_file_mark mark_of(const char *bytes, size_t length)
{
    struct tc_file_mark mark = {true, length, UINT64_C(0xcbf29ce484222325)};

    for (size_t i = 0; i < length; i++)
        mark.sum = (mark.sum ^ (unsigned char)bytes[i]) * UINT64_C(0x100000001b3);
    return mark;
}

struct tc_file_mark tc_mark_file(const char *path)
{
    struct tc_text text = TC_TEXT_EMPTY;
    struct tc_file_mark mark = {false, 0, 0};
    bool there;

    if (!load(path, &text, &there) || text.failed)
        mark.length = SIZE_MAX;
    else if (there)
        mark = mark_of(tc_text_string(&text), text.length);
    tc_text_free(&text);
    return mark;
}

bool tc_mark_equal(const struct tc_file_mark *a, const struct tc_file_mark *b)
{
    return a->there == b->there && a->length == b->length && a->sum == b->sum;
}

bool tc_path_lies_in(const char *path, const char *folder)
{
    size_t length = folder ? strlen(folder) : 0;
    return length > 0 && strncmp(path, folder, length) == 0 && path[length] == '/';
}
