package dev.doublet.check.expectation;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.Compiler;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Outcome;
import dev.doublet.facts.BookFacts;
import dev.doublet.facts.CheckOptions;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.rulebook.RulebookResolver;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** Which expectations hold. */
class FailedExpectationTest {
  private static final String BOOK =
      """
      rulebook "Brackwater & Northern"
      use "cases.aspects"
      speeds in mph { normal 60  medium 30  slow 15  as-told unranked }
      colours { red yellow green }
      form low dwarf { top }
      form one-head { top }
      form spare bracket { top }
      plate number turns stop, then slow into slow
      plate grade
      aspect "Clear" { allows normal  on one-head, low show green }
      aspect "Slow" { as "Stop and Proceed" on one-head with number plate }
      aspect "Slower" { allows slow then stop  on one-head with number and grade plates show red }
      aspect "Stop and Proceed" { allows stop, then slow  on one-head show red or (yellow or dark) }
      aspect "Medium" { allows medium  on one-head show yellow }
      aspect "Again" { allows medium  on low show yellow }
      aspect "As Told" { allows as-told  on low show red }
      aspect "Stop" { allows stop  on low show dark }
      """;

  @Test
  void thePatternThatNamesMostPlatesDecides() {
    assertThat(failed("red on one-head means \"Stop and Proceed\"")).isEmpty();
    assertThat(failed("red on one-head with grade plate means \"Stop and Proceed\"")).isEmpty();
    assertThat(failed("red on one-head with number plate means \"Slow\"")).isEmpty();
    assertThat(failed("red on one-head with grade, number plates means \"Slower\"")).isEmpty();
    assertThat(said("red on one-head with number plate means \"Stop and Proceed\""))
        .isEqualTo("red on one-head with number plate means \"Slow\", not \"Stop and Proceed\"");
  }

  @Test
  void aPictureOfTwoAspectsMeansNeither() {
    assertThat(said("yellow on one-head means \"Medium\""))
        .isEqualTo(
            "yellow on one-head means \"Medium\" and \"Stop and Proceed\", not \"Medium\" alone");
    assertThat(failed("yellow on one-head means \"Stop and Proceed\"")).hasSize(1);
    assertThat(failed("yellow on one-head means nothing")).hasSize(1);
  }

  @Test
  void darkIsAPictureLikeAnyOther() {
    assertThat(failed("dark on low means \"Stop\"")).isEmpty();
    assertThat(said("dark on one-head means nothing"))
        .isEqualTo("dark on one-head means \"Stop and Proceed\", not nothing");
  }

  @Test
  void everyFormOfAListIsTried() {
    assertThat(failed("green on low, one-head means \"Clear\"")).isEmpty();
    assertThat(failed("yellow on low, one-head means \"Again\""))
        .extracting(Diagnostic::message)
        .containsExactly(
            "yellow on one-head means \"Medium\" and \"Stop and Proceed\", not \"Again\"");
  }

  @Test
  void anOrderThatIsNotKnownIsNeitherMoreNorLess() {
    assertThat(failed("\"As Told\" and \"Clear\" in no known order")).isEmpty();
    assertThat(found("\"As Told\" more restrictive than \"Clear\"")).isEqualTo("in no known order");
    assertThat(failed("\"Stop\" more restrictive than \"As Told\"")).isEmpty();
    assertThat(found("\"Stop\" less restrictive than \"As Told\"")).isEqualTo("more restrictive");
  }

  @Test
  void aspectsThatPermitTheSameStandInNoOrderThatCanBeExpected() {
    assertThat(found("\"Medium\" less restrictive than \"Again\""))
        .isEqualTo("equally restrictive");
    assertThat(found("\"Medium\" and \"Again\" in no known order"))
        .isEqualTo("equally restrictive");
  }

  @Test
  void everyPictureOfAChoiceMustMeanIt() {
    assertThat(failed("(green) on one-head means \"Clear\"")).isEmpty();
    assertThat(failed("red or (red or dark) on one-head means \"Stop and Proceed\"")).isEmpty();
    assertThat(failed("any on one-head with grade and number plates means nothing"))
        .extracting(Diagnostic::message)
        .containsExactly(
            "green on one-head with grade, number plates means \"Clear\", though any is expected to mean nothing");
  }

  @Test
  void aPictureThatFailsIsShownWithWhatItMeans() {
    List<Diagnostic> failed = failed("(red or yellow) or green on one-head means \"Clear\"");
    assertThat(failed).hasSize(1);
    assertThat(failed.get(0).message())
        .isEqualTo(
            "yellow on one-head means \"Medium\" and \"Stop and Proceed\", though (red or yellow) or green is expected to mean \"Clear\"");
  }

  @Test
  void aPictureThatMeansNothingFailsToo() {
    assertThat(said("(green or dark) on low with grade plate means \"Clear\""))
        .startsWith("dark on low with grade plate means \"Stop\", though");
    assertThat(said("any on spare means \"Clear\""))
        .isEqualTo("dark on spare means nothing, though any is expected to mean \"Clear\"");
    assertThat(failed("(green or yellow) on spare means nothing")).isEmpty();
  }

  @Test
  void whatCouldNotBeWorkedOutInTimeIsSaid() {
    Outcome<Rulebook> book =
        RulebookResolver.resolve("book.aspects", reader("any on spare means \"Clear\""));
    assertThat(
            new FailedExpectation(0)
                .find(BookFacts.of(book.value().orElseThrow(), CheckOptions.ALL)))
        .extracting(d -> d.severity() + " " + d.message())
        .containsExactly(
            "WARNING it takes too long to tell whether every picture of any on spare means \"Clear\"");
  }

  private static String said(String expectation) {
    return failed(expectation).get(0).message();
  }

  private static String found(String expectation) {
    return failed(expectation).get(0).facts().get(1).value();
  }

  private static List<Diagnostic> failed(String expectation) {
    return Compiler.checkRulebook("book.aspects", reader(expectation), CheckOptions.ALL)
        .diagnostics()
        .stream()
        .filter(d -> d.name().equals("failed-expectation"))
        .toList();
  }

  private static SourceReader reader(String expectation) {
    Map<String, String> files =
        Map.of("book.aspects", BOOK, "cases.aspects", "expect " + expectation);
    return path -> new SourceFile(path, files.get(path));
  }
}
