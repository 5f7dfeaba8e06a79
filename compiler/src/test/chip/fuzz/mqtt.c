/*
 * The MQTT client of examples/firmware on bytes that a fuzzer makes up, for its sanitizers to watch. The first byte is
 * the client's room, which lies in a buffer of its exact size; the second says whether the connection is up before
 * the others arrive, and what is under way.
 */
#include <stdlib.h>
#include <string.h>

#include "mqtt.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  static const char *const filters[] = {"a/b", "c/#"};
  static const uint8_t qos[] = {0, 1}, accepted[] = {0x20, 2, 0, 0};
  struct mqtt m;
  uint8_t out[40], *room;
  size_t i;
  if (size < 2) return 0;
  room = malloc(data[0] + 2u);
  mqtt_begin(&m, room, (uint16_t)(data[0] + 2));
  for (i = 0; i < sizeof accepted && data[1] & 1; i++) mqtt_take(&m, accepted[i]);
  if (data[1] & 2) mqtt_subscribe(&m, filters, qos, 2, out, sizeof out);
  if (data[1] & 4) mqtt_publish(&m, "a", "b", 1, 1, 1, out, sizeof out);
  for (i = 2; i < size; i++) {
    const enum mqtt_event event = mqtt_take(&m, data[i]);
    if (event == MQTT_MESSAGE) {
      const uint8_t *const end = room + m.have;
      if (m.topic_length == 0 || memchr(m.topic, 0, m.topic_length) || memchr(m.topic, '#', m.topic_length)) abort();
      if (m.payload + m.payload_length != end) abort();
    }
    if (event != MQTT_BROKEN && m.broken && event != MQTT_REFUSED) abort();
    if (m.have > data[0] + 2u) abort();
  }
  free(room);
  return 0;
}
