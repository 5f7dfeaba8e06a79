package dev.doublet.rulebook;

import dev.doublet.diagnostic.Acceptance;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;

/** Writes rulebooks down in the language, in as many layouts as it allows. */
final class Handwriting {
  private final Random random;

  Handwriting(long start) {
    this.random = new Random(start);
  }

  /** The declarations of a rulebook, each as its words, in a random order. */
  List<List<String>> declarations(Rulebook book) {
    List<List<String>> all = new ArrayList<>();
    List<String> first = new ArrayList<>(List.of("rulebook", quoted(book.title())));
    List<List<String>> facts = new ArrayList<>();
    if (book.edition() > 0 || random.nextBoolean()) {
      facts.add(List.of("edition", Integer.toString(book.edition())));
    }
    if (!book.effective().isEmpty()) {
      facts.add(List.of("effective", book.effective()));
    }
    shuffled(facts).forEach(first::addAll);
    all.add(first);
    book.speeds().forEach(s -> all.add(block(List.of("speeds", "in", book.unit()), words(s))));
    List<List<String>> colours = book.colours().stream().map(Handwriting::words).toList();
    List<String> block =
        book.colourSet().isEmpty()
            ? List.of("colours")
            : List.of("colours", "as", book.colourSet());
    all.add(block(block, commas(shuffled(colours))));
    List<List<String>> rhythms = book.rhythms().stream().map(this::words).toList();
    all.add(block(List.of("rhythms"), commas(shuffled(rhythms))));
    book.heads().forEach(h -> all.add(words(h)));
    book.forms().forEach(f -> all.add(words(f)));
    book.plates()
        .forEach(
            p ->
                all.add(
                    p.withoutStop()
                        ? List.of("plate", p.name(), "without", "stop")
                        : List.of("plate", p.name())));
    book.aspects().forEach(a -> all.add(words(a, book)));
    all.addAll(declarations(book.failures()));
    book.expectations().forEach(e -> all.add(words(e)));
    book.acceptances().forEach(a -> all.add(words(a, book)));
    return shuffled(all);
  }

  private List<String> words(Expectation expectation) {
    List<String> words = new ArrayList<>(List.of("expect"));
    if (expectation instanceof Expectation.Meaning meaning) {
      for (List<Choice> picture : meaning.pictures()) {
        words.addAll(displays(picture, meaning.form()));
        words.add("or");
      }
      words.set(words.size() - 1, "on");
      words.add(meaning.form().name());
      words.addAll(with(meaning.plates()));
      words.add("means");
      words.add(meaning.aspect().isEmpty() ? "nothing" : quoted(meaning.aspect()));
    } else if (expectation instanceof Expectation.Order order) {
      boolean unknown = order.standing() == Permission.Standing.UNKNOWN;
      words.add(quoted(order.first()));
      words.addAll(unknown ? List.of("and", quoted(order.second())) : List.of());
      words.addAll(List.of(order.standing().words().split(" ")));
      words.addAll(unknown ? List.of() : List.of("than", quoted(order.second())));
    } else if (expectation instanceof Expectation.Precedence precedence) {
      boolean turned = precedence.first().length() % 2 == 1;
      words.add(quoted(turned ? precedence.second() : precedence.first()));
      words.addAll(precedence.may() ? List.of() : List.of("not"));
      words.add(turned ? "after" : "before");
      words.add(quoted(turned ? precedence.first() : precedence.second()));
    } else if (expectation instanceof Expectation.Allowed allowed) {
      words.add(quoted(allowed.aspect()));
      words.add("allows");
      words.addAll(List.of(allowed.permission().words().replace(",", " ,").split(" ")));
    }
    return words;
  }

  private List<String> words(Acceptance acceptance, Rulebook book) {
    List<String> words = new ArrayList<>(List.of("accept", acceptance.check(), "of"));
    List<String> forms = new ArrayList<>(acceptance.of());
    forms.removeIf(name -> book.form(name).isEmpty());
    List<List<String>> subjects = new ArrayList<>();
    for (String name : acceptance.of()) {
      if (!forms.contains(name)) {
        subjects.add(List.of(book.aspect(name).isPresent() ? quoted(name) : name));
      }
    }
    for (List<String> subject : shuffled(subjects)) {
      words.addAll(words.size() == 3 ? List.of() : List.of(random.nextBoolean() ? "," : "and"));
      words.addAll(subject);
    }
    if (!forms.isEmpty()) {
      words.add("on");
      words.addAll(between(shuffled(forms.stream().map(List::of).toList())));
    }
    words.addAll(List.of("because", quoted(acceptance.reason())));
    return words;
  }

  private List<List<String>> declarations(Failures failures) {
    List<List<String>> all = new ArrayList<>();
    if (failures.imperfect() != Failures.Imperfect.UNSAID) {
      List<String> words = new ArrayList<>(List.of("imperfect", "signals", "read", "as"));
      for (Proviso proviso : failures.provisos()) {
        words.addAll(List.of(quoted(proviso.aspect()), "where"));
        words.addAll(List.of(String.join(" or ", proviso.looks()).split(" ")));
        words.addAll(proviso.alone() ? List.of("alone", "shows") : List.of("shows"));
        words.addAll(random.nextBoolean() ? List.of(",") : List.of());
      }
      words.addAll(failures.provisos().isEmpty() ? List.of() : List.of("else"));
      words.addAll(List.of(failures.imperfect().words().split(" ")));
      all.add(words);
    }
    for (Cover cover : failures.covers()) {
      List<String> words = new ArrayList<>(List.of("cover"));
      words.addAll(between(faults(cover.faults())));
      if (!cover.forms().isEmpty()) {
        words.add("on");
        words.addAll(between(cover.forms().stream().map(f -> List.of(f.name())).toList()));
      }
      words.addAll(List.of("because", quoted(cover.reason())));
      all.add(words);
    }
    if (!failures.errors().isEmpty()) {
      List<String> words = new ArrayList<>(List.of("count"));
      words.addAll(between(faults(failures.errors())));
      words.addAll(List.of("as", "errors"));
      all.add(words);
    }
    return all;
  }

  private List<List<String>> faults(Set<Fault> faults) {
    return shuffled(faults.stream().sorted().map(f -> List.of(f.words())).toList());
  }

  /** Words with white space and comments between them. */
  String text(List<List<String>> declarations) {
    StringBuilder text = new StringBuilder();
    for (List<String> words : declarations) {
      for (String word : words) {
        text.append(word).append(List.of(" ", "\n", "\r\n\t ", " # { \" note\n").get(from(0, 3)));
      }
    }
    return text.toString();
  }

  private List<String> words(Speed speed) {
    List<String> words = new ArrayList<>();
    words.add(speed.name());
    words.add(
        switch (speed.rank()) {
          case FIGURE, NUMERAL -> Integer.toString(speed.figure());
          case MAXIMUM -> "maximum";
          case UNRANKED -> "unranked";
        });
    if (speed.onSight()) {
      words.addAll(List.of("on", "sight"));
    }
    return words;
  }

  private static List<String> words(Colour colour) {
    return colour.published().equals(colour.name())
        ? List.of(colour.name())
        : List.of(colour.name(), "as", colour.published());
  }

  private List<String> words(Rhythm rhythm) {
    List<String> words =
        new ArrayList<>(
            List.of(rhythm.name(), Integer.toString(rhythm.perMinute()), "per", "minute"));
    if (rhythm.litPercent() != 50 || random.nextBoolean()) {
      words.addAll(List.of("lit", Integer.toString(rhythm.litPercent()), "percent"));
    }
    if (rhythm.startsDark()) {
      words.addAll(List.of("starting", "dark"));
    }
    return words;
  }

  private static List<String> arm(HeadType arm) {
    List<String> words = new ArrayList<>(List.of("arm", arm.name(), "shows"));
    for (String position : arm.positions()) {
      words.add(position);
      arm.lights(position).orElseThrow().forEach(l -> words.addAll(List.of("in", l.colour())));
      words.add(",");
    }
    return words.subList(0, words.size() - 1);
  }

  private List<String> words(HeadType head) {
    if (head.isArm()) {
      return arm(head);
    }
    List<String> facts = new ArrayList<>();
    for (Lamp lamp : head.lamps()) {
      List<List<String>> colours = lamp.colours().stream().map(c -> List.of(c.name())).toList();
      facts.addAll(List.of("lamp", lamp.name(), "shows"));
      facts.addAll(between(colours));
    }
    for (Figure figure : shuffled(head.figures())) {
      facts.addAll(List.of("figure", figure.name(), "lights"));
      List<List<String>> all = new ArrayList<>();
      for (Lit lit : shuffled(figure.lit())) {
        Lamp lamp = head.lamps().get(lit.lamp());
        boolean plain = lamp.colours().size() == 1 && random.nextBoolean();
        List<String> one =
            new ArrayList<>(lit.rhythm().isEmpty() ? List.of() : List.of(lit.rhythm()));
        one.addAll(plain ? List.of(lamp.name()) : List.of(lamp.name(), "in", lit.colour()));
        all.add(one);
      }
      for (List<String> one : all) {
        facts.addAll(one);
        facts.add(",");
      }
      facts.remove(facts.size() - 1);
    }
    List<List<String>> makes = new ArrayList<>();
    if (head.filament()) {
      makes.add(List.of("filament"));
    }
    if (!head.vane().isEmpty()) {
      makes.add(List.of("vane", head.vane()));
    }
    List<String> start = new ArrayList<>(List.of("head", head.name()));
    for (List<String> make : shuffled(makes)) {
      start.add(start.size() == 2 ? "with" : "and");
      start.addAll(make);
    }
    return block(start, facts);
  }

  private List<String> words(Form form) {
    List<String> start = new ArrayList<>(List.of("form", form.name()));
    if (form.mount() != Mount.IN_LINE || random.nextBoolean()) {
      start.addAll(List.of(form.mount().words().split(" ")));
    }
    List<String> words =
        block(start, between(form.places().stream().map(p -> place(p, form)).toList()));
    if (form.withoutStop()) {
      words.addAll(List.of("without", "stop"));
    }
    return words;
  }

  private static List<String> place(String name, Form form) {
    return form.usuallyDark().contains(name) ? List.of(name, "usually", "dark") : List.of(name);
  }

  private List<String> words(Aspect aspect, Rulebook book) {
    List<List<String>> facts = new ArrayList<>();
    List<String> was = new ArrayList<>();
    aspect.was().forEach(name -> was.addAll(List.of("was", quoted(name))));
    facts.add(was);
    if (!aspect.rule().isEmpty()) {
      String rule = aspect.rule();
      facts.add(List.of("rule", random.nextBoolean() ? rule : quoted(rule)));
    }
    if (aspect.number() != Aspect.NO_NUMBER) {
      facts.add(List.of("number", Integer.toString(aspect.number())));
    }
    if (!aspect.indication().isEmpty()) {
      facts.add(List.of("indicates", quoted(aspect.indication())));
    }
    facts.add(words(aspect.permission()));
    Optional<Likeness> likeness =
        book.aspects().stream().flatMap(a -> Likeness.all(aspect, a, book).stream()).findFirst();
    likeness.ifPresent(l -> facts.add(words(l)));
    int own = aspect.patterns().size() - likeness.map(Likeness::patterns).orElse(0);
    List<List<String>> patterns = grouped(aspect.patterns().subList(0, own));
    List<List<String>> mixed = new ArrayList<>(shuffled(facts));
    // Patterns keep their order, and the other facts stand anywhere between them.
    int at = 0;
    for (List<String> pattern : patterns) {
      at = from(at, mixed.size());
      mixed.add(at++, pattern);
    }
    return block(
        List.of("aspect", quoted(aspect.name())), mixed.stream().flatMap(List::stream).toList());
  }

  private List<String> words(Likeness likeness) {
    List<String> words = new ArrayList<>(List.of("as", quoted(likeness.other().name())));
    if (!likeness.isWhole() || random.nextBoolean()) {
      words.add("on");
      List<List<String>> forms = likeness.forms().stream().map(f -> List.of(f.name())).toList();
      words.addAll(between(shuffled(forms)));
    }
    words.addAll(List.of("with", likeness.plate().name(), "plate"));
    for (Exempt exception : shuffled(likeness.exceptions())) {
      words.add(words.contains("except") ? "or" : "except");
      words.addAll(displays(exception.choices()));
    }
    return words;
  }

  private List<String> words(Permission permission) {
    List<String> words = new ArrayList<>(List.of("allows"));
    words.addAll(words(permission.here()));
    if (permission.atShortDistance() || !(permission.next() instanceof Movement.Unsaid)) {
      words.add("then");
      words.addAll(words(permission.next()));
    }
    if (permission.atShortDistance()) {
      words.addAll(List.of("at", "short", "distance"));
    }
    if (!(permission.second() instanceof Movement.Unsaid)) {
      words.add("then");
      words.addAll(words(permission.second()));
      words.addAll(List.of("at", "the", "second", "signal"));
    }
    return words;
  }

  private static List<String> words(Movement movement) {
    if (movement instanceof Movement.Reducing reducing) {
      return List.of(reducing.from().name(), "reducing", "to", reducing.to().name());
    }
    if (movement instanceof Movement.NotStop) {
      return List.of("not", "stop");
    }
    return movement instanceof Movement.StopThen then
        ? List.of("stop", ",", "then", then.speed().name())
        : List.of(movement.words());
  }

  /** Patterns that follow each other on one form with the same plates may share one line. */
  private List<List<String>> grouped(List<Pattern> patterns) {
    Map<Integer, List<String>> lines = new LinkedHashMap<>();
    int line = 0;
    for (int i = 0; i < patterns.size(); i++) {
      Pattern pattern = patterns.get(i);
      boolean joins =
          i > 0
              && pattern.form().equals(patterns.get(i - 1).form())
              && pattern.plates().equals(patterns.get(i - 1).plates())
              && random.nextBoolean();
      if (joins) {
        lines.get(line).add("or");
      } else {
        lines.put(++line, start(pattern));
      }
      lines.get(line).addAll(displays(pattern.choices(), pattern.form()));
    }
    return new ArrayList<>(lines.values());
  }

  private List<String> start(Pattern pattern) {
    List<String> words = new ArrayList<>(List.of("on", pattern.form().name()));
    words.addAll(with(pattern.plates()));
    words.add("show");
    return words;
  }

  private List<String> with(List<String> plates) {
    List<String> words = new ArrayList<>();
    if (!plates.isEmpty()) {
      words.add("with");
      for (String plate : shuffled(plates)) {
        words.addAll(List.of(plate, random.nextBoolean() ? "and" : ","));
      }
      words.set(words.size() - 1, random.nextBoolean() ? "plate" : "plates");
    }
    return words;
  }

  /** Perhaps without the heads that are usually dark, where all of them are. */
  private List<String> displays(List<Choice> choices, Form form) {
    List<Choice> said = new ArrayList<>();
    boolean asUsual = true;
    for (int i = 0; i < choices.size(); i++) {
      if (form.usuallyDark().contains(form.places().get(i))) {
        asUsual &= choices.get(i).displays().equals(List.of(Display.DARK));
      } else {
        said.add(choices.get(i));
      }
    }
    return displays(asUsual && random.nextBoolean() ? said : choices);
  }

  private List<String> displays(List<Choice> choices) {
    List<String> words = new ArrayList<>();
    for (Choice choice : choices) {
      List<String> displays = new ArrayList<>();
      for (Display display : choice.displays()) {
        displays.addAll(List.of(display.words().split(" ")));
        displays.add("or");
      }
      if (choice.isAny()) {
        words.add("any");
      } else if (choice.displays().size() == 1 && random.nextBoolean()) {
        words.addAll(displays.subList(0, displays.size() - 1));
      } else {
        words.add("(");
        words.addAll(displays.subList(0, displays.size() - 1));
        words.add(")");
      }
      words.add("over");
    }
    return words.subList(0, words.size() - 1);
  }

  private static List<String> block(List<String> start, List<String> inside) {
    List<String> words = new ArrayList<>(start);
    words.add("{");
    words.addAll(inside);
    words.add("}");
    return words;
  }

  /** Items with commas after some. */
  private List<String> commas(List<List<String>> items) {
    List<String> words = new ArrayList<>();
    for (List<String> item : items) {
      words.addAll(item);
      if (random.nextBoolean()) {
        words.add(",");
      }
    }
    return words;
  }

  /** Items with commas between some. */
  private List<String> between(List<List<String>> items) {
    List<String> words = commas(items.subList(0, items.size() - 1));
    words.addAll(items.get(items.size() - 1));
    return words;
  }

  private static String quoted(String text) {
    return "\"" + text + "\"";
  }

  private int from(int least, int most) {
    return least + random.nextInt(most - least + 1);
  }

  private <T> List<T> shuffled(List<T> list) {
    List<T> shuffled = new ArrayList<>(list);
    Collections.shuffle(shuffled, random);
    return shuffled;
  }
}
