package dev.doublet.diff;

import dev.doublet.diagnostic.Words;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Choice;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Numerals;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Reading;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/**
 * Pictures that meant one aspect and mean another: what nobody sees who reads the changes of either
 * aspect alone. Of a form with very many pictures, only those that signals put up are asked for.
 */
final class PictureChanges {
  private static final int MOST = 4_096;
  private static final int SHOWN = 3;

  private final Rulebook before;
  private final Rulebook after;
  private final Terms terms;
  private final Map<String, String> names;
  private final List<Event> events = new ArrayList<>();

  private record Move(String was, String is, List<String> plates) {}

  /** A picture in the words of each version. */
  private record Picture(List<Display> then, List<Display> now) {}

  private PictureChanges(Rulebook before, Rulebook after, Terms terms, AspectPairs pairs) {
    this.before = before;
    this.after = after;
    this.terms = terms;
    this.names = pairs.names();
  }

  static List<Event> of(Rulebook before, Rulebook after, Terms terms, AspectPairs pairs) {
    PictureChanges changes = new PictureChanges(before, after, terms, pairs);
    for (Form form : before.forms()) {
      after
          .form(terms.form(form.name()))
          .filter(f -> f.places().size() == form.places().size())
          .ifPresent(f -> changes.compare(form, f));
    }
    return changes.events;
  }

  private void compare(Form then, Form now) {
    List<Reading.Reads> were = Reading.on(before, then);
    List<Reading.Reads> are = Reading.on(after, now);
    Set<String> old = new LinkedHashSet<>();
    were.forEach(r -> old.add(line(name(r.aspect()), r.pattern(), terms)));
    Set<String> fresh = new LinkedHashSet<>();
    are.forEach(r -> fresh.add(line(r.aspect().name(), r.pattern(), null)));
    if (old.equals(fresh)) {
      return;
    }
    Map<Move, List<Picture>> moves = new LinkedHashMap<>();
    for (List<String> plates : plates(were, are)) {
      for (Picture picture : pictures(then.places().size(), were, are)) {
        Optional<Aspect> was = only(Reading.of(were, plates, picture.then()));
        Optional<Aspect> is = only(Reading.of(are, terms.plates(plates), picture.now()));
        if (was.isPresent() && is.isPresent() && !name(was.get()).equals(is.get().name())) {
          moves
              .computeIfAbsent(
                  new Move(was.get().name(), is.get().name(), terms.plates(plates)),
                  m -> new ArrayList<>())
              .add(picture);
        }
      }
    }
    Set<String> told = new TreeSet<>();
    moves.forEach(
        (move, pictures) -> {
          // Plates that change nothing are not told of again.
          if (told.add(move.was() + "\n" + move.is() + "\n" + pictures)) {
            events.add(event(then, now, move, pictures));
          }
        });
  }

  private Event event(Form then, Form now, Move move, List<Picture> pictures) {
    Aspect was = before.aspect(move.was()).orElseThrow();
    Aspect is = after.aspect(move.is()).orElseThrow();
    boolean more = !is.permission().permitsMoreThan(terms.permission(was.permission())).isEmpty();
    List<String> words = pictures.stream().map(p -> Display.over(p.now())).toList();
    String shown = String.join(" or ", words.subList(0, Math.min(SHOWN, words.size())));
    String rest = words.size() > SHOWN ? " and " + (words.size() - SHOWN) + " more" : "";
    String with =
        move.plates().isEmpty()
            ? ""
            : " with "
                + Words.list(move.plates())
                + " "
                + Words.plural(move.plates().size(), "plate");
    return Event.of(
            Sort.PICTURE_REASSIGNED,
            more ? Consequence.MORE : Consequence.SEEN,
            Subject.of("form", now.name()),
            "means another aspect when it shows " + shown + rest + with)
        .at(String.join(" or ", words) + with)
        .from('"' + move.was() + '"', '"' + move.is() + '"')
        .seen(
            new Sight(before, then, move.plates(), List.of(), pictures.get(0).then()),
            new Sight(after, now, move.plates(), List.of(), pictures.get(0).now()));
  }

  private String name(Aspect old) {
    String now = names.get(old.family());
    if (now == null) {
      return old.name() + " (gone)";
    }
    List<String> letters = Numerals.lettersOf(now);
    return letters.size() == old.numerals().letters().size()
        ? old.numerals().lettered(letters).in(now)
        : old.numerals().in(now);
  }

  private static String line(String aspect, Pattern pattern, Terms termsOrNull) {
    String words = termsOrNull == null ? pattern.words() : termsOrNull.words(pattern);
    return aspect + "\n" + AspectPairs.place(pattern, termsOrNull) + "\n" + words;
  }

  private static Optional<Aspect> only(List<Reading.Reads> reads) {
    List<Aspect> aspects = reads.stream().map(Reading.Reads::aspect).distinct().toList();
    return aspects.size() == 1 ? Optional.of(aspects.get(0)) : Optional.empty();
  }

  /** Every set of plates that some pattern asks for, and none, in the old words. */
  private Set<List<String>> plates(List<Reading.Reads> were, List<Reading.Reads> are) {
    Map<String, String> back = new LinkedHashMap<>();
    before.plates().forEach(p -> back.put(terms.plate(p.name()), p.name()));
    Set<List<String>> all = new LinkedHashSet<>();
    all.add(List.of());
    were.forEach(r -> all.add(r.pattern().plates()));
    are.stream()
        .map(r -> r.pattern().plates())
        .filter(back.keySet()::containsAll)
        .forEach(p -> all.add(p.stream().map(back::get).sorted().toList()));
    return all;
  }

  private List<Picture> pictures(int heads, List<Reading.Reads> were, List<Reading.Reads> are) {
    Map<String, String> looks = new LinkedHashMap<>();
    before.colours().forEach(c -> looks.put(terms.look(c.name()), c.name()));
    before
        .heads()
        .forEach(h -> h.figures().forEach(f -> looks.put(terms.look(f.name()), f.name())));
    looks.put(Display.DARK.look(), Display.DARK.look());
    Map<String, String> rhythms = new LinkedHashMap<>();
    before.rhythms().forEach(r -> rhythms.put(terms.rhythm(r.name()), r.name()));
    rhythms.put("", "");
    List<Set<Display>> named = new ArrayList<>();
    for (int head = 0; head < heads; head++) {
      Set<Display> here = new LinkedHashSet<>();
      here.add(Display.DARK);
      for (Reading.Reads reads : were) {
        here.addAll(reads.pattern().choices().get(head).displays());
      }
      for (Reading.Reads reads : are) {
        reads.pattern().choices().get(head).displays().stream()
            .filter(d -> looks.containsKey(d.look()) && rhythms.containsKey(d.rhythm()))
            .map(d -> new Display(looks.get(d.look()), rhythms.get(d.rhythm())))
            .forEach(here::add);
      }
      named.add(here);
    }
    Set<List<Display>> all = new LinkedHashSet<>();
    for (Reading.Reads reads : were) {
      add(all, reads.pattern().choices(), named);
    }
    return all.stream().map(p -> new Picture(p, terms.displays(p))).toList();
  }

  private static void add(Set<List<Display>> all, List<Choice> choices, List<Set<Display>> named) {
    long count = 1;
    for (int head = 0; head < choices.size(); head++) {
      count *=
          choices.get(head).isAny() ? named.get(head).size() : choices.get(head).displays().size();
    }
    if (count + all.size() > MOST) {
      all.add(choices.stream().map(Choice::shown).toList());
      return;
    }
    List<List<Display>> pictures = List.of(List.of());
    for (int head = 0; head < choices.size(); head++) {
      List<List<Display>> longer = new ArrayList<>();
      Iterable<Display> here =
          choices.get(head).isAny() ? named.get(head) : choices.get(head).displays();
      for (List<Display> start : pictures) {
        for (Display display : here) {
          List<Display> picture = new ArrayList<>(start);
          picture.add(display);
          longer.add(picture);
        }
      }
      pictures = longer;
    }
    all.addAll(pictures);
  }
}
