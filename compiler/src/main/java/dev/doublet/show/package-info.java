/**
 * A layout's page, alive: served to browsers on this machine, which hear of every change by
 * server-sent events (the HTML standard, "Server-sent events"). Depends on nothing of the compiler:
 * pages and findings come as texts. Used by the command line, which follows the files.
 *
 * <p><b>Who is let in.</b> Any page in any browser of this machine may send requests to a port of
 * it, and a name of a stranger's may be made to mean this machine. So the address holds a random
 * word, the {@code Host} has to be the address that was connected to, and an {@code Origin} the
 * page's own. The page itself holds no password and speaks to no broker.
 */
package dev.doublet.show;
