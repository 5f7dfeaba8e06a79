/* Names every call of the reader, so that none is left out of the object code. */
#include "doublet_reader.h"
#include "doublet_reader.h"

struct calls {
  enum doublet_reason (*open)(struct doublet *, const uint8_t *, size_t, uint8_t *, size_t);
  uint16_t (*units)(const struct doublet *);
  uint32_t (*checksum)(const struct doublet *);
  void (*range)(const struct doublet *, uint8_t, uint16_t *, uint16_t *);
  uint16_t (*accessory)(struct doublet *, uint8_t, uint16_t, uint8_t, uint32_t);
  uint16_t (*extended)(struct doublet *, uint8_t, uint16_t, uint8_t, uint32_t);
  uint16_t (*packet)(struct doublet *, uint8_t, const uint8_t *, size_t, uint32_t);
#ifndef DOUBLET_NO_TOPICS
  uint16_t (*topic)(struct doublet *, uint8_t, const char *, size_t, const char *, size_t, uint32_t);
#endif
#ifndef DOUBLET_NO_EVENTS
  uint16_t (*event)(struct doublet *, uint8_t, uint64_t, uint32_t);
#endif
  void (*set_night)(struct doublet *, uint8_t);
  void (*set_test)(struct doublet *, uint8_t);
  size_t (*save)(const struct doublet *, uint8_t *, size_t);
  uint8_t (*restore)(struct doublet *, const uint8_t *, size_t);
#ifndef DOUBLET_NO_FRAMES
  uint8_t (*aspect)(struct doublet *, uint16_t, uint32_t);
  uint8_t (*set)(struct doublet *, uint16_t, uint8_t, uint32_t);
  void (*set_approach)(struct doublet *, uint16_t, uint8_t, uint32_t);
  void (*begin)(struct doublet_frame *, struct doublet *, uint8_t, uint32_t);
  uint8_t (*next)(struct doublet_frame *, uint8_t *);
  size_t (*leds)(struct doublet *, uint8_t, uint32_t, uint8_t *, size_t);
  uint16_t (*quiet)(const struct doublet_frame *);
#ifdef DOUBLET_SERVOS
  uint8_t (*channel)(const struct doublet *, uint8_t);
  uint16_t (*pulse)(struct doublet *, uint8_t, struct doublet_servo *, uint32_t);
#endif
#endif
#ifdef DOUBLET_WORDS
  const char *(*words)(enum doublet_reason);
#endif
};

extern const struct calls calls;
const struct calls calls = {doublet_open, doublet_units, doublet_checksum, doublet_range,
                            doublet_accessory, doublet_extended, doublet_packet,
#ifndef DOUBLET_NO_TOPICS
                            doublet_topic,
#endif
#ifndef DOUBLET_NO_EVENTS
                            doublet_event,
#endif
                            doublet_set_night, doublet_set_test, doublet_save, doublet_restore,
#ifndef DOUBLET_NO_FRAMES
                            doublet_aspect, doublet_set, doublet_set_approach, doublet_begin,
                            doublet_next, doublet_leds, doublet_quiet,
#ifdef DOUBLET_SERVOS
                            doublet_channel, doublet_pulse,
#endif
#endif
#ifdef DOUBLET_WORDS
                            doublet_reason_words,
#endif
};

/* On chips a frame is at most 32 bytes, 40 with levels and driver chips, and an open table at most 36. */
#if defined(DOUBLET_NO_LEVELS) && defined(DOUBLET_NO_CHIPS)
#define MOST_FRAME 32
#else
#define MOST_FRAME 40
#endif
#ifndef DOUBLET_NO_FRAMES
extern char frame_fits[sizeof(struct doublet_frame) <= MOST_FRAME || sizeof(void *) > 4 ? 1 : -1];
#endif
extern char table_fits[sizeof(struct doublet) <= 36 || sizeof(void *) > 4 ? 1 : -1];
