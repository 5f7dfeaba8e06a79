package dev.doublet.diff;

import dev.doublet.rulebook.Colour;
import dev.doublet.rulebook.Cover;
import dev.doublet.rulebook.Expectation;
import dev.doublet.rulebook.Failures;
import dev.doublet.rulebook.Fault;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Numerals;
import dev.doublet.rulebook.Plate;
import dev.doublet.rulebook.Proviso;
import dev.doublet.rulebook.Rhythm;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * What changed of a rulebook.
 *
 * @param before the earlier version
 * @param after the later version
 * @param terms its old names in its new words
 * @param aspects its aspects then and now
 * @param events in no order
 */
record BookChanges(
    Rulebook before, Rulebook after, Terms terms, AspectPairs aspects, List<Event> events) {

  static BookChanges of(Rulebook before, Rulebook after) {
    Terms terms = Terms.of(before, after);
    AspectPairs aspects = AspectPairs.of(before, after, terms);
    List<Event> events = new ArrayList<>();
    events.addAll(AspectChanges.of(before, after, terms, aspects));
    events.addAll(PictureChanges.of(before, after, terms, aspects));
    terms.all().forEach((kind, names) -> events.addAll(renamed(kind, names)));
    events.addAll(declarations(before, after, terms));
    events.addAll(failures(before.failures(), after.failures(), aspects, terms));
    events.addAll(expectations(before, after, aspects, terms));
    events.addAll(acceptances(before, after));
    if (!before.unit().equals(after.unit())) {
      events.add(
          Event.of(
                  Sort.SPEED_UNIT_CHANGED,
                  Consequence.MORE,
                  Subject.whole("rulebook"),
                  "counts speeds in another unit")
              .from(before.unit(), after.unit()));
    }
    if (!before.numbers().words().equals(after.numbers().words())) {
      events.add(
          Event.of(
                  Sort.NUMBERS_CHANGED,
                  Consequence.MORE,
                  Subject.whole("rulebook"),
                  "has other numbers")
              .from(before.numbers().words(), after.numbers().words()));
    }
    editionKept(before, after, events).ifPresent(events::add);
    line("title", before.title(), after.title(), events);
    line("edition", edition(before), edition(after), events);
    line("date", before.effective(), after.effective(), events);
    return new BookChanges(before, after, terms, aspects, List.copyOf(events));
  }

  private static List<Event> renamed(String kind, Map<String, String> names) {
    List<Event> events = new ArrayList<>();
    names.forEach(
        (old, now) ->
            events.add(
                Event.of(
                        Sort.NAME_CHANGED,
                        Consequence.TEXT,
                        Subject.of(kind, now),
                        "has another name")
                    .from(old, now)
                    .because("compared as the same in all else")));
    return events;
  }

  private static List<Event> declarations(Rulebook before, Rulebook after, Terms terms) {
    List<Event> events = new ArrayList<>();
    compare(
        Sort.RHYTHM_CHANGED,
        Consequence.SEEN,
        "rhythm",
        named(before.rhythms(), r -> terms.rhythm(r.name()), BookChanges::words),
        named(after.rhythms(), Rhythm::name, BookChanges::words),
        events);
    compare(
        Sort.COLOUR_CHANGED,
        Consequence.SEEN,
        "colour",
        named(before.colours(), c -> terms.look(c.name()), Colour::published),
        named(after.colours(), Colour::name, Colour::published),
        events);
    compare(
        Sort.HEAD_CHANGED,
        Consequence.WORK,
        "head",
        named(before.heads(), h -> terms.head(h.name()), terms::make),
        named(after.heads(), HeadType::name, Terms.of(after, after)::make),
        events);
    compare(
        Sort.FORM_CHANGED,
        Consequence.WORK,
        "form",
        named(before.forms(), f -> terms.form(f.name()), BookChanges::words),
        named(after.forms(), Form::name, BookChanges::words),
        events);
    compare(
        Sort.PLATE_CHANGED,
        Consequence.WORK,
        "plate",
        named(before.plates(), p -> terms.plate(p.name()), BookChanges::words),
        named(after.plates(), Plate::name, BookChanges::words),
        events);
    if (!before.colourSet().equals(after.colourSet())) {
      events.add(
          Event.of(
                  Sort.COLOUR_CHANGED,
                  Consequence.SEEN,
                  Subject.whole("rulebook"),
                  "asks for colours of another published set")
              .from(before.colourSet(), after.colourSet()));
    }
    return events;
  }

  private static <T> Map<String, String> named(
      List<T> things, Function<T, String> name, Function<T, String> words) {
    Map<String, String> named = new TreeMap<>();
    things.forEach(thing -> named.put(name.apply(thing), words.apply(thing)));
    return named;
  }

  /**
   * What is there in one version alone is told by the looks and signals that have to do with it.
   */
  private static void compare(
      Sort sort,
      Consequence consequence,
      String kind,
      Map<String, String> before,
      Map<String, String> after,
      List<Event> events) {
    Set<String> names = new TreeSet<>(before.keySet());
    names.addAll(after.keySet());
    for (String name : names) {
      String was = before.get(name);
      String is = after.get(name);
      Subject subject = Subject.of(kind, name);
      if (was == null) {
        events.add(Event.of(sort, Consequence.TEXT, subject, "is new").from("", is));
      } else if (is == null) {
        events.add(Event.of(sort, Consequence.TEXT, subject, "is gone").from(was, ""));
      } else if (!was.equals(is)) {
        events.add(Event.of(sort, consequence, subject, "is something else").from(was, is));
      }
    }
  }

  private static String words(Rhythm rhythm) {
    return rhythm.perMinute()
        + " per minute, lit "
        + rhythm.litPercent()
        + " percent"
        + (rhythm.startsDark() ? ", starting dark" : "");
  }

  private static String words(Form form) {
    return form.mount().words()
        + " { "
        + form.places().stream()
            .map(p -> form.usuallyDark().contains(p) ? p + " usually dark" : p)
            .collect(Collectors.joining(", "))
        + " }"
        + (form.withoutStop() ? " without stop" : "");
  }

  private static String words(Plate plate) {
    return plate.withoutStop() ? "plate without stop" : "plate";
  }

  private static List<Event> failures(
      Failures before, Failures after, AspectPairs aspects, Terms terms) {
    List<Event> events = new ArrayList<>();
    Subject book = Subject.whole("rulebook");
    String was = renamed(before, aspects.names(), terms).reading();
    if (!was.equals(after.reading())) {
      events.add(
          Event.of(
                  Sort.FAILURE_RULE_CHANGED,
                  after.reading().equals(Failures.Imperfect.MOST_RESTRICTIVE.words())
                      ? Consequence.SEEN
                      : Consequence.MORE,
                  book,
                  "has crews read imperfect signals otherwise")
              .at("imperfect signals")
              .from(was, after.reading()));
    }
    sets(covers(before, terms), covers(after, null), "covers", Consequence.MORE, events);
    sets(
        before.errors().stream().map(Fault::words).toList(),
        after.errors().stream().map(Fault::words).toList(),
        "counts as errors",
        Consequence.TEXT,
        events);
    return events;
  }

  private static Failures renamed(Failures said, Map<String, String> names, Terms terms) {
    List<Proviso> provisos = new ArrayList<>();
    for (Proviso one : said.provisos()) {
      String aspect = names.getOrDefault(one.aspect(), one.aspect());
      List<String> looks = one.looks().stream().map(terms::look).toList();
      provisos.add(new Proviso(aspect, looks, one.alone(), one.span()));
    }
    return new Failures(provisos, said.imperfect(), said.covers(), said.errors());
  }

  private static void sets(
      List<String> before, List<String> after, String verb, Consequence ofNew, List<Event> events) {
    Set<String> gone = new TreeSet<>(before);
    gone.removeAll(after);
    Set<String> added = new TreeSet<>(after);
    added.removeAll(before);
    Subject book = Subject.whole("rulebook");
    gone.forEach(
        one ->
            events.add(
                Event.of(
                        Sort.FAILURE_RULE_CHANGED,
                        Consequence.TEXT,
                        book,
                        "no longer " + verb + " " + one)
                    .from(one, "")));
    added.forEach(
        one ->
            events.add(
                Event.of(Sort.FAILURE_RULE_CHANGED, ofNew, book, verb + " " + one).from("", one)));
  }

  private static List<String> covers(Failures failures, Terms termsOrNull) {
    List<String> words = new ArrayList<>();
    for (Cover cover : failures.covers()) {
      List<String> forms =
          cover.forms().stream()
              .map(f -> termsOrNull == null ? f.name() : termsOrNull.form(f.name()))
              .sorted()
              .toList();
      String on = forms.isEmpty() ? "" : " on " + String.join(", ", forms);
      String rest = on + " because \"" + cover.reason() + "\"";
      cover.faults().forEach(fault -> words.add(fault.words() + rest));
    }
    return words;
  }

  private static List<Event> expectations(
      Rulebook before, Rulebook after, AspectPairs aspects, Terms terms) {
    // What its letters are called changes nothing of what is expected.
    Map<String, String> names = aspects.names();
    names.entrySet().removeIf(e -> Numerals.plain(e.getKey()).equals(Numerals.plain(e.getValue())));
    List<String> are = after.expectations().stream().map(Expectation::words).toList();
    Map<String, String> plain = new TreeMap<>();
    are.forEach(words -> plain.put(Numerals.plain(words), words));
    List<String> were = new ArrayList<>();
    for (Expectation one : before.expectations()) {
      String words = renamed(one, names, terms);
      were.add(plain.getOrDefault(Numerals.plain(words), words));
    }
    return listed(Sort.EXPECTATION_CHANGED, "rulebook", "expects", were, are);
  }

  private static String renamed(Expectation said, Map<String, String> names, Terms terms) {
    if (said instanceof Expectation.Order order) {
      return new Expectation.Order(
              names.getOrDefault(order.first(), order.first()),
              order.standing(),
              names.getOrDefault(order.second(), order.second()),
              order.span())
          .words();
    }
    if (said instanceof Expectation.Precedence one) {
      return new Expectation.Precedence(
              names.getOrDefault(one.first(), one.first()),
              one.may(),
              names.getOrDefault(one.second(), one.second()),
              one.span())
          .words();
    }
    if (said instanceof Expectation.Allowed one) {
      return new Expectation.Allowed(
              names.getOrDefault(one.aspect(), one.aspect()), one.permission(), one.span())
          .words();
    }
    Expectation.Meaning meaning = (Expectation.Meaning) said;
    Form form = meaning.form();
    return new Expectation.Meaning(
            new Form(
                terms.form(form.name()),
                form.mount(),
                form.places(),
                form.withoutStop(),
                form.span()),
            terms.plates(meaning.plates()),
            meaning.pictures().stream().map(terms::choices).toList(),
            names.getOrDefault(meaning.aspect(), meaning.aspect()),
            meaning.span())
        .words();
  }

  private static List<Event> acceptances(Rulebook before, Rulebook after) {
    return listed(
        Sort.ACCEPTANCE_CHANGED,
        "rulebook",
        "accepts",
        before.acceptances().stream().map(Accepting::words).toList(),
        after.acceptances().stream().map(Accepting::words).toList());
  }

  /** What one of two lists says and the other does not. */
  static List<Event> listed(
      Sort sort, String kind, String verb, List<String> before, List<String> after) {
    List<Event> events = new ArrayList<>();
    Subject subject = Subject.whole(kind);
    for (String one : new TreeSet<>(before)) {
      if (!after.contains(one)) {
        events.add(
            Event.of(sort, Consequence.TEXT, subject, "no longer " + verb + " " + one)
                .from(one, ""));
      }
    }
    for (String one : new TreeSet<>(after)) {
      if (!before.contains(one)) {
        events.add(Event.of(sort, Consequence.TEXT, subject, verb + " " + one).from("", one));
      }
    }
    return events;
  }

  private static void line(String what, String was, String is, List<Event> events) {
    if (!was.equals(is)) {
      events.add(
          Event.of(
                  Sort.BOOK_LINE_CHANGED,
                  Consequence.TEXT,
                  Subject.whole("rulebook"),
                  "has another " + what)
              .at(what)
              .from(was, is));
    }
  }

  private static String edition(Rulebook book) {
    return book.edition() == 0 ? "" : Integer.toString(book.edition());
  }

  /** Tables and people know a book by its edition; one that says none promises nothing. */
  private static Optional<Event> editionKept(Rulebook before, Rulebook after, List<Event> events) {
    boolean kept = before.edition() == after.edition() && after.edition() > 0;
    return events.stream()
        .map(Event::consequence)
        .reduce(Consequence::or)
        .filter(worst -> kept && worst != Consequence.TEXT)
        .map(
            worst ->
                Event.of(
                        Sort.SAME_EDITION,
                        worst,
                        Subject.whole("rulebook"),
                        "means something else and is still edition " + after.edition())
                    .at("edition " + after.edition()));
  }
}
