package dev.doublet.diff;

import dev.doublet.bus.EventId;
import dev.doublet.diagnostic.Words;
import dev.doublet.layout.Answer;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Signal;
import dev.doublet.layout.State;
import dev.doublet.layout.Unit;
import dev.doublet.layout.Way;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * What the same command calls up then and now. What calls up nothing counts as what is shown then:
 * the most restrictive aspect, or whatever was there.
 */
final class AnswerChanges {
  private static final String STAYS = "whatever it showed";
  private static final String OTHER = "anything else";

  private final Terms terms;
  private final Map<String, String> aspects;
  private final BookChanges book;
  private final List<Event> events = new ArrayList<>();

  /** What a kind answers is worked out once for all its units with the same keys. */
  private final Map<List<Object>, List<Event>> known = new LinkedHashMap<>();

  /** What is shown: an aspect or a display, or the one before. */
  private record NamedState(String name, State stateOrNull, boolean atRest) {}

  private record Move(NamedState was, NamedState is) {}

  private AnswerChanges(BookChanges book) {
    this.book = book;
    this.terms = book.terms();
    this.aspects = book.aspects().names();
  }

  static List<Event> of(SignalPairs signals, BookChanges book) {
    AnswerChanges changes = new AnswerChanges(book);
    for (SignalPairs.Pair pair : signals.pairs()) {
      List<Unit> were = pair.before().signal().units();
      List<Unit> are = pair.after().signal().units();
      for (int i = 0; i < are.size() && were.size() == are.size(); i++) {
        changes.compare(pair, were.get(i), are.get(i));
      }
    }
    return LayoutChanges.gathered(changes.events);
  }

  private void compare(SignalPairs.Pair pair, Unit was, Unit is) {
    boolean byEvent = is.kind().way() instanceof Way.Event;
    List<Object> key =
        List.of(
            System.identityHashCode(was.kind()),
            System.identityHashCode(is.kind()),
            System.identityHashCode(pair.before().signal().build()),
            System.identityHashCode(pair.after().signal().build()),
            was.command().bus().aspectBits(),
            is.command().bus().aspectBits(),
            byEvent ? was.command().events() : List.of(),
            byEvent ? is.command().events() : List.of());
    known
        .computeIfAbsent(key, k -> changes(pair, was, is))
        .forEach(e -> events.add(e.of(List.of(is.name()))));
  }

  private List<Event> changes(SignalPairs.Pair pair, Unit was, Unit is) {
    List<Event> found = new ArrayList<>();
    NamedState started = rest(was.kind(), true);
    NamedState starts = rest(is.kind(), false);
    if (!started.name().equals(starts.name())) {
      found.add(
          event(pair, Sort.START_CHANGED, new Move(started, starts), "until the first command")
              .at("until the first command"));
    }
    if (!was.kind().way().getClass().equals(is.kind().way().getClass())) {
      return found;
    }
    boolean moved = was.kind().way() instanceof Way.Event && disjoint(was, is);
    Map<String, NamedState> before = shown(was, true, moved);
    Map<String, NamedState> after = shown(is, false, moved);
    Map<List<Object>, List<String>> keys = new LinkedHashMap<>();
    Map<List<Object>, Move> moves = new LinkedHashMap<>();
    Set<String> sent = new LinkedHashSet<>(before.keySet());
    sent.addAll(after.keySet());
    for (String key : sent) {
      NamedState old = before.getOrDefault(key, before.get(OTHER));
      NamedState now = after.getOrDefault(key, after.get(OTHER));
      // A value that one of the two cannot be sent at all is told with the bus or the way.
      if (old != null && now != null && !old.name().equals(now.name())) {
        List<Object> move = List.of(old.name(), now.name());
        keys.computeIfAbsent(move, m -> new ArrayList<>()).add(key);
        moves.put(move, new Move(old, now));
      }
    }
    moves.forEach(
        (move, one) -> {
          String values = values(keys.get(move));
          found.add(event(pair, Sort.ANSWER_CHANGED, one, "at " + values).at(values));
        });
    return found;
  }

  private static boolean disjoint(Unit was, Unit is) {
    return was.command().events().stream().noneMatch(is.command().events()::contains);
  }

  private static String values(List<String> keys) {
    boolean numbered = keys.stream().allMatch(key -> key.matches("[0-9]+"));
    return numbered
        ? Words.plural(keys.size(), "value")
            + " "
            + String.join(", ", Words.runs(keys.stream().map(Integer::valueOf).sorted().toList()))
        : keys.stream().collect(Collectors.joining(", "));
  }

  private Event event(SignalPairs.Pair pair, Sort sort, Move move, String at) {
    return Event.of(
            sort,
            permitsMore(move) ? Consequence.MORE : Consequence.SEEN,
            Subject.of("signal", ""),
            "shows something else " + at)
        .from(move.was().name(), move.is().name())
        .seen(
            sight(book.before(), pair.before().signal(), move.was()),
            sight(book.after(), pair.after().signal(), move.is()));
  }

  private static Sight sight(Rulebook version, Signal signal, NamedState shown) {
    return shown.stateOrNull() == null
        ? null
        : SignalChanges.sight(version, signal, shown.stateOrNull());
  }

  /** What was there before a command is unknown, and may be more than anything but the least. */
  private boolean permitsMore(Move move) {
    State was = move.was().stateOrNull();
    State is = move.is().stateOrNull();
    if (is == null || was == null) {
      return is == null || !move.is().atRest();
    }
    if (was.aspect().isEmpty() || is.aspect().isEmpty()) {
      return !move.is().atRest();
    }
    Aspect old = was.aspect().get();
    Aspect now = is.aspect().get();
    return !now.permission().permitsMoreThan(terms.permission(old.permission())).isEmpty();
  }

  private NamedState rest(Kind kind, boolean old) {
    State state = kind.states().get(kind.rest());
    return new NamedState(name(state, old), state, true);
  }

  private String name(State state, boolean old) {
    if (!old) {
      return state.name();
    }
    return state.aspect().isPresent()
        ? aspects.getOrDefault(state.name(), state.name())
        : Display.over(terms.displays(state.picture()));
  }

  /** What each thing that can be sent makes it show, by what is sent but for the address. */
  private Map<String, NamedState> shown(Unit unit, boolean old, boolean moved) {
    Kind kind = unit.kind();
    Map<String, NamedState> shown = new LinkedHashMap<>();
    boolean stays = kind.otherwise() == Kind.Otherwise.KEEP;
    NamedState nothing = stays ? new NamedState(STAYS, null, false) : rest(kind, old);
    int values = kind.way().values(unit.command().bus());
    for (int value = 0; value < values; value++) {
      shown.put(Integer.toString(value), nothing);
    }
    for (Answer answer : kind.answers()) {
      State state = kind.states().get(answer.state());
      String name = name(state, old);
      NamedState called = new NamedState(name, state, answer.state() == kind.rest());
      if (kind.way() instanceof Way.Topic topic) {
        shown.put(
            topic.byName() ? "payload " + state.name() : Integer.toString(answer.value()), called);
      } else if (kind.way() instanceof Way.Event) {
        String event = new EventId(unit.command().events().get(answer.state())).toString();
        shown.put(moved ? "the event of " + name : "event " + event, called);
      } else if (values == 0 || answer.value() < values) {
        shown.put(Integer.toString(answer.value()), called);
      }
    }
    if (kind.way() instanceof Way.Topic) {
      shown.put(OTHER, nothing);
    } else if (kind.way() instanceof Way.Event) {
      shown.put(OTHER, new NamedState(STAYS, null, false));
    }
    return shown;
  }
}
