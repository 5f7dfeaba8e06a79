package dev.doublet.diff;

import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Choice;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Permission;
import dev.doublet.rulebook.Permission.Place;
import dev.doublet.rulebook.Permission.Standing;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.rulebook.Speed;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;

/** What changed of the aspects of a rulebook. */
final class AspectChanges {
  private final Rulebook before;
  private final Rulebook after;
  private final Terms terms;
  private final List<Event> events = new ArrayList<>();

  private AspectChanges(Rulebook before, Rulebook after, Terms terms) {
    this.before = before;
    this.after = after;
    this.terms = terms;
  }

  static List<Event> of(Rulebook before, Rulebook after, Terms terms, AspectPairs pairs) {
    AspectChanges changes = new AspectChanges(before, after, terms);
    pairs.gone().forEach(changes::gone);
    pairs.added().forEach(changes::added);
    pairs.pairs().forEach(changes::compare);
    return changes.events;
  }

  private void gone(Aspect aspect) {
    events.add(
        Event.of(Sort.ASPECT_GONE, Consequence.SEEN, subject(aspect), "is gone")
            .from("allows " + aspect.permission().words(), "")
            .seen(sight(before, aspect.patterns()), null));
  }

  private void added(Aspect aspect) {
    events.add(
        Event.of(Sort.ASPECT_ADDED, Consequence.SEEN, subject(aspect), "is new")
            .from("", "allows " + aspect.permission().words())
            .seen(null, sight(after, aspect.patterns())));
  }

  private void compare(AspectPairs.Pair pair) {
    Aspect old = pair.then();
    Aspect now = pair.after();
    String then = pair.before().name();
    if (!then.equals(now.name())) {
      events.add(
          Event.of(Sort.ASPECT_RENAMED, Consequence.TEXT, subject(now), "has another name")
              .from(then, now.name())
              .because(pair.how()));
    }
    permission(old, now);
    looks(old, now);
    numbers(old, now);
    words(Sort.RULE_CHANGED, now, "is under another rule", old.rule(), now.rule());
    words(
        Sort.INDICATION_CHANGED, now, "has another indication", old.indication(), now.indication());
  }

  private void words(Sort sort, Aspect now, String said, String was, String is) {
    if (!was.equals(is)) {
      events.add(Event.of(sort, Consequence.TEXT, subject(now), said).from(was, is));
    }
  }

  /** Of an aspect of many numbers each has its own, which another before it may move. */
  private void numbers(Aspect old, Aspect now) {
    Map<List<Integer>, Integer> were = new LinkedHashMap<>();
    old.each().forEach(a -> were.put(a.numerals().shown(), a.number()));
    List<String> was = new ArrayList<>();
    List<String> is = new ArrayList<>();
    for (Aspect one : now.each()) {
      Integer before = were.get(one.numerals().shown());
      if (now.numerals().isOpen() && before != null && before != one.number()) {
        was.add("\"" + one.name() + "\" " + before);
        is.add("\"" + one.name() + "\" " + one.number());
      }
    }
    if (was.isEmpty() && old.number() != now.number()) {
      was.add(number(old));
      is.add(number(now));
    }
    if (!was.isEmpty()) {
      events.add(
          Event.of(Sort.NUMBER_CHANGED, Consequence.WORK, subject(now), "has another number")
              .from(String.join(", ", was), String.join(", ", is)));
    }
  }

  private static String number(Aspect aspect) {
    return aspect.number() == Aspect.NO_NUMBER ? "" : Integer.toString(aspect.number());
  }

  private void permission(Aspect old, Aspect now) {
    Permission was = terms.permission(old.permission());
    Permission is = now.permission();
    Standing standing = is.against(was);
    Set<Place> more = is.permitsMoreThan(was);
    if (standing == Standing.SAME && more.isEmpty()) {
      return;
    }
    Event event;
    if (!more.isEmpty() || standing == Standing.LESS_RESTRICTIVE) {
      String where = more.stream().map(Place::words).collect(Collectors.joining(" and "));
      event =
          Event.of(
                  Sort.PERMITS_MORE,
                  Consequence.MORE,
                  subject(now),
                  where.isEmpty() ? "permits more" : "permits more " + where)
              .at(where);
    } else if (standing == Standing.MORE_RESTRICTIVE) {
      event = Event.of(Sort.PERMITS_LESS, Consequence.SEEN, subject(now), "permits less");
    } else {
      event =
          Event.of(
              Sort.PERMITS_OTHERWISE,
              Consequence.MORE,
              subject(now),
              "permits something else, in no known order to what it did");
    }
    String then = old.permission().words();
    boolean sameWords = was.words().equals(is.words());
    events.add(
        event.from(
            sameWords ? then + speeds(old.permission(), before) : then,
            sameWords ? is.words() + speeds(is, after) : is.words()));
  }

  /** Where the words are the same, it is their speeds that changed. */
  private static String speeds(Permission permission, Rulebook book) {
    List<String> used = List.of(permission.words().split("[ ,]+"));
    return book.speeds().stream()
        .filter(s -> used.contains(s.name()))
        .map(AspectChanges::words)
        .collect(
            Collectors.collectingAndThen(
                Collectors.joining(", "),
                named ->
                    named.isEmpty()
                        ? " (" + book.numbers().words() + ")"
                        : " (" + named + " " + book.unit() + ")"));
  }

  private static String words(Speed speed) {
    String figure =
        speed.rank() == Speed.Rank.FIGURE
            ? Integer.toString(speed.figure())
            : speed.rank().name().toLowerCase(Locale.ROOT);
    return speed.name() + " " + figure + (speed.onSight() ? " on sight" : "");
  }

  private void looks(Aspect old, Aspect now) {
    Map<String, List<String>> were = AspectPairs.looks(old, terms);
    Map<String, List<String>> are = AspectPairs.looks(now, null);
    Set<String> places = new TreeSet<>(were.keySet());
    places.addAll(are.keySet());
    for (String place : places) {
      List<String> was = were.getOrDefault(place, List.of());
      List<String> is = are.getOrDefault(place, List.of());
      List<Pattern> then = patterns(old, place, terms);
      List<Pattern> fresh = patterns(now, place, null);
      if (!was.equals(is) && !saidAlike(then, fresh)) {
        events.add(look(now, place, was, is, then, fresh));
      }
    }
  }

  /** True when only heads that are usually dark came or went: that is told of their form. */
  private boolean saidAlike(List<Pattern> then, List<Pattern> now) {
    List<Form> were = then.stream().map(Pattern::form).distinct().toList();
    List<Form> are = now.stream().map(Pattern::form).distinct().toList();
    return then.stream()
            .map(p -> terms.choices(p.said()).stream().map(Choice::words).toList())
            .toList()
            .equals(now.stream().map(p -> p.said().stream().map(Choice::words).toList()).toList())
        && were.stream().allMatch(was -> are.stream().allMatch(is -> isWithDarkHeads(was, is)));
  }

  /** True when one form is the other with more heads that are usually dark. */
  private static boolean isWithDarkHeads(Form one, Form other) {
    List<String> shared = one.places().stream().filter(other.places()::contains).toList();
    return lit(one).equals(lit(other))
        && (shared.equals(one.places()) || shared.equals(other.places()));
  }

  private static List<String> lit(Form form) {
    return form.places().stream().filter(p -> !form.usuallyDark().contains(p)).toList();
  }

  private Event look(
      Aspect now,
      String place,
      List<String> was,
      List<String> is,
      List<Pattern> old,
      List<Pattern> fresh) {
    Sort sort = was.isEmpty() ? Sort.LOOK_ADDED : is.isEmpty() ? Sort.LOOK_GONE : Sort.LOOK_CHANGED;
    String said =
        was.isEmpty()
            ? "is shown on " + place + " too"
            : is.isEmpty() ? "is no longer shown on " + place : "looks different on " + place;
    return Event.of(sort, Consequence.SEEN, subject(now), said)
        .at(place)
        .from(String.join(" or ", was), String.join(" or ", is))
        .seen(sight(before, old), sight(after, fresh));
  }

  private static List<Pattern> patterns(Aspect aspect, String place, Terms termsOrNull) {
    return aspect.patterns().stream()
        .filter(p -> AspectPairs.place(p, termsOrNull).equals(place))
        .toList();
  }

  private static Sight sight(Rulebook book, List<Pattern> patterns) {
    return patterns.isEmpty() ? null : Sight.of(book, patterns.get(0));
  }

  private static Subject subject(Aspect aspect) {
    return Subject.of("aspect", aspect.name());
  }
}
