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

  /**
   * Rule 422 on three heads, R/G/R, with its top red dark leaves dark over green over red. What the
   * rows say of it, reading by reading:
   *
   * <ul>
   *   <li>Defined: no row has a dark head, so the picture is imperfect under each of them.
   *   <li>Most restrictive: what a mast of three heads shows that permits least is R/R/R, Rule 439,
   *       which allows stop. It permits no more than medium, then track.
   *   <li>Most restrictive fitting: of the rows of masts with three heads and no plate, green over
   *       red at the lower two is in FY/G/R, Rule 413, and R/G/R, Rule 422 itself. R/G/R with the L
   *       plate, Rule 416, asks for a plate that is not there; G/R/R and R/R/G have no green in the
   *       middle; R/G/G, R/G/FG and R/G/FY no red at the foot. Rule 413 allows track speed, which
   *       is above medium, and medium at the second signal, of which Rule 422 says nothing. So
   *       neither is the more restrictive, both are left, and a crew that takes it for Rule 413 is
   *       too fast here.
   *   <li>Lit: the same two fit. Without its dark head the signal is a mast with green over red:
   *       the rows of masts with two heads have no G/R (FG/R is of dwarfs, G/G is disputed), so
   *       this adds nothing.
   * </ul>
   */
  @Test
  void the_top_red_of_medium_to_clear_going_dark_is_stop_or_an_advance_aspect_at_track_speed()
      throws IOException {
    assertThat(rows("mast", 3, "", "(.*)/G/R"))
        .containsExactlyInAnyOrder("413 FY/G/R", "422 R/G/R");
    assertThat(rows("mast", 2, "", "G/R")).isEmpty();
    String more =
        "on form mast-3, \"422 Medium to Clear\" is read as \"413 Advance Clear to Medium\""
            + " when the top head is dark";
    assertThat(topRedOfMediumToClear(Imperfect.MOST_RESTRICTIVE)).isEmpty();
    assertThat(topRedOfMediumToClear(Imperfect.MOST_RESTRICTIVE_FITTING)).containsExactly(more);
    assertThat(topRedOfMediumToClear(Imperfect.AS_LIT)).containsExactly(more);
  }

  /**
   * With the L plate R/G/R is Rule 416, and the plate stays when the lamp goes. Rule 413, which
   * names no plate, fits what is left as before; Rule 422, if a crew thought of it, allows less
   * than 416.
   */
  @Test
  void the_top_red_of_limited_to_clear_with_its_plate_may_hide_the_same_advance_aspect()
      throws IOException {
    assertThat(rows("mast", 3, "L", "(.*)/G/R")).containsExactly("416 R/G/R");
    for (Imperfect rule : List.of(Imperfect.MOST_RESTRICTIVE_FITTING, Imperfect.AS_LIT)) {
      assertThat(messages(rule))
          .filteredOn(said -> said.contains("\"416 Limited to Clear\" is read as"))
          .filteredOn(said -> said.contains("form mast-3 with the L plate"))
          .filteredOn(said -> said.contains("when the top head is dark"))
          .containsExactly(
              "on form mast-3 with the L plate, \"416 Limited to Clear\" is read as"
                  + " \"413 Advance Clear to Medium\" when the top head is dark");
    }
  }

  /**
   * What is left when imperfect signals are read as most restrictive. Rule 430 is told from Rule
   * 429 by a flash alone, or is the most restrictive aspect of a dwarf with the DV plate, and says
   * nothing of the next signal, where 429 asks for a stop; the rows have no Stop on a dwarf of one
   * head, so that a dark one may be Rule 438, whose next signal is left to special instructions.
   */
  @Test
  void six_faults_permit_more_when_imperfect_signals_are_most_restrictive() throws IOException {
    assertThat(found(Imperfect.MOST_RESTRICTIVE))
        .filteredOn(Diagnostic::isFinding)
        .extracting(
            d ->
                d.message()
                    .replaceFirst(
                        "on form (.*), \"(\\w+) .*\" is read as \"(\\w+) .*\" when the .*",
                        "$1: $2 as $3"))
        .containsExactlyInAnyOrder(
            "dwarf-2 with the DV plate: 429 as 430",
            "dwarf-2 with the DV plate: 429 as 430",
            "mast-3 with the DV plate: 429 as 430",
            "dwarf-1: 435 as 438",
            "dwarf-1: 435 as 438",
            "dwarf-1: 436 as 438");
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

  private static List<String> rows(String mount, int heads, String plate, String pattern)
      throws IOException {
    return CanadianRulesTest.goodRows().stream()
        .filter(r -> r.mount().equals(mount) && r.heads() == heads)
        .filter(r -> r.plate().equals(plate) && r.pattern().matches(pattern))
        .map(r -> r.rule() + " " + r.pattern())
        .toList();
  }

  private List<String> topRedOfMediumToClear(Imperfect rule) throws IOException {
    return messages(rule).stream()
        .filter(said -> said.startsWith("on form mast-3, \"422 Medium to Clear\" is read as"))
        .filter(said -> said.contains("when the top head is dark"))
        .toList();
  }

  private List<String> messages(Imperfect rule) throws IOException {
    return found(rule).stream().map(Diagnostic::message).toList();
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
