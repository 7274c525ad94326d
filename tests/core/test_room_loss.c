/* SPDX-License-Identifier: MIT */
/* A room's loss by hand, its range, and the air it changes. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>

#include "core/physics/room_loss.h"
#include "support/near.h"

/* 4 x 3 m, 2.5 m high; two walls outdoors, 7 m, with 2 m2 of window; half a change of air an hour. */
static const struct tc_room_shape bedroom = {.length = 4,
                                             .width = 3,
                                             .height = 2.5,
                                             .outside = 7,
                                             .windows = 2,
                                             .build = TC_BUILD_MIDDLING,
                                             .air_change = 0.5 / 3600};

/*
 * By the sum of ISO 13789: 15.5 m2 of wall at 0.6, 2 m2 of window at 2.8, 0.34 x 0.5 x 30 m3 of air (EN
 * 12831), and half of 17.5 m2 of inner wall, floor and ceiling of 12 m2 each at 1.3.
 */
static void a_bedroom_by_hand(void **state)
{
    (void)state;
    struct tc_room_loss loss;
    assert_int_equal(tc_room_loss_estimate(&bedroom, &loss), TC_OK);
    assert_near(loss.walls, 15.5 * 0.6, 1e-9);
    assert_near(loss.windows, 5.6, 1e-9);
    assert_near(loss.air, 5.1, 1e-9);
    assert_near(loss.inside, 41.5 * 1.3 / 2, 1e-9);
    assert_near(loss.roof, 0, 0);
    assert_near(loss.likely, 9.3 + 5.6 + 5.1 + 26.975, 1e-9);
    assert_near(loss.low, 15.5 * 0.45 + 4 + 0.6 * 5.1 + 41.5 * 1.3 / 4, 1e-9);
    assert_near(loss.high, 15.5 * 1 + 6 + 1.5 * 5.1 + 41.5 * 1.3, 1e-9);
    assert_near(tc_room_volume(&bedroom), 30, 1e-12);
}

/* What is worse built, larger or airier loses more; a roof takes a ceiling's place. */
static void more_of_everything_loses_more(void **state)
{
    (void)state;
    struct tc_room_loss before, after;
    double likely = 1e9;
    for (int build = 0; build < TC_BUILD_COUNT; build++) {
        struct tc_room_shape shape = bedroom;
        shape.build = (enum tc_room_build)build;
        assert_int_equal(tc_room_loss_estimate(&shape, &after), TC_OK);
        assert_true(after.likely < likely && after.low < after.likely && after.likely < after.high);
        likely = after.likely;
    }
    assert_int_equal(tc_room_loss_estimate(&bedroom, &before), TC_OK);
    struct tc_room_shape shape = bedroom;
    shape.air_change *= 2;
    assert_int_equal(tc_room_loss_estimate(&shape, &after), TC_OK);
    assert_near(after.likely - before.likely, 5.1, 1e-9);
    shape = bedroom;
    shape.roof = true;
    assert_int_equal(tc_room_loss_estimate(&shape, &after), TC_OK);
    assert_near(after.roof, 12 * 0.4, 1e-9);
    assert_near(before.inside - after.inside, 12 * 1.3 / 2, 1e-9);
}

static void rooms_that_cannot_be_are_refused(void **state)
{
    (void)state;
    struct tc_room_loss loss;
    struct tc_room_shape shape = bedroom;
    shape.outside = 14.1;
    assert_int_equal(tc_room_loss_estimate(&shape, &loss), TC_RANGE);
    shape = bedroom;
    shape.windows = 17.6;
    assert_int_equal(tc_room_loss_estimate(&shape, &loss), TC_RANGE);
    shape = bedroom;
    shape.height = NAN;
    assert_int_equal(tc_room_loss_estimate(&shape, &loss), TC_RANGE);
    shape = bedroom;
    shape.air_change = -1;
    assert_int_equal(tc_room_loss_estimate(&shape, &loss), TC_RANGE);
    shape = bedroom;
    shape.build = TC_BUILD_COUNT;
    assert_int_equal(tc_room_loss_estimate(&shape, &loss), TC_RANGE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_bedroom_by_hand),
        cmocka_unit_test(more_of_everything_loses_more),
        cmocka_unit_test(rooms_that_cannot_be_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
