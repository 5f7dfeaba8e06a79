/* The four calls of mqtt_board.h that are the network, by sockets as POSIX has them. */
#ifndef SOCKETS_H
#define SOCKETS_H

#include "mqtt_board.h"

/* Which broker to connect to, an address or a name, and a port; the texts must stay. To be called first. A name is
 * looked up at each try, for which all else waits: give an address where that may take long. */
void sockets_begin(const char *broker, const char *port);

/* What may be waited on for something to arrive; -1 while there is no connection. */
int sockets_line(void);

#endif
