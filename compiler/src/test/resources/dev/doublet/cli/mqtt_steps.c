/*
 * The MQTT client by hand. Each line is a step: what is to be written is printed in hexadecimal, and of bytes taken
 * what they completed. "-" stands for no text, "=" for an empty one.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "mqtt.h"

static struct mqtt m;

static const char *text(const char *word) {
  if (!word || strcmp(word, "-") == 0) return NULL;
  return strcmp(word, "=") == 0 ? "" : word;
}

static void hex(const uint8_t *bytes, size_t count) {
  for (; count > 0; count--) printf("%02X", (unsigned)*bytes++);
}

static void tell(enum mqtt_event event) {
  switch (event) {
    case MQTT_NOTHING: break;
    case MQTT_ACCEPTED: printf("accepted;"); break;
    case MQTT_REFUSED: printf("refused %u;", (unsigned)m.packet[1]); break;
    case MQTT_SUBSCRIBED: printf("subscribed;"); break;
    case MQTT_NOT_SUBSCRIBED: printf("not subscribed;"); break;
    case MQTT_PUBLISHED: printf("published;"); break;
    case MQTT_BROKEN: printf("broken;"); break;
    case MQTT_MESSAGE:
      printf("%s %.*s ", m.retained ? "kept" : "live", (int)m.topic_length, m.topic);
      hex(m.payload, m.payload_length);
      printf(" %u;", (unsigned)m.identifier);
      break;
  }
}

static void take(const char *word) {
  for (; word && word[0] && word[1]; word += 2) {
    const char byte[3] = {word[0], word[1], 0};
    const uint8_t was = m.broken;
    const enum mqtt_event event = mqtt_take(&m, (uint8_t)strtoul(byte, NULL, 16));
    if (!was) tell(event);
  }
}

int main(void) {
  static char line[70000];
  static uint8_t out[300], *room;
  while (fgets(line, sizeof line, stdin)) {
    const char *words[16] = {0};
    uint16_t count = 0, length = 0;
    char *word = strtok(line, " \n");
    for (; word && count < 15; word = strtok(NULL, " \n")) words[count++] = word;
    if (count == 0) continue;
    if (strcmp(words[0], "begin") == 0) {
      const uint16_t size = (uint16_t)atoi(words[1]);
      free(room);
      room = malloc(size ? size : 1); /* of its exact size, so that a step outside is seen */
      mqtt_begin(&m, room, size);
    } else if (strcmp(words[0], "take") == 0) {
      take(words[1]);
    } else if (strcmp(words[0], "connect") == 0) {
      const struct mqtt_hello hello = {text(words[1]), text(words[3]), text(words[4]), text(words[5]),
                                       text(words[6]), (uint16_t)atoi(words[2])};
      length = mqtt_connect(&hello, out, sizeof out);
    } else if (strcmp(words[0], "subscribe") == 0) {
      const char *filters[7];
      uint8_t qos[7], i;
      for (i = 0; 2 * i + 2 < count; i++) {
        filters[i] = words[2 * i + 1];
        qos[i] = (uint8_t)atoi(words[2 * i + 2]);
      }
      length = mqtt_subscribe(&m, filters, qos, i, out, sizeof out);
    } else if (strcmp(words[0], "publish") == 0) {
      const char *payload = text(words[4]) ? text(words[4]) : "";
      length = mqtt_publish(&m, words[1], payload, (uint16_t)strlen(payload), (uint8_t)atoi(words[2]),
                            (uint8_t)atoi(words[3]), out, sizeof out);
    } else if (strcmp(words[0], "last") == 0) {
      m.last = (uint16_t)atoi(words[1]);
    } else if (strcmp(words[0], "puback") == 0) {
      length = mqtt_puback((uint16_t)atoi(words[1]), out, sizeof out);
    } else if (strcmp(words[0], "ping") == 0) {
      length = mqtt_ping(&m, out, sizeof out);
    } else if (strcmp(words[0], "disconnect") == 0) {
      length = mqtt_disconnect(out, sizeof out);
    }
    hex(out, length);
    putchar('\n');
  }
  free(room);
  return 0;
}
