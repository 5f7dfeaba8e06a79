/*
 * A small MQTT 3.1.1 client: packets to be sent are written into a buffer of the caller's, and the bytes that arrive
 * are taken one by one. It sends and receives nothing by itself, keeps no time, and has no heap.
 *
 * It speaks clean sessions alone, QoS 0 and 1, and one PUBLISH of QoS 1 and one SUBSCRIBE under way at a time, which
 * is what a board needs that keeps no messages over a loss of power. It gives a connection up, as the standard wants
 * it, on all that a server must not send, and on packets over its buffer. Any payload is taken.
 *
 * Source: OASIS, MQTT Version 3.1.1 (2014), by section.
 */
#ifndef MQTT_H
#define MQTT_H

#include <stdint.h>

/* One connection. */
struct mqtt {
  uint8_t *packet;         /* the caller's room for what follows the length of a packet that arrives */
  uint16_t room;
  uint16_t have;           /* bytes of it that have arrived */
  uint32_t length;         /* bytes that it has */
  uint8_t first;           /* its first byte */
  uint8_t header;          /* bytes of its header that have arrived; over 4 when it is whole */
  uint8_t up;              /* 1 from an accepting CONNACK on */
  uint8_t broken;          /* 1 once the connection must be closed */
  uint8_t filters;         /* that SUBSCRIBE asked for */
  uint8_t awaiting;        /* 1 from PINGREQ to PINGRESP */
  uint16_t last;           /* packet identifier used last */
  uint16_t subscribing;    /* the identifier of the SUBSCRIBE under way; 0 when none is */
  uint16_t publishing;     /* the same of PUBLISH */
  /* A message, until the next byte is taken. */
  const char *topic;       /* not ended by a zero */
  const uint8_t *payload;
  uint16_t topic_length, payload_length;
  uint16_t identifier;     /* for mqtt_puback; 0 when none is due */
  uint8_t retained;        /* 1 when it was kept for new subscribers: a replay */
};

/* What a byte completed. */
enum mqtt_event {
  MQTT_NOTHING,
  MQTT_ACCEPTED,       /* the server took the connection */
  MQTT_REFUSED,        /* it did not; packet[1] says why: 1 to 5 */
  MQTT_SUBSCRIBED,
  MQTT_NOT_SUBSCRIBED, /* it refused one of the filters at least */
  MQTT_MESSAGE,        /* to be answered with mqtt_puback if it has an identifier */
  MQTT_PUBLISHED,      /* a PUBLISH of QoS 1 has arrived */
  MQTT_BROKEN          /* close the connection without a DISCONNECT */
};

/* What CONNECT says. Texts are UTF-8 and end with a zero; NULL for none. */
struct mqtt_hello {
  const char *id;      /* "": the server gives one */
  const char *will_topic, *will, *user, *password;
  uint16_t keep_alive; /* seconds; 0 for none */
};

/* A new connection, for which so much room is for the packets that arrive. */
void mqtt_begin(struct mqtt *m, uint8_t *packet, uint16_t room);

/* Takes a byte that arrived. */
enum mqtt_event mqtt_take(struct mqtt *m, uint8_t byte);

/*
 * Each writes a packet and returns its length, or 0 when it does not fit, or one like it is still under way. A will is
 * retained and of QoS 1. Filters of QoS 2 bring messages that break the connection.
 */
uint16_t mqtt_connect(const struct mqtt_hello *hello, uint8_t *out, uint16_t size);
uint16_t mqtt_subscribe(struct mqtt *m, const char *const *filters, const uint8_t *qos, uint8_t count, uint8_t *out,
                        uint16_t size);
uint16_t mqtt_publish(struct mqtt *m, const char *topic, const void *payload, uint16_t length, uint8_t qos,
                      uint8_t retain, uint8_t *out, uint16_t size);
uint16_t mqtt_puback(uint16_t identifier, uint8_t *out, uint16_t size);
uint16_t mqtt_ping(struct mqtt *m, uint8_t *out, uint16_t size);
uint16_t mqtt_disconnect(uint8_t *out, uint16_t size);

#endif
