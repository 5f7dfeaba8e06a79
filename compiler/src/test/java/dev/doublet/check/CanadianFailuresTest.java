package dev.doublet.check;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.facts.FaultWords;
import dev.doublet.failure.Case;
import dev.doublet.failure.Hazard;
import dev.doublet.failure.Site;
import dev.doublet.failure.TrialResult;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Failures.Imperfect;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.rulebook.RulebookResolver;
import dev.doublet.source.SourceFile;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;

/**
 * Single faults of the Canadian aspects, under each way of reading imperfect signals. Rule 27 has
 * them read as most restrictive, but for a green or yellow that still shows (second-hand). By its
 * lamps alone the book does not satisfy 49 CFR 236.23(f), which is not its law.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class CanadianFailuresTest {
  private static final Path LIST =
      Path.of("src/test/resources/cases/rulebooks/canada-single-faults.txt");

  private final Map<Imperfect, List<Hazard>> found = new EnumMap<>(Imperfect.class);

  @Test
  void what_is_read_as_permitting_more_or_in_no_order_is_as_listed() throws IOException {
    StringBuilder list = new StringBuilder();
    for (Imperfect rule : Imperfect.CHOICES) {
      List<Hazard> found = found(rule);
      list.append("imperfect signals read as ").append(rule.words()).append(": ");
      list.append(found.stream().filter(Hazard::isFalseProceed).count());
      list.append(" false proceeds, ");
      list.append(found.stream().filter(h -> !h.isFalseProceed()).count()).append(" not known\n");
      found.stream().map(CanadianFailuresTest::line).sorted().forEach(list::append);
    }
    if (Boolean.getBoolean("doublet.update") && System.getenv("CI") == null) {
      Files.writeString(LIST, list);
    }
    assertThat(list.toString()).isEqualTo(Files.readString(LIST));
  }

  @Test
  void the_top_red_of_slow_to_clear_going_dark_leaves_clear_when_read_as_lit() throws IOException {
    assertThat(topRed("mast-2: 431", Imperfect.AS_LIT))
        .containsExactly("more mast-2: 431 as 405 when the top head is dark");
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
   *   <li>Any fitting: the same two fit, and the worse counts.
   *   <li>Lit: without its dark head the signal is a mast with green over red, and the rows of
   *       masts with two heads, in line or staggered, have no G/R (FG/R is of dwarfs, G/G is
   *       disputed). So nothing is made out, and it is Rule 439.
   * </ul>
   */
  @Test
  void the_top_red_of_medium_to_clear_going_dark_is_stop_or_an_advance_aspect_at_track_speed()
      throws IOException {
    assertThat(rows("mast", 3, "", "(.*)/G/R"))
        .containsExactlyInAnyOrder("413 FY/G/R", "422 R/G/R");
    assertThat(rows("mast", 2, "", "G/R")).isEmpty();
    assertThat(rows("staggered", 2, "", "G/R")).isEmpty();
    String more = "more mast-3: 422 as 413 when the top head is dark";
    assertThat(topRed("mast-3: 422", Imperfect.MOST_RESTRICTIVE)).isEmpty();
    assertThat(topRed("mast-3: 422", Imperfect.MOST_RESTRICTIVE_FITTING)).containsExactly(more);
    assertThat(topRed("mast-3: 422", Imperfect.ANY_FITTING)).containsExactly(more);
    assertThat(topRed("mast-3: 422", Imperfect.AS_LIT)).isEmpty();
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
    for (Imperfect rule : List.of(Imperfect.MOST_RESTRICTIVE_FITTING, Imperfect.ANY_FITTING)) {
      assertThat(topRed("mast-3 with the L plate: 416", rule))
          .containsExactly("more mast-3 with the L plate: 416 as 413 when the top head is dark");
    }
  }

  /**
   * What is left when imperfect signals are read as most restrictive. The rows have no Stop on a
   * dwarf of one head, so that a dark one may be Rule 438, whose next signal is left to special
   * instructions, where Rule 436 goes on sight.
   */
  @Test
  void one_fault_permits_more_when_imperfect_signals_are_most_restrictive() throws IOException {
    assertThat(briefly(Imperfect.MOST_RESTRICTIVE))
        .filteredOn(line -> line.startsWith("more"))
        .containsExactly("more dwarf-1: 436 as 438 when the top head is dark");
  }

  @Test
  void no_plate_lost_of_twenty_one_permits_more() throws IOException {
    assertThat(CanadianRulesTest.goodRows()).filteredOn(r -> !r.plate().isEmpty()).hasSize(21);
    for (Imperfect rule : Imperfect.CHOICES) {
      assertThat(briefly(rule)).noneMatch(line -> line.contains("plate is missing"));
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

  private List<String> topRed(String what, Imperfect rule) throws IOException {
    return briefly(rule).stream()
        .filter(line -> line.contains(what + " as ") && line.endsWith("when the top head is dark"))
        .toList();
  }

  /** "more mast-3: 422 as 413 when the top head is dark". */
  private List<String> briefly(Imperfect rule) throws IOException {
    return found(rule).stream()
        .map(
            h ->
                String.format(
                    Locale.ROOT,
                    "%s %s: %s as %s when %s",
                    verdict(h),
                    FaultWords.site(h.site()).replace("form ", ""),
                    h.first().meant().name().split(" ")[0],
                    h.first().worst().aspect().name().split(" ")[0],
                    FaultWords.failed(h.site(), h.first().trial())))
        .toList();
  }

  private List<Hazard> found(Imperfect rule) throws IOException {
    if (found.isEmpty()) {
      String text = CanadianRulesTest.book(CanadianRulesTest.goodRows(), true);
      Rulebook book =
          RulebookResolver.resolve("cror.aspects", path -> new SourceFile(path, text))
              .value()
              .orElseThrow();
      for (Imperfect each : Imperfect.CHOICES) {
        found.put(
            each,
            Hazard.of(TrialResult.singly(Site.of(book).stream().map(s -> s.under(each)).toList())));
      }
    }
    return found.get(rule);
  }

  private static String verdict(Hazard hazard) {
    return hazard.isFalseProceed() ? "more" : "not known";
  }

  /** One hazard: where, the fault, what was meant, what is seen, what that is read as. */
  private static String line(Hazard hazard) {
    Case one = hazard.first();
    return String.join(
            " | ",
            verdict(hazard),
            FaultWords.site(hazard.site()).replace("form ", "")
                + ", "
                + FaultWords.failed(hazard.site(), one.trial()),
            Display.over(one.shown().picture()) + ", " + brief(one.meant()),
            FaultWords.seen(one.trial()) + (one.read().defined() ? " (defined)" : " (imperfect)"),
            brief(one.worst().aspect()))
        + "\n";
  }

  private static String brief(Aspect aspect) {
    return aspect.name() + ": " + aspect.permission().words();
  }
}
