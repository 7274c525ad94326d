/* SPDX-License-Identifier: MIT */
/* glpsol.h - the integer programming solver of GLPK (package glpk-utils), as a process. */
#ifndef TC_TESTS_GLPSOL_H
#define TC_TESTS_GLPSOL_H

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>

struct glpsol {
    char folder[64];
    char program[96];  /* the integer program, CPLEX LP format, written by the caller through `to` */
    char solution[96]; /* what glpsol writes */
    FILE *to;
};

enum glpsol_end { GLPSOL_OPTIMAL, GLPSOL_IMPOSSIBLE, GLPSOL_GAVE_UP, GLPSOL_FAILED };

/* Whether there is a glpsol to be run. */
bool glpsol_present(void);

/* A folder of its own for the files; false if that fails. glpsol_close removes it. */
bool glpsol_open(struct glpsol *g);
void glpsol_close(struct glpsol *g);

/* Opens g->to anew. */
bool glpsol_begin(struct glpsol *g);

/*
 * Solves what was written to g->to, for `seconds` at most. values, if not
 * NULL, gets the whole value of each of `count` variables, in the order of
 * the objective; process_seconds, if not NULL, the time of the whole process.
 */
enum glpsol_end glpsol_solve(struct glpsol *g, int seconds, int64_t *values, int count,
                             double *process_seconds);

/* The time glpsol takes to start and to read what was solved last. */
double glpsol_reading(struct glpsol *g);

#endif
