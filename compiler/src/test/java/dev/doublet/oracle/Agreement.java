package dev.doublet.oracle;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.check.ambiguity.TwinAspects;
import dev.doublet.check.ambiguity.TwinsByNight;
import dev.doublet.check.coverage.MeaninglessPictures;
import dev.doublet.check.coverage.UnansweredCommand;
import dev.doublet.check.expectation.FailedExpectation;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Outcome;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.BookFacts;
import dev.doublet.facts.CheckOptions;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.layout.Layout;
import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.oracle.Sketch.By;
import dev.doublet.oracle.Sketch.Signal;
import dev.doublet.oracle.Sketch.Unit;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Reading;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.source.SourceFile;
import java.math.BigInteger;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.IntStream;

/** Holds what the checks find of a sketch against what two solvers find. */
final class Agreement {
  private static final BigInteger FEW = BigInteger.valueOf(60);
  private static final Pattern MEANINGLESS =
      Pattern.compile(
          ".* no meaning to (\\d+) of the (\\d+) pictures that signal (S\\d)(.*) can.*");
  private static final Pattern UNANSWERED =
      Pattern.compile("(?:signal|head) (S\\d(?: p\\d)?)(.*) has no answer to (.*)");
  private static final Pattern MORE = Pattern.compile(" and (\\d+) more like it");

  private Agreement() {}

  /**
   * Demands the same twins by day and by night, failed expectations, meaningless pictures and
   * unanswered values, and real witnesses.
   */
  static void demand(Sketch sketch) {
    Layout layout = resolved(sketch);
    Meaning<Integer> sat = new Meaning<>(sketch, SatLogic::new);
    Meaning<?> bdd = new Meaning<>(sketch, BddLogic::new);

    assertTwins(sketch, layout.rulebook(), sat, bdd);
    assertTwinsByNight(layout.rulebook(), sat, bdd);
    assertExpectations(sketch, layout.rulebook(), sat, bdd);
    LayoutFacts facts = LayoutFacts.of(layout, CheckOptions.ALL);
    assertMeaningless(sketch, facts, sat, bdd);
    assertUnanswered(sketch, facts, sat, bdd);
  }

  private static void assertTwins(Sketch sketch, Rulebook book, Meaning<?> sat, Meaning<?> bdd) {
    Set<Meaning.Twins> found = new HashSet<>();
    Set<Set<String>> told = new HashSet<>();
    for (Diagnostic finding : new TwinAspects().find(BookFacts.of(book, CheckOptions.ALL))) {
      Set<String> forms = new TreeSet<>();
      Set<String> aspects = new TreeSet<>();
      for (String name : finding.about()) {
        (book.form(name).isPresent() ? forms : aspects).add(name);
      }
      Set<String> families = new TreeSet<>();
      aspects.forEach(name -> families.add(family(sketch, name)));
      aspects.forEach(name -> assertThat(finding.message()).contains('"' + name + '"'));
      forms.forEach(name -> assertThat(finding.message()).contains(name));
      for (String one : families) {
        for (String other : families) {
          if (one.compareTo(other) < 0 || families.size() == 1) {
            found.add(new Meaning.Twins(forms, new TreeSet<>(List.of(one, other))));
          }
        }
      }
      Set<String> both = new TreeSet<>(aspects);
      both.addAll(forms);
      assertThat(told).noneMatch(before -> before.containsAll(both) || both.containsAll(before));
      told.add(both);
      String shown = fact(finding, aspects.size() == 2 ? "both show" : "all show");
      assertReal(sketch, book, forms, aspects, picture(shown));
    }
    assertThat(found).isEqualTo(sat.twins()).isEqualTo(bdd.twins());
  }

  /**
   * Each finding has two that only the night makes alike, and none that even the night does not.
   */
  private static void assertTwinsByNight(Rulebook book, Meaning<?> sat, Meaning<?> bdd) {
    Set<Meaning.Twins> found = new HashSet<>();
    for (Diagnostic finding : new TwinsByNight().find(BookFacts.of(book, CheckOptions.ALL))) {
      Set<String> forms = new TreeSet<>();
      Set<String> aspects = new TreeSet<>();
      for (String name : finding.about()) {
        (book.form(name).isPresent() ? forms : aspects).add(name);
      }
      Set<Meaning.Twins> pairs = new HashSet<>();
      for (String one : aspects) {
        for (String other : aspects) {
          if (one.compareTo(other) < 0) {
            pairs.add(new Meaning.Twins(forms, new TreeSet<>(List.of(one, other))));
          }
        }
      }
      assertThat(pairs).anyMatch(sat.twinsByNight()::contains);
      found.addAll(pairs);
    }
    assertThat(sat.twinsByNight()).isEqualTo(bdd.twinsByNight()).isSubsetOf(found);
    assertThat(bdd.alikeByNight()).isEqualTo(sat.alikeByNight()).containsAll(found);
  }

  /** Demands that a crew takes a picture for just these aspects on a signal with some plates. */
  private static void assertReal(
      Sketch sketch, Rulebook book, Set<String> forms, Set<String> aspects, List<String> picture) {
    assertThat(sketch.displays()).containsAll(picture);
    Meaning<Integer> meaning = new Meaning<>(sketch, SatLogic::new);
    assertThat(plates(sketch))
        .anyMatch(plates -> isSaid(sketch, aspects, meaning.read(forms, plates, picture)));
    if (forms.size() == 1) {
      Form form = book.form(forms.iterator().next()).orElseThrow();
      assertThat(plates(sketch))
          .anyMatch(plates -> isSaid(sketch, aspects, reading(book, form, plates, picture)));
    }
  }

  /** Of aspects of many numbers the finding names all together, or two of one. */
  private static boolean isSaid(Sketch sketch, Set<String> aspects, Set<String> read) {
    Set<String> families = new TreeSet<>();
    read.forEach(name -> families.add(family(sketch, name)));
    return families.equals(aspects) || read.containsAll(aspects);
  }

  private static String family(Sketch sketch, String name) {
    return sketch.aspects().stream().anyMatch(a -> a.name().equals(name))
        ? name
        : sketch.family(name);
  }

  private static void assertExpectations(
      Sketch sketch, Rulebook book, Meaning<?> sat, Meaning<?> bdd) {
    Map<String, Sketch.Expected> lines = new LinkedHashMap<>();
    sketch.expectations().forEach(e -> lines.put(SketchText.expectation(e), e));
    Set<String> failed = new HashSet<>();
    for (Diagnostic finding : new FailedExpectation().find(BookFacts.of(book, CheckOptions.ALL))) {
      String line = finding.primary().span().text();
      assertThat(failed.add(line)).isTrue();
      Sketch.Expected expected = lines.get(line);
      List<String> picture = picture(finding.message().replaceFirst(" on f\\d.*", ""));
      Set<String> read = reading(book, form(book, expected.form()), expected.plates(), picture);
      assertThat(sketch.each(expected))
          .anyMatch(
              one ->
                  one.pictures().stream().anyMatch(p -> isOf(picture, p))
                      && !read.equals(one.aspect().isEmpty() ? Set.of() : Set.of(one.aspect())));
      assertThat(sat.read(List.of(expected.form().name()), expected.plates(), picture))
          .isEqualTo(read);
    }
    lines.forEach(
        (line, expected) -> {
          boolean holds = sat.holds(expected);
          assertThat(bdd.holds(expected)).isEqualTo(holds);
          assertThat(failed.contains(line)).as(line).isNotEqualTo(holds);
        });
  }

  private static boolean isOf(List<String> picture, List<List<String>> choices) {
    return IntStream.range(0, picture.size())
        .allMatch(i -> choices.get(i).isEmpty() || choices.get(i).contains(picture.get(i)));
  }

  private static Form form(Rulebook book, Sketch.Form form) {
    return book.form(form.name()).orElseThrow();
  }

  private static void assertMeaningless(
      Sketch sketch, LayoutFacts facts, Meaning<?> sat, Meaning<?> bdd) {
    Map<String, BigInteger> expected = new LinkedHashMap<>();
    for (Signal signal : sketch.signals()) {
      BigInteger count = bdd.meaningless(signal);
      assertThat(sat.anyMeaningless(signal)).isEqualTo(count.signum() > 0);
      if (bdd.pictures(signal).compareTo(FEW) < 0) {
        assertThat(sat.meaningless(signal)).isEqualTo(count);
      }
      if (count.signum() > 0) {
        expected.put(signal.name(), count);
      }
    }
    int reported = 0;
    for (Diagnostic finding : new MeaninglessPictures().find(facts)) {
      MatchResult words = parts(MEANINGLESS, finding.message());
      Signal signal = signal(sketch, words.group(3));
      assertThat(new BigInteger(words.group(1))).isEqualTo(expected.get(signal.name()));
      assertThat(new BigInteger(words.group(2))).isEqualTo(bdd.pictures(signal));
      reported += alike(words.group(4));
      for (String example : fact(finding, "for one").split("; ")) {
        List<String> picture = picture(example);
        assertThat(IntStream.range(0, picture.size()))
            .allMatch(i -> signal.heads().get(i).canShow(picture.get(i)));
        Rulebook book = facts.layout().rulebook();
        Form form = book.form(signal.form().name()).orElseThrow();
        assertThat(reading(book, form, signal.plates(), picture)).isEmpty();
      }
    }
    assertThat(reported).isEqualTo(expected.size());
  }

  private static void assertUnanswered(
      Sketch sketch, LayoutFacts facts, Meaning<?> sat, Meaning<?> bdd) {
    Map<String, String> expected = new LinkedHashMap<>();
    for (Signal signal : sketch.signals()) {
      for (int i = 0; i < signal.units().size(); i++) {
        Unit unit = signal.units().get(i);
        List<Integer> values = sat.unanswered(signal, unit);
        assertThat(bdd.unanswered(signal, unit)).isEqualTo(values);
        String name = signal.byHead() ? signal.name() + " p" + i : signal.name();
        if (!values.isEmpty()) {
          String few = values.size() == 1 ? "value " : "values ";
          expected.put(name, few + Words.numbers(values));
        } else if (unit.by() == By.TOPIC && sat.isAsked(signal, unit)) {
          String what = unit.byName() ? "name" : "number";
          expected.put(name, "any payload that is no " + what);
        }
      }
    }
    int reported = 0;
    for (Diagnostic finding : new UnansweredCommand().find(facts)) {
      MatchResult words = parts(UNANSWERED, finding.message());
      assertThat(words.group(3)).as(words.group(1)).isEqualTo(expected.get(words.group(1)));
      reported += alike(words.group(2));
    }
    assertThat(reported).isEqualTo(expected.size());
  }

  private static Layout resolved(Sketch sketch) {
    String book = SketchText.book(sketch);
    String layout = SketchText.layout(sketch, "book.aspects");
    Outcome<Layout> outcome =
        LayoutResolver.resolve(
            "layout.yaml",
            path -> new SourceFile(path, path.equals("book.aspects") ? book : layout));
    assertThat(outcome.value()).as("%s\n%s\n%s", outcome.diagnostics(), book, layout).isPresent();
    return outcome.value().orElseThrow();
  }

  private static Set<String> reading(
      Rulebook book, Form form, Collection<String> plates, List<String> picture) {
    List<Display> displays = new ArrayList<>();
    for (String words : picture) {
      int space = words.indexOf(' ');
      displays.add(
          new Display(words.substring(space + 1), space < 0 ? "" : words.substring(0, space)));
    }
    Set<String> read = new TreeSet<>();
    Reading.of(book, form, plates, displays).forEach(r -> read.add(r.aspect().name()));
    return read;
  }

  /** Every choice of plates that a signal may carry. */
  private static List<List<String>> plates(Sketch sketch) {
    List<List<String>> choices = new ArrayList<>(List.of(List.of()));
    for (String plate : sketch.plates()) {
      for (List<String> without : List.copyOf(choices)) {
        List<String> with = new ArrayList<>(without);
        with.add(plate);
        choices.add(with);
      }
    }
    return choices;
  }

  private static Signal signal(Sketch sketch, String name) {
    return sketch.signals().stream().filter(s -> s.name().equals(name)).findFirst().orElseThrow();
  }

  private static List<String> picture(String words) {
    return Arrays.asList(words.split(" over "));
  }

  private static String fact(Diagnostic finding, String name) {
    return finding.facts().stream()
        .filter(f -> f.name().equals(name))
        .findFirst()
        .orElseThrow()
        .value();
  }

  /** How many a message speaks for. */
  private static int alike(String more) {
    return more.isEmpty() ? 1 : 1 + Integer.parseInt(parts(MORE, more).group(1));
  }

  private static MatchResult parts(Pattern pattern, String message) {
    return pattern
        .matcher(message)
        .results()
        .filter(r -> r.group().equals(message))
        .findFirst()
        .orElseThrow(() -> new AssertionError(message));
  }
}
