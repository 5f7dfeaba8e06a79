/* Which table the firmware with MQTT starts with, and the room it has for later ones. */
#ifndef MQTT_TABLE_H
#define MQTT_TABLE_H

#define DOUBLET_WORDS
#include "doublet_reader.h"
#include "bank.h"

#define TABLE bank_table
#define TABLE_UNITS BANK_UNITS
#define TABLE_CHAINS BANK_CHAINS
#define TABLE_COMMANDS BANK_TOPICS_OF_BUS_HOUSE "/#" /* the topics that command signals */
#define TABLE_ROOM 4096u  /* bytes of the largest table */
#define UNIT_ROOM 256u    /* most units of a table */
#define CHAIN_ROOM 3u     /* chains that the board drives: a later table with more is refused */
#define LED_ROOM 3072u    /* most bytes of a chain: a later table with more is refused */

#endif
