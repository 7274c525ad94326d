/* SPDX-License-Identifier: MIT */
/*
 * energy_air.h - one air pump for all tanks of a candidate, or a pump for each
 */
#ifndef TC_SHEET_ENERGY_AIR_H
#define TC_SHEET_ENERGY_AIR_H

#include "core/base/status.h"
#include "sheet/sheet.h"
#include "sheet/study.h"

/* The rows of both ways, where several tanks have filters that run on air; none else. TC_NO_MEMORY,
 * TC_OVERFLOW. */
enum tc_status tc_energy_add_air(struct tc_sheet *sheet, const struct tc_study *study);

#endif
