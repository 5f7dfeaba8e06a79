package dev.doublet.show;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.function.Predicate;

/**
 * What pages are told, in the order in which it happened. A page that comes later is told the last
 * of each matter; one that comes back, what it missed of that.
 */
public final class Events {
  private static final int MOST_LISTENERS = 16;
  private static final int MOST_WAITING = 20_000;
  private static final int SECONDS_OF_SILENCE = 5;

  private final Map<String, Event> last = new LinkedHashMap<>();
  private final Deque<Listener> listeners = new ArrayDeque<>();
  private long number;
  private boolean closed;

  private record Event(long number, String name, String data) {
    /** As it travels; each line of the data is a field of its own. */
    String text() {
      StringBuilder text = new StringBuilder("id: " + number + "\nevent: " + name + "\n");
      data.lines().forEach(line -> text.append("data: ").append(line).append('\n'));
      return text.append(data.isEmpty() ? "data:\n\n" : "\n").toString();
    }
  }

  /** One page that listens. */
  static final class Listener {
    private static final Event END = new Event(0, "", "");

    private final LinkedBlockingQueue<Event> waiting = new LinkedBlockingQueue<>(MOST_WAITING);

    /** What to send next, after some silence a comment; empty when it is over. */
    Optional<String> next() throws InterruptedException {
      Event first = waiting.poll(SECONDS_OF_SILENCE, TimeUnit.SECONDS);
      if (first == null) {
        return Optional.of(": still here\n\n");
      }
      List<Event> events = new ArrayList<>(List.of(first));
      waiting.drainTo(events);
      if (events.contains(END)) {
        return Optional.empty();
      }
      StringBuilder text = new StringBuilder();
      events.forEach(event -> text.append(event.text()));
      return Optional.of(text.toString());
    }

    private boolean take(Event event) {
      return waiting.offer(event);
    }

    private void end() {
      waiting.clear();
      waiting.add(END);
    }
  }

  /** Tells every page something. */
  public void tell(String name, String matter, String data) {
    tell(name, matter, data, data);
  }

  /**
   * Tells every page something.
   *
   * @param name what sort of event it is
   * @param matter what it is about: of each the last is told to pages that come later
   * @param data for pages that listen
   * @param later the same for pages that come later
   */
  public synchronized void tell(String name, String matter, String data, String later) {
    number++;
    last.remove(matter);
    last.put(matter, new Event(number, name, later));
    Event event = new Event(number, name, data);
    for (Iterator<Listener> all = listeners.iterator(); all.hasNext(); ) {
      Listener listener = all.next();
      if (!listener.take(event)) {
        // A page that is so far behind comes back by itself, and begins with the last of all.
        listener.end();
        all.remove();
      }
    }
  }

  /** Forgets matters that are none any more. */
  synchronized void forget(Predicate<String> matters) {
    last.keySet().removeIf(matters);
  }

  /**
   * A page begins to listen. When too many do, the first of them is sent away.
   *
   * @param heard the number of the last event that it heard; 0 for none
   */
  synchronized Listener join(long heard) {
    Listener listener = new Listener();
    last.values().stream().filter(event -> event.number() > heard).forEach(listener::take);
    if (closed) {
      listener.end();
      return listener;
    }
    if (listeners.size() == MOST_LISTENERS) {
      listeners.remove().end();
    }
    listeners.add(listener);
    return listener;
  }

  /** A page listens no more. */
  synchronized void leave(Listener listener) {
    listeners.remove(listener);
  }

  /** Sends all away. */
  synchronized void close() {
    closed = true;
    listeners.forEach(Listener::end);
    listeners.clear();
  }
}
