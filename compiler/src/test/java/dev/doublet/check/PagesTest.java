package dev.doublet.check;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.diagnostic.FindingNames;
import dev.doublet.golden.Case;
import dev.doublet.golden.Run;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Every check has a page beside it, and the page tells the truth. */
class PagesTest {
  private static final Path SOURCES = Path.of("src/main/java");
  private static final Path NAMES =
      Path.of("src/main/resources/dev/doublet/diagnostic/findings.txt");
  private static final List<String> HEADINGS =
      List.of("## Finds", "## Why", "## Bad", "## Good", "## Mend");

  static Stream<Check<?>> checks() {
    return Checks.all().stream();
  }

  @ParameterizedTest
  @MethodSource("checks")
  void the_bad_sample_gives_exactly_the_output_printed(Check<?> check) {
    Case bad = Case.section(page(check), "Bad");
    String output = Run.check(bad, d -> d.isFinding() || d.name().equals(check.name()));
    bad.verify(output);
    assertThat(output).contains("[" + check.name() + "]");
  }

  @ParameterizedTest
  @MethodSource("checks")
  void the_bad_sample_gives_nothing_else_that_is_a_finding(Check<?> check) {
    assertThat(Run.findings(Case.section(page(check), "Bad")))
        .allSatisfy(d -> assertThat(d.name()).isEqualTo(check.name()));
  }

  @ParameterizedTest
  @MethodSource("checks")
  void the_good_sample_gives_no_finding_and_nothing_of_this_check(Check<?> check) {
    Case good = Case.section(page(check), "Good");
    assertThat(Run.findings(good)).isEmpty();
    assertThat(Run.check(good, true)).doesNotContain("[" + check.name() + "]");
  }

  @ParameterizedTest
  @MethodSource("checks")
  void the_page_has_its_name_a_summary_and_the_headings_in_order(Check<?> check) throws Exception {
    List<String> lines = Files.readAllLines(page(check));
    assertThat(lines.get(0)).isEqualTo("# " + check.name());
    assertThat(lines.get(2)).endsWith(".");
    assertThat(lines.stream().filter(l -> l.startsWith("## ")).toList()).isEqualTo(HEADINGS);
  }

  @Test
  void every_page_has_a_check_and_every_class_that_is_a_check_is_listed() throws Exception {
    List<String> listed = new ArrayList<>();
    Checks.all().forEach(c -> listed.add(c.getClass().getSimpleName()));
    Path folder = SOURCES.resolve("dev/doublet/check");
    assertThat(Case.pages(folder))
        .extracting(p -> p.getFileName().toString().replace(".md", ""))
        .containsExactlyInAnyOrderElementsOf(listed);
    try (Stream<Path> walk = Files.walk(folder)) {
      List<String> classes = new ArrayList<>();
      for (Path path : walk.filter(p -> p.toString().endsWith(".java")).sorted().toList()) {
        if (Files.readString(path).contains("implements Check.Of")) {
          classes.add(path.getFileName().toString().replace(".java", ""));
        }
      }
      assertThat(classes).containsExactlyInAnyOrderElementsOf(listed);
    }
  }

  @Test
  void no_two_checks_share_a_name() {
    assertThat(Checks.all()).extracting(Check::name).doesNotHaveDuplicates();
  }

  /** {@code -Ddoublet.update=true} makes the list anew. */
  @Test
  void the_list_of_names_is_made_of_the_pages() throws Exception {
    String names = String.join("\n", new TreeSet<>(namesOfPages())) + "\n";
    if (Boolean.getBoolean("doublet.update") && System.getenv("CI") == null) {
      Files.writeString(NAMES, names);
    }
    assertThat(Files.readString(NAMES)).isEqualTo(names);
  }

  private static List<String> namesOfPages() throws Exception {
    List<String> names = new ArrayList<>();
    for (Path page : Case.pages(SOURCES)) {
      List<String> lines = Files.readAllLines(page);
      if (lines.contains("## Finds")) {
        names.add(lines.get(0).substring(2));
      }
    }
    return names;
  }

  /** What a page says of itself is one case; what happens in a whole book or layout is another. */
  @Test
  void everythingThatIsSaidIsSaidInACaseOutsideItsPage() throws Exception {
    TreeSet<String> said = new TreeSet<>();
    for (Path page : Case.pages(Path.of("src/test/resources/cases"))) {
      Pattern.compile("(?m)^(?:  \\[([a-z-]+)]$|(?:note|warning|error) ([a-z-]+): )")
          .matcher(Case.of(page).expected())
          .results()
          .forEach(m -> said.add(m.group(1) == null ? m.group(2) : m.group(1)));
    }
    assertThat(said).containsExactlyInAnyOrderElementsOf(namesOfPages());
  }

  @Test
  void no_name_is_said_that_is_not_listed() throws Exception {
    Pattern name =
        Pattern.compile("(?:Diagnostic\\.(?:error|warning|note)|\\.wrong)\\(\\s*\"([a-z-]+)\"");
    TreeSet<String> said = new TreeSet<>();
    try (Stream<Path> walk = Files.walk(SOURCES)) {
      for (Path path : walk.filter(p -> p.toString().endsWith(".java")).toList()) {
        name.matcher(Files.readString(path)).results().forEach(m -> said.add(m.group(1)));
      }
    }
    assertThat(said).hasSizeGreaterThan(20);
    assertThat(FindingNames.ALL).containsAll(said);
  }

  private static Path page(Check<?> check) {
    return SOURCES.resolve(check.getClass().getName().replace('.', '/') + ".md");
  }
}
