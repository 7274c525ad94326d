/* SPDX-License-Identifier: MIT */
/*
 * comments.h - the comments of a profile, put back where they belong when the
 * profile is written again.
 */
#ifndef TC_PROFILE_COMMENTS_H
#define TC_PROFILE_COMMENTS_H

#include "core/base/text.h"

/*
 * Adds the profile `fresh` to text, with the comments of `old`, its text
 * before, each at the line it stood above or beside: the line of the same key
 * in the same section. A candidate's section is known by its tank, not by its
 * number; a plan's whatever its name. Comments on keys that are gone go to the
 * end of their section, those of sections that are gone to the end of the
 * profile: none is lost. What stands above the first section of old is no
 * comment on anything in it and left to the caller. Both are read as ini.h
 * does; old may be faulty. Lines end with LF.
 */
void tc_comments_carry(struct tc_text *text, const char *old, const char *fresh);

#endif
