package dev.doublet.check;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.Compiler;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.rulebook.Failures.Imperfect;
import dev.doublet.source.SourceFile;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;

/**
 * Single faults of the Canadian aspects, under each way of reading imperfect signals. Rule 27 has
 * them read as most restrictive, but for a green or yellow that still shows (second-hand). By its
 * lamps alone the book does not satisfy 49 CFR 236.23(f), which is not its law.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class CanadianFailuresTest {
  private static final Path LIST = Path.of("src/test/resources/facts/cror-failures.txt");
  private static final Pattern SAID =
      Pattern.compile("on form (.*), \".*\" is read as \".*\" when (the [^:]*)");

  private final Map<Imperfect, List<Diagnostic>> found = new EnumMap<>(Imperfect.class);

  @Test
  void what_is_read_as_permitting_more_or_in_no_order_is_as_listed() throws IOException {
    StringBuilder list = new StringBuilder();
    for (Imperfect rule : Imperfect.values()) {
      List<Diagnostic> found = found(rule);
      list.append("imperfect signals read as ").append(rule.words()).append(": ");
      list.append(found.stream().filter(Diagnostic::isFinding).count()).append(" false proceeds, ");
      list.append(found.stream().filter(d -> !d.isFinding()).count()).append(" not known\n");
      found.stream().map(CanadianFailuresTest::line).sorted().forEach(list::append);
    }
    if (Boolean.getBoolean("doublet.update") && System.getenv("CI") == null) {
      Files.writeString(LIST, list);
    }
    assertThat(list.toString()).isEqualTo(Files.readString(LIST));
  }

  @Test
  void the_top_red_of_slow_to_clear_going_dark_leaves_clear_when_read_as_lit() throws IOException {
    assertThat(found(Imperfect.AS_LIT))
        .filteredOn(Diagnostic::isFinding)
        .extracting(Diagnostic::message)
        .contains(
            "on form mast-2, \"431 Slow to Clear\" is read as \"405 Clear\" when the top head is dark");
  }

  /** What is left is green over red, which no mast of two heads shows in the rows. */
  @Test
  void the_top_red_of_medium_to_clear_going_dark_may_hide_an_advance_aspect_in_no_known_order()
      throws IOException {
    assertThat(found(Imperfect.AS_LIT))
        .filteredOn(d -> !d.isFinding())
        .extracting(Diagnostic::message)
        .contains(
            "on form mast-3, \"422 Medium to Clear\" is read as \"413 Advance Clear to Medium\""
                + " when the top head is dark: not known which permits more");
  }

  @Test
  void nothing_is_read_as_permitting_more_when_imperfect_signals_are_most_restrictive()
      throws IOException {
    assertThat(found(Imperfect.MOST_RESTRICTIVE)).noneMatch(Diagnostic::isFinding);
  }

  @Test
  void no_plate_lost_permits_more_and_two_of_twenty_one_lead_to_a_speed_in_no_order()
      throws IOException {
    assertThat(CanadianRulesTest.goodRows()).filteredOn(r -> !r.plate().isEmpty()).hasSize(21);
    for (Imperfect rule : Imperfect.values()) {
      assertThat(found(rule))
          .filteredOn(d -> d.message().contains("plate is missing"))
          .hasSize(2)
          .noneMatch(Diagnostic::isFinding);
    }
  }

  private List<Diagnostic> found(Imperfect rule) throws IOException {
    if (!found.containsKey(rule)) {
      found.put(rule, check(rule));
    }
    return found.get(rule);
  }

  private static List<Diagnostic> check(Imperfect rule) throws IOException {
    String book =
        CanadianRulesTest.book(CanadianRulesTest.goodRows(), true)
            + "imperfect signals read as "
            + rule.words()
            + "\n";
    return Compiler.checkRulebook("cror.aspects", path -> new SourceFile(path, book))
        .diagnostics()
        .stream()
        .filter(d -> d.name().equals("risky-pattern"))
        .toList();
  }

  /** One hazard: where, the fault, what was meant, what is seen, what that is read as. */
  private static String line(Diagnostic diagnostic) {
    Matcher said = SAID.matcher(diagnostic.message());
    assertThat(said.find()).as(diagnostic.message()).isTrue();
    return String.join(
            " | ",
            diagnostic.isFinding() ? "more" : "not known",
            said.group(1) + ", " + said.group(2),
            brief(diagnostic, "meant"),
            brief(diagnostic, "seen"),
            brief(diagnostic, "read as"))
        + "\n";
  }

  private static String brief(Diagnostic diagnostic, String fact) {
    return diagnostic.facts().stream()
        .filter(f -> f.name().equals(fact))
        .map(f -> f.value().replaceAll(", (imperfect|which the book defines).*", " ($1)"))
        .map(f -> f.replace("\"", "").replace(", which allows ", ": "))
        .collect(Collectors.joining());
  }
}
