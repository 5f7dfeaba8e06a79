package dev.doublet.check.failure;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.facts.CheckOptions;
import dev.doublet.golden.Case;
import dev.doublet.golden.Run;
import dev.doublet.report.TextRendering;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What is said of failures, page by page. */
class FailureCasesTest {
  private static final Set<String> HAZARDS = Set.of("false-proceed", "risky-pattern");
  private static final Set<String> OTHERS =
      Set.of("fault-summary", "idle-cover", "picture-without-aspect");
  private static final CheckOptions PAIRS = new CheckOptions(true, 2);

  static List<Path> singly() {
    return Case.pages(Path.of("src/test/resources/cases/failure"));
  }

  static List<Path> twoAtOnce() {
    return Case.pages(Path.of("src/test/resources/cases/two-faults"));
  }

  static Stream<Path> all() {
    return Stream.concat(singly().stream(), twoAtOnce().stream());
  }

  @ParameterizedTest
  @MethodSource("singly")
  void what_is_said_of_single_faults_is_as_printed(Path page) {
    Case input = Case.of(page);
    input.verify(Run.check(input, FailureCasesTest::isOfFailures));
  }

  @ParameterizedTest
  @MethodSource("twoAtOnce")
  void what_is_said_of_two_faults_at_once_is_as_printed(Path page) {
    Case input = Case.of(page);
    input.verify(Run.check(input, PAIRS, FailureCasesTest::isOfFailures));
  }

  @ParameterizedTest
  @MethodSource("all")
  void who_asks_for_two_faults_at_once_is_told_the_same_of_single_ones(Path page) {
    Case input = Case.of(page);
    List<String> singly = hazards(input, CheckOptions.ALL);
    List<String> both = hazards(input, PAIRS);
    assertThat(both).containsAll(singly);
    assertThat(both)
        .filteredOn(said -> !singly.contains(said))
        .allSatisfy(said -> assertThat(said).containsPattern("two (at once|things fail)"));
  }

  private static List<String> hazards(Case input, CheckOptions asked) {
    return Run.compile(input, asked).diagnostics().stream()
        .filter(d -> HAZARDS.contains(d.name()))
        .map(d -> new TextRendering(false).draw(List.of(d)))
        .toList();
  }

  private static boolean isOfFailures(Diagnostic said) {
    return HAZARDS.contains(said.name())
        || OTHERS.contains(said.name())
        || said.severity().word().equals("error");
  }
}
