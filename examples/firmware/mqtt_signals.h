/*
 * Signals on a board with a network: commands and new tables by MQTT, LEDs out. For NAME, the board's own name:
 *
 *   NAME/table      a whole table, as one retained message; it is kept, and shown from the next frame on
 *   NAME/state      retained: "installed CHECKSUM edition NUMBER offered CHECKSUM slot SLOT room BYTES reason WORDS",
 *                   "away" after mqtt_signals_end, or "lost", the last will
 *   NAME/shown/N    retained: the number of the aspect that unit N shows; the table's header numbers units
 *
 * A retained command is a replay of what was commanded last, and is obeyed like any other: showing an aspect twice
 * shows it once. While the broker is away, signals show what they last were told.
 */
#ifndef MQTT_SIGNALS_H
#define MQTT_SIGNALS_H

#include <stdint.h>

/* How a board is known to its broker; user and password may be NULL. The texts must stay. */
struct mqtt_names {
  const char *name; /* also the client identifier: 1 to 23 of 0-9, a-z, A-Z */
  const char *user, *password;
};

enum mqtt_begun {
  MQTT_BEGUN,
  MQTT_WRONG_NAME, /* empty or of more than 88 bytes: its topics would be cut, and one of them like another */
  MQTT_LONG_NAMES  /* twice the name, the user and the password have more than 223 bytes: no broker would hear of them */
};

/* Opens the newest table that is whole. Nothing else may be called unless it says MQTT_BEGUN. */
enum mqtt_begun mqtt_signals_begin(const struct mqtt_names *names);

/* Does what is due, without waiting but for the board's calls. Call it every few milliseconds. */
void mqtt_signals_go_on(void);

/* Says goodbye, before the board is switched off. */
void mqtt_signals_end(void);

#endif
