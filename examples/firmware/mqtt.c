/* A small MQTT 3.1.1 client; see mqtt.h. */
#include "mqtt.h"

#include <string.h>

enum { CONNECT = 1, CONNACK, PUBLISH, PUBACK, SUBSCRIBE = 8, SUBACK, PINGREQ = 12, PINGRESP, DISCONNECT };

#define WILL 0x2C /* a will, QoS 1, retained (3.1.2.3) */
#define HEADER 5  /* more than the bytes of any header: it is whole */

/* ---- Packets that arrive ---- */

static uint16_t number(const uint8_t *p) { return (uint16_t)(p[0] << 8 | p[1]); }

/* 1 when bytes are UTF-8 without zeros and surrogates (1.5.3), and name a topic without wildcards (3.3.2.1). */
static uint8_t is_topic(const uint8_t *p, uint16_t length) {
  uint16_t i = 0;
  if (length == 0) return 0;
  while (i < length) {
    const uint8_t byte = p[i++];
    uint8_t more = 0;
    uint32_t point = byte, least = 0;
    if (byte == 0 || byte == '+' || byte == '#') return 0;
    if (byte >= 0x80) {
      if (byte >= 0xC2 && byte <= 0xDF) more = 1, point = byte & 0x1Fu, least = 0x80;
      else if ((byte & 0xF0) == 0xE0) more = 2, point = byte & 0x0Fu, least = 0x800;
      else if (byte >= 0xF0 && byte <= 0xF4) more = 3, point = byte & 0x07u, least = 0x10000;
      else return 0;
    }
    for (; more > 0; more--) {
      if (i == length || (p[i] & 0xC0) != 0x80) return 0;
      point = point << 6 | (p[i++] & 0x3Fu);
    }
    if (point < least || point > 0x10FFFF || (point >= 0xD800 && point <= 0xDFFF)) return 0;
  }
  return 1;
}

/* 1 when a server may send a packet that begins so, now. */
static uint8_t is_first(const struct mqtt *m, uint8_t first) {
  switch (first >> 4) {
    case CONNACK: return !m->up && first == 0x20;
    case PUBLISH: return m->up && (first & 6) < 4; /* no QoS 2, which was not asked for, nor 3 */
    case PUBACK: case SUBACK: case PINGRESP: return m->up && (first & 15) == 0;
    default: return 0;
  }
}

static enum mqtt_event broken(struct mqtt *m) {
  m->broken = 1;
  return MQTT_BROKEN;
}

static enum mqtt_event message(struct mqtt *m) {
  const uint8_t *p = m->packet;
  const uint16_t length = m->have, behind = m->first & 6 ? 4 : 2;
  if (length < behind) return broken(m);
  m->topic_length = number(p);
  if (m->topic_length > length - behind || !is_topic(p + 2, m->topic_length)) return broken(m);
  m->topic = (const char *)(p + 2);
  m->identifier = behind == 4 ? number(p + 2 + m->topic_length) : 0;
  if (behind == 4 && m->identifier == 0) return broken(m);
  m->payload = p + behind + m->topic_length;
  m->payload_length = (uint16_t)(length - behind - m->topic_length);
  m->retained = m->first & 1;
  return MQTT_MESSAGE;
}

static enum mqtt_event subscribed(struct mqtt *m) {
  enum mqtt_event event = MQTT_SUBSCRIBED;
  uint8_t i;
  if (m->subscribing == 0 || m->have != 2u + m->filters || number(m->packet) != m->subscribing) return broken(m);
  for (i = 0; i < m->filters; i++) {
    const uint8_t code = m->packet[2 + i];
    if (code == 0x80) event = MQTT_NOT_SUBSCRIBED;
    else if (code > 2) return broken(m);
  }
  m->subscribing = 0;
  return event;
}

/* A whole packet. */
static enum mqtt_event packet(struct mqtt *m) {
  const uint8_t *p = m->packet;
  m->header = 0;
  switch (m->first >> 4) {
    case CONNACK:
      /* No session is there, as none was kept (3.2.2.2); codes over 5 are reserved. */
      if (m->have != 2 || p[0] != 0 || p[1] > 5) return broken(m);
      m->up = p[1] == 0;
      if (m->up) return MQTT_ACCEPTED;
      m->broken = 1;
      return MQTT_REFUSED;
    case PUBLISH: return message(m);
    case PUBACK:
      if (m->have != 2) return broken(m);
      if (m->publishing == 0 || number(p) != m->publishing) return MQTT_NOTHING;
      m->publishing = 0;
      return MQTT_PUBLISHED;
    case SUBACK: return subscribed(m);
    default: /* PINGRESP */
      if (m->have != 0) return broken(m);
      m->awaiting = 0;
      return MQTT_NOTHING;
  }
}

void mqtt_begin(struct mqtt *m, uint8_t *room_for, uint16_t room) {
  memset(m, 0, sizeof *m);
  m->packet = room_for;
  m->room = room;
}

enum mqtt_event mqtt_take(struct mqtt *m, uint8_t byte) {
  if (m->broken) return MQTT_BROKEN;
  if (m->header == 0) {
    if (!is_first(m, byte)) return broken(m);
    m->first = byte;
    m->length = 0;
    m->have = 0;
    m->header = 1;
    return MQTT_NOTHING;
  }
  if (m->header < HEADER) {
    /* Seven bits a byte, the lowest first, and no fifth byte (2.2.3). */
    m->length |= (uint32_t)(byte & 0x7F) << (7 * (m->header - 1));
    m->header++;
    if (byte & 0x80) return m->header < HEADER ? MQTT_NOTHING : broken(m);
    if (m->length > m->room) return broken(m);
    m->header = HEADER;
  } else {
    m->packet[m->have++] = byte;
  }
  return m->have == m->length ? packet(m) : MQTT_NOTHING;
}

/* ---- Packets to be sent ---- */

/* Where the next byte goes; too many are counted and not written. */
struct ink {
  uint8_t *out;
  uint32_t size, used;
};

static void put(struct ink *ink, uint32_t byte) {
  if (ink->used < ink->size) ink->out[ink->used] = (uint8_t)byte;
  ink->used++;
}

static void put_number(struct ink *ink, uint32_t value) {
  put(ink, value >> 8);
  put(ink, value);
}

static void put_bytes(struct ink *ink, const void *bytes, size_t count) {
  const uint8_t *p = bytes;
  for (; count > 0; count--) put(ink, *p++);
}

/* A text with its length; 0 bytes for NULL. */
static uint32_t size_of(const char *text) { return text ? 2u + (uint32_t)strlen(text) : 0; }

static void put_text(struct ink *ink, const char *text) {
  if (!text) return;
  put_number(ink, (uint32_t)strlen(text));
  put_bytes(ink, text, strlen(text));
}

static struct ink begin(uint8_t first, uint32_t length, uint8_t *out, uint16_t size) {
  struct ink ink;
  ink.out = out;
  ink.size = size;
  ink.used = 0;
  put(&ink, first);
  do {
    put(&ink, (length & 0x7F) | (length > 0x7F ? 0x80u : 0));
    length >>= 7;
  } while (length > 0);
  return ink;
}

static uint16_t end(const struct ink *ink) { return ink->used > ink->size ? 0 : (uint16_t)ink->used; }

/* The next identifier, which is not 0 (2.3.1). */
static uint16_t next(const struct mqtt *m) { return m->last == 0xFFFF ? 1 : (uint16_t)(m->last + 1); }

uint16_t mqtt_connect(const struct mqtt_hello *hello, uint8_t *out, uint16_t size) {
  static const uint8_t name[] = {0, 4, 'M', 'Q', 'T', 'T', 4};
  const uint32_t length = 10 + size_of(hello->id) + size_of(hello->will_topic) + size_of(hello->will) +
                          size_of(hello->user) + size_of(hello->password);
  struct ink ink = begin(CONNECT << 4, length, out, size);
  put_bytes(&ink, name, sizeof name);
  put(&ink, 2u | (hello->will_topic ? WILL : 0u) | (hello->user ? 0x80u : 0) | (hello->password ? 0x40u : 0));
  put_number(&ink, hello->keep_alive);
  put_text(&ink, hello->id);
  put_text(&ink, hello->will_topic);
  put_text(&ink, hello->will);
  put_text(&ink, hello->user);
  put_text(&ink, hello->password);
  return end(&ink);
}

uint16_t mqtt_subscribe(struct mqtt *m, const char *const *filters, const uint8_t *qos, uint8_t count, uint8_t *out,
                        uint16_t size) {
  const uint16_t identifier = next(m);
  uint32_t length = 2;
  struct ink ink;
  uint8_t i;
  if (m->subscribing || count == 0) return 0;
  for (i = 0; i < count; i++) length += size_of(filters[i]) + 1;
  ink = begin(SUBSCRIBE << 4 | 2, length, out, size);
  put_number(&ink, identifier);
  for (i = 0; i < count; i++) {
    put_text(&ink, filters[i]);
    put(&ink, qos[i]);
  }
  if (end(&ink) == 0) return 0;
  m->subscribing = m->last = identifier;
  m->filters = count;
  return end(&ink);
}

uint16_t mqtt_publish(struct mqtt *m, const char *topic, const void *payload, uint16_t length, uint8_t qos,
                      uint8_t retain, uint8_t *out, uint16_t size) {
  const uint16_t identifier = next(m);
  struct ink ink;
  if (qos > 1 || (qos && m->publishing)) return 0;
  ink = begin((uint8_t)(PUBLISH << 4 | qos << 1 | (retain ? 1 : 0)), size_of(topic) + 2u * qos + length, out, size);
  put_text(&ink, topic);
  if (qos) put_number(&ink, identifier);
  put_bytes(&ink, payload, length);
  if (qos && end(&ink)) m->publishing = m->last = identifier;
  return end(&ink);
}

uint16_t mqtt_puback(uint16_t identifier, uint8_t *out, uint16_t size) {
  struct ink ink = begin(PUBACK << 4, 2, out, size);
  put_number(&ink, identifier);
  return end(&ink);
}

uint16_t mqtt_ping(struct mqtt *m, uint8_t *out, uint16_t size) {
  const struct ink ink = begin(PINGREQ << 4, 0, out, size);
  if (end(&ink)) m->awaiting = 1;
  return end(&ink);
}

uint16_t mqtt_disconnect(uint8_t *out, uint16_t size) {
  const struct ink ink = begin(DISCONNECT << 4, 0, out, size);
  return end(&ink);
}
