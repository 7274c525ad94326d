/* SPDX-License-Identifier: MIT */
/* scratch.h - a folder of their own in which fuzz targets work, that nothing else is written to. */
#ifndef TC_TESTS_SCRATCH_H
#define TC_TESTS_SCRATCH_H

/*
 * The first time: makes an empty folder below $TMPDIR, goes into it for good, and has it removed
 * at the end. Later: empties it. Ends the program where that fails.
 */
void scratch_renew(void);

/* Where it is. */
const char *scratch_folder(void);

/* The path of a file or folder of the tree, wherever scratch_renew has gone since; static, at most 8 differ.
 */
const char *scratch_tree(const char *path);

#endif
