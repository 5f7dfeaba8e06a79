/* The machine that runs the tests. */
#include <stdio.h>
#include <stdlib.h>

#include "board.h"

void board_put(char c) { putchar(c); }

void board_stop(void) { exit(0); }
