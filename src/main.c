/* SPDX-License-Identifier: MIT */
#include <stdio.h>

int main(void)
{
    return puts("tankcost " TC_VERSION) < 0;
}
