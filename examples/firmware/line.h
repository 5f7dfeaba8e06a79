/* Lines that somebody types to try a signal: its address and a value, as "17 3". */
#ifndef LINE_H
#define LINE_H

#include <stdint.h>

/* All zeros at the start. */
struct line {
  uint16_t numbers[2];
  uint8_t count; /* of numbers begun; 3 when the line is no command */
  uint8_t digit; /* 1 within a number */
};

enum line_end {
  LINE_NONE,   /* the line goes on, or was empty */
  LINE_WHOLE,  /* two numbers, each 0 to 9999 */
  LINE_WRONG
};

/* Takes a character. The numbers hold until the next one. */
enum line_end line_take(struct line *l, char c);

#endif
