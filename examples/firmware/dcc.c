/* DCC packets from halves of bits; dcc.h says by which standards. */
#include "dcc.h"

enum { NEITHER, SHORT, LONG };

static uint8_t sort(uint16_t microseconds) {
  if (microseconds < 39 || microseconds > 10000) return NEITHER;
  return microseconds < 77 ? SHORT : LONG;
}

/* The length of the packet that an end bit closes, or 0 when it is none. The end bit may begin the next preamble. */
static uint8_t ended(struct dcc *d) {
  uint8_t sum = 0, i;
  d->inside = 0;
  for (i = 0; i < d->bytes; i++) sum ^= d->packet[i];
  if (sum != 0 || d->bytes < DCC_LEAST) return 0;
  d->ones = 1; /* those before it were the packet's */
  return d->bytes;
}

static uint8_t bit(struct dcc *d, uint8_t one) {
  const uint8_t ones = d->ones;
  d->ones = one ? (uint8_t)(ones + (ones < DCC_PREAMBLE)) : 0;
  if (!one && ones == DCC_PREAMBLE) {
    /* A packet has nine ones in a row at most: after ten a start bit is one also where an end bit was missed. */
    d->inside = 1;
    d->bytes = d->bits = 0;
  } else if (!d->inside) {
    return 0;
  } else if (d->bits < 8) {
    d->packet[d->bytes] = (uint8_t)(d->packet[d->bytes] << 1 | one);
    d->bits++;
  } else {
    d->bits = 0;
    d->bytes++;
    if (one) return ended(d);
    if (d->bytes == DCC_MOST) d->inside = 0; /* a seventh byte: no packet of ours, and no room */
  }
  return 0;
}

uint8_t dcc_half(struct dcc *d, uint16_t microseconds) {
  const uint8_t now = sort(microseconds), before = d->half;
  d->half = now;
  if (now == NEITHER) {
    d->inside = d->ones = 0;
    return 0;
  }
  if (before == NEITHER) return 0;
  if (now == before) {
    d->half = NEITHER;
    return bit(d, now == SHORT);
  }
  /*
   * Two halves of two sorts: they were paired wrongly, so the second begins a bit. In a preamble that is a matter of
   * where listening began, and a start bit after its ones is still one; anywhere else an edge was lost or made up.
   */
  if (d->inside || now == SHORT) d->inside = d->ones = 0;
  return 0;
}
