/* Names every call of the reader, so that none is left out of the object code. */
#include "doublet_reader.h"
#include "doublet_reader.h"

struct calls {
  enum doublet_reason (*open)(struct doublet *, const uint8_t *, size_t, uint8_t *, size_t);
  uint16_t (*units)(const struct doublet *);
  uint8_t (*aspect)(const struct doublet *, uint16_t);
  uint16_t (*accessory)(const struct doublet *, uint8_t, uint16_t, uint8_t);
  uint16_t (*extended)(const struct doublet *, uint8_t, uint16_t, uint8_t);
  uint16_t (*packet)(const struct doublet *, uint8_t, const uint8_t *, size_t);
  uint16_t (*topic)(const struct doublet *, uint8_t, const char *, size_t, const char *, size_t);
  uint16_t (*event)(const struct doublet *, uint8_t, uint64_t);
  void (*set_night)(struct doublet *, uint8_t);
  void (*set_approach)(const struct doublet *, uint16_t, uint8_t);
  size_t (*leds)(const struct doublet *, uint8_t, uint32_t, uint8_t *, size_t);
};

extern const struct calls calls;
const struct calls calls = {doublet_open,     doublet_units,  doublet_aspect,
                            doublet_accessory, doublet_extended, doublet_packet,
                            doublet_topic,    doublet_event,  doublet_set_night,
                            doublet_set_approach, doublet_leds};
