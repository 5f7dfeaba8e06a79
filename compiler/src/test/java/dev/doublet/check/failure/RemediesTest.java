package dev.doublet.check.failure;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.Compiler;
import dev.doublet.facts.CheckOptions;
import dev.doublet.facts.FaultWords;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.failure.Hazard;
import dev.doublet.failure.Remedies;
import dev.doublet.failure.Remedy;
import dev.doublet.failure.Site;
import dev.doublet.failure.SmallBook;
import dev.doublet.failure.SmallSignal;
import dev.doublet.failure.TrialResult;
import dev.doublet.golden.Case;
import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.rulebook.Choice;
import dev.doublet.rulebook.RulebookResolver;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import dev.doublet.source.Span;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/**
 * Does what a remedy of another picture or another rule says: writes it into the text, reads that
 * anew and tries all faults again. The hazard must be gone, and nothing be misread that was not.
 */
@Tag("slow")
class RemediesTest {
  private static final Path ROOT = Path.of("..");
  private static final Path CASES = Path.of("src/test/resources/cases");
  private static final Path PAGES = Path.of("src/main/java/dev/doublet/check/failure");

  /**
   * A book says the first two of its faults, and the last of itself: it changes with its pictures.
   */
  private static final Set<String> LEFT_OUT =
      Set.of("false-proceed", "risky-pattern", "idle-cover", "failed-expectation");

  private static final Pattern PICTURE = Pattern.compile("show it as (.*)");
  private static final Pattern RULE = Pattern.compile(".*(imperfect signals read as .*)");
  private static final Pattern ANY_RULE =
      Pattern.compile("(?m)^imperfect signals read as .*(\\n +.*)*$");

  /** Texts by name, and the name of the one that is checked. */
  private record Texts(String root, Map<String, String> files) {
    private SourceFile read(String path) throws SourceReader.Unreadable {
      String text = files.get(path);
      if (text == null) {
        throw new SourceReader.Unreadable("there is no such file");
      }
      return new SourceFile(path, text);
    }

    private Texts with(String file, String text) {
      Map<String, String> then = new HashMap<>(files);
      then.put(file, text);
      return new Texts(root, then);
    }

    private boolean isLayout() {
      return root.endsWith(".yaml");
    }

    private Compiler.Checked<?> checked() {
      return isLayout()
          ? Compiler.checkLayout(root, this::read, CheckOptions.ALL)
          : Compiler.checkRulebook(root, this::read, CheckOptions.ALL);
    }

    private List<TrialResult> tried() {
      return TrialResult.singly(sites());
    }

    private List<Site> sites() {
      return isLayout()
          ? LayoutResolver.resolve(root, this::read).value().stream()
              .flatMap(layout -> LayoutFacts.of(layout, CheckOptions.ALL).sites().stream())
              .toList()
          : RulebookResolver.resolve(root, this::read).value().stream()
              .flatMap(book -> Site.of(book).stream())
              .toList();
    }

    /** Errors and warnings of other checks, by their number. */
    private Map<String, Long> others() {
      return checked().diagnostics().stream()
          .filter(d -> d.isFinding())
          .filter(d -> !LEFT_OUT.contains(d.name()))
          .collect(Collectors.groupingBy(d -> d.name(), TreeMap::new, Collectors.counting()));
    }
  }

  /** A remedy, and the texts after it; nobody is told of one for a hazard that is covered. */
  private record Done(String remedy, Texts then, boolean isTold) {
    private boolean isPicture() {
      return PICTURE.matcher(remedy).matches();
    }
  }

  @Test
  void remedies_in_cases_pages_rulebooks_and_examples_do_what_they_say() {
    List<Texts> all = new ArrayList<>();
    Stream.of("failure", "two-faults")
        .flatMap(folder -> Case.pages(CASES.resolve(folder)).stream())
        .map(page -> texts(Case.of(page)))
        .forEach(all::add);
    Stream.of("FalseProceed.md", "RiskyPattern.md")
        .map(page -> texts(Case.section(PAGES.resolve(page), "Bad")))
        .forEach(all::add);
    Texts corpus = corpus();
    corpus.files().keySet().stream()
        .filter(f -> f.endsWith("layout.yaml") || corpus.files().get(f).contains("\nrulebook \""))
        .map(f -> new Texts(f, corpus.files()))
        .forEach(all::add);
    List<Done> done = new ArrayList<>();
    for (Texts texts : all) {
      Map<String, Long> others = texts.others();
      for (Done one : done(texts)) {
        if (one.isTold()) {
          assertThat(one.then().others()).as(texts.root() + one.remedy()).isEqualTo(others);
        }
        done.add(one);
      }
    }
    assertThat(done).filteredOn(Done::isPicture).hasSizeGreaterThan(10);
    assertThat(done).filteredOn(d -> !d.isPicture()).hasSizeGreaterThan(5);
  }

  @Test
  void remedies_in_random_rulebooks_do_what_they_say() {
    List<Done> done = new ArrayList<>();
    for (int start = 0; start < 1_000; start++) {
      String book = new SmallBook(start).text();
      done.addAll(done(new Texts("small.aspects", Map.of("small.aspects", book))));
    }
    assertThat(done).filteredOn(Done::isPicture).hasSizeGreaterThan(50);
    assertThat(done).filteredOn(d -> !d.isPicture()).hasSizeGreaterThan(50);
  }

  @Test
  void remedies_on_random_signals_do_what_they_say() {
    List<Done> done = new ArrayList<>();
    for (int start = 0; start < 400; start++) {
      SmallSignal small = new SmallSignal(start);
      Map<String, String> files =
          Map.of("layout.yaml", small.layout(), "small.aspects", small.bookText());
      done.addAll(done(new Texts("layout.yaml", files)));
    }
    assertThat(done).filteredOn(Done::isPicture).hasSizeGreaterThan(100);
    assertThat(done).filteredOn(d -> !d.isPicture()).hasSizeGreaterThan(200);
  }

  /** The texts after each remedy, which is found to be one. */
  private static List<Done> done(Texts texts) {
    List<TrialResult> before = texts.tried();
    Remedies remedies = new Remedies(before);
    List<Done> done = new ArrayList<>();
    for (Hazard hazard : Hazard.of(before)) {
      List<Remedy> found = hazard.isFalseProceed() ? remedies.of(hazard) : List.of();
      for (String remedy : found.stream().map(FaultWords::order).toList()) {
        Texts then = texts;
        Matcher picture = PICTURE.matcher(remedy);
        Matcher rule = RULE.matcher(remedy);
        if (picture.matches()) {
          then = showing(texts, hazard, picture.group(1));
        } else if (rule.matches()) {
          then = read(texts, hazard, rule.group(1));
        }
        if (then != texts) {
          List<TrialResult> after = then.tried();
          String what = texts.root() + then.files() + ": " + remedy;
          assertThat(told(after)).as(what).doesNotContainAnyElementsOf(told(hazard));
          assertThat(misread(before)).as(what).containsAll(misread(after));
          done.add(new Done(remedy, then, hazard.cover().isEmpty()));
        }
      }
    }
    return done;
  }

  private static Texts showing(Texts texts, Hazard hazard, String picture) {
    Set<Span> places = new TreeSet<>();
    hazard.found().stream()
        .map(f -> f.one().shown().by().pattern().choices())
        .map(RemediesTest::whole)
        .forEach(places::add);
    Texts then = texts;
    for (Span place : new TreeSet<>(places).descendingSet()) {
      String file = place.file().name();
      StringBuilder text = new StringBuilder(then.files().get(file));
      then = then.with(file, text.replace(place.start(), place.end(), picture).toString());
    }
    return then;
  }

  private static Span whole(List<Choice> choices) {
    return choices.get(0).span().to(choices.get(choices.size() - 1).span());
  }

  private static Texts read(Texts texts, Hazard hazard, String rule) {
    String file = hazard.site().crew().book().span().file().name();
    String text = ANY_RULE.matcher(texts.files().get(file)).replaceAll("");
    return texts.with(file, text + rule + "\n");
  }

  /** The findings of a hazard, one for each site. */
  private static Set<String> told(Hazard hazard) {
    return hazard.found().stream()
        .map(f -> worst(f.site(), f.one()))
        .collect(Collectors.toCollection(TreeSet::new));
  }

  private static Set<String> told(List<TrialResult> tried) {
    Set<String> told = new TreeSet<>();
    tried.forEach(t -> t.hazards().forEach(c -> told.add(worst(t.site(), c))));
    return told;
  }

  private static String worst(Site site, dev.doublet.failure.Case one) {
    return said(site, one, one.worst().aspect().name());
  }

  /** All that is misread, with every reading that permits more or stands in no known order. */
  private static Set<String> misread(List<TrialResult> tried) {
    Set<String> misread = new TreeSet<>();
    for (TrialResult site : tried) {
      for (dev.doublet.failure.Case one : site.hazards()) {
        one.read().reads().stream()
            .filter(r -> !r.aspect().permission().atLeastAsRestrictiveAs(one.meant().permission()))
            .forEach(r -> misread.add(said(site.site(), one, r.aspect().name())));
      }
    }
    return misread;
  }

  private static String said(Site site, dev.doublet.failure.Case one, String read) {
    return FaultWords.site(site) + ": " + one.meant().name() + one.trial().faults() + " as " + read;
  }

  private static Texts texts(Case input) {
    return new Texts(input.root(), input.files());
  }

  private static Texts corpus() {
    Map<String, String> files = new TreeMap<>();
    try (Stream<Path> books = Files.walk(ROOT.resolve("rulebooks"));
        Stream<Path> layouts = Files.walk(ROOT.resolve("examples"))) {
      for (Path path : Stream.concat(books, layouts).filter(Files::isRegularFile).toList()) {
        String name = ROOT.relativize(path).toString().replace('\\', '/');
        if (name.endsWith(".aspects") || name.endsWith(".yaml")) {
          files.put(name, Files.readString(path));
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return new Texts("", files);
  }
}
