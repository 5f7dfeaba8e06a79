/* Lines that somebody types; see line.h. */
#include "line.h"

enum { WRONG = 3 };

enum line_end line_take(struct line *l, char c) {
  if (c == '\r' || c == '\n') {
    const uint8_t count = l->count;
    l->count = l->digit = 0;
    return count == 0 ? LINE_NONE : count == 2 ? LINE_WHOLE : LINE_WRONG;
  }
  if (c == ' ') {
    l->digit = 0;
  } else if (c < '0' || c > '9' || l->count == WRONG || (!l->digit && l->count == 2)) {
    l->count = WRONG;
  } else {
    uint16_t *number;
    if (!l->digit) l->numbers[l->count++] = 0;
    l->digit = 1;
    number = &l->numbers[l->count - 1];
    if (*number > 999) l->count = WRONG;
    else *number = (uint16_t)(10 * *number + (uint16_t)(c - '0'));
  }
  return LINE_NONE;
}
