/* SPDX-License-Identifier: MIT */
#include "support/glpsol.h"

#include <fcntl.h>
#include <math.h>
#include <spawn.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

extern char **environ;

/* Runs glpsol with its output thrown away; the exit status, -1 if it could not be run. */
static int run(char *const *arguments)
{
    posix_spawn_file_actions_t actions;
    if (posix_spawn_file_actions_init(&actions) != 0)
        return -1;
    posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
    posix_spawn_file_actions_addopen(&actions, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
    pid_t child;
    int failed = posix_spawnp(&child, arguments[0], &actions, NULL, arguments, environ);
    posix_spawn_file_actions_destroy(&actions);
    int status;
    if (failed || waitpid(child, &status, 0) != child || !WIFEXITED(status))
        return -1;
    return WEXITSTATUS(status);
}

bool glpsol_present(void)
{
    char *arguments[] = {"glpsol", "--version", NULL};
    return run(arguments) == 0;
}

bool glpsol_open(struct glpsol *g)
{
    memset(g, 0, sizeof *g);
    const char *build = getenv("BUILD");
    snprintf(g->folder, sizeof g->folder, "%s/glpsol.XXXXXX", build && strlen(build) < 32 ? build : "/tmp");
    if (!mkdtemp(g->folder))
        return false;
    snprintf(g->program, sizeof g->program, "%s/program", g->folder);
    snprintf(g->solution, sizeof g->solution, "%s/solution", g->folder);
    return true;
}

void glpsol_close(struct glpsol *g)
{
    unlink(g->program);
    unlink(g->solution);
    rmdir(g->folder);
}

bool glpsol_begin(struct glpsol *g)
{
    g->to = fopen(g->program, "w");
    return g->to != NULL;
}

static enum glpsol_end read_solution(const char *path, int64_t *values, int count)
{
    FILE *from = fopen(path, "r");
    if (!from)
        return GLPSOL_FAILED;
    enum glpsol_end end = GLPSOL_FAILED;
    char line[200];
    while (fgets(line, sizeof line, from)) {
        if (strncmp(line, "s mip ", 6) == 0) {
            char *rest;
            strtol(line + 6, &rest, 10);
            strtol(rest, &rest, 10);
            char status = rest[0] ? rest[1] : ' ';
            end = status == 'o' ? GLPSOL_OPTIMAL : status == 'n' ? GLPSOL_IMPOSSIBLE : GLPSOL_GAVE_UP;
        } else if (line[0] == 'j' && values) {
            char *rest;
            long number = strtol(line + 1, &rest, 10);
            if (number >= 1 && number <= count)
                values[number - 1] = llround(strtod(rest, NULL));
        }
    }
    fclose(from);
    return end;
}

static double now(void)
{
    struct timespec time;
    clock_gettime(CLOCK_MONOTONIC, &time);
    return (double)time.tv_sec + 1e-9 * (double)time.tv_nsec;
}

enum glpsol_end glpsol_solve(struct glpsol *g, int seconds, int64_t *values, int count,
                             double *process_seconds)
{
    if (fclose(g->to) != 0)
        return GLPSOL_FAILED;
    unlink(g->solution);
    char limit[16];
    snprintf(limit, sizeof limit, "%d", seconds);
    char *arguments[] = {"glpsol", "--lp", g->program, "--tmlim", limit, "-w", g->solution, NULL};
    double start = now();
    int status = run(arguments);
    if (process_seconds)
        *process_seconds = now() - start;
    return status == 0 ? read_solution(g->solution, values, count) : GLPSOL_FAILED;
}

double glpsol_reading(struct glpsol *g)
{
    char *arguments[] = {"glpsol", "--lp", g->program, "--check", NULL};
    double start = now();
    run(arguments);
    return now() - start;
}
