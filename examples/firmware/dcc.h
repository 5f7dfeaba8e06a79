/*
 * DCC packets from the times between edges on the track, one half of a bit after another.
 *
 * Sources: NMRA S-9.1 (2020) for times, S-9.2 (2004) for packets and preambles, S-9.2.1 (2012) for lengths. A half
 * of a one is 52 to 64 us and one of a zero 90 to 10,000. What lies between is not said there. The line is drawn at
 * 77, which leaves 13 us to either side for a late or early edge, and halves under 39 are no bits: both our choice.
 */
#ifndef DCC_H
#define DCC_H

#include <stdint.h>

#define DCC_LEAST 3u      /* bytes of a packet, its check included */
#define DCC_MOST 6u
#define DCC_PREAMBLE 10u  /* whole ones: fewer must be refused, and twelve must do */

/* What has been heard. All zeros at the start. */
struct dcc {
  uint8_t packet[DCC_MOST]; /* whole when dcc_half says so, and until its next call */
  uint8_t half;             /* the sort of the first half of a bit; 0 between bits */
  uint8_t ones;             /* in a row, as many as a preamble needs */
  uint8_t inside;           /* 1 from the start bit to the end bit */
  uint8_t bytes;            /* whole ones of this packet */
  uint8_t bits;             /* of the byte under way */
};

/*
 * Takes the time between two edges, in microseconds; 0 is no half of a bit. Returns the length of the packet that
 * this half ends, its check included and right, or 0. A packet ends with the last edge of its end bit, as power may
 * go 26 us later.
 */
uint8_t dcc_half(struct dcc *d, uint16_t microseconds);

#endif
