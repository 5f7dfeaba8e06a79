package dev.doublet.diff;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.check.Checks;
import dev.doublet.golden.Case;
import dev.doublet.golden.Edition;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.TreeSet;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;

/** Every sort of change has a page that tells the truth, and a case outside its page. */
class ChangePagesTest {
  private static final Path FOLDER = Path.of("src/main/java/dev/doublet/diff");
  private static final Path CASES = Path.of("src/test/resources/cases/diff");
  private static final List<String> HEADINGS =
      List.of("## Tells", "## Class", "## Example", "## Review");

  static List<Path> cases() {
    return Case.pages(CASES);
  }

  @ParameterizedTest
  @EnumSource(Sort.class)
  void the_example_gives_exactly_the_output_printed_and_this_change(Sort sort) {
    Case example = Case.section(page(sort), "Example");
    Changes changes = Edition.changes(example);
    assertThat(changes.events()).extracting(Event::sort).contains(sort);
    example.verify(ChangesText.of(changes));
  }

  @ParameterizedTest
  @EnumSource(Sort.class)
  void the_page_has_its_name_a_summary_the_headings_in_order_and_names_its_class(Sort sort)
      throws IOException {
    List<String> lines = Files.readAllLines(page(sort));
    assertThat(lines.get(0)).isEqualTo("# " + sort.word());
    assertThat(lines.get(2)).matches("[A-Z].*\\.");
    assertThat(lines.stream().filter(l -> l.startsWith("## ")).toList()).isEqualTo(HEADINGS);
    String told = lines.get(lines.indexOf("## Class") + 2);
    List<String> classes = new ArrayList<>();
    Edition.changes(Case.section(page(sort), "Example")).events().stream()
        .filter(e -> e.sort() == sort)
        .forEach(e -> classes.add("`" + e.consequence().word() + "`"));
    assertThat(told).contains(classes);
  }

  @Test
  void every_page_is_of_a_sort() {
    assertThat(Case.pages(FOLDER))
        .extracting(p -> p.getFileName().toString().replace(".md", ""))
        .containsExactlyInAnyOrderElementsOf(Arrays.stream(Sort.values()).map(Sort::word).toList());
  }

  @Test
  void findings_of_every_family_of_checks_have_a_class() {
    assertThat(Checks.all())
        .extracting(c -> c.getClass().getPackageName().replaceFirst(".*\\.", ""))
        .containsOnly(FindingChanges.FAMILIES.keySet().toArray(String[]::new));
  }

  @Test
  void the_page_of_new_findings_tells_the_class_of_every_family() throws IOException {
    List<String> lines = Files.readAllLines(page(Sort.FINDING_NEW));
    String[] told = lines.get(lines.indexOf("## Class") + 2).split("; ");
    FindingChanges.FAMILIES.forEach(
        (family, consequence) -> {
          List<String> of = Arrays.stream(told).filter(t -> t.contains(family)).toList();
          boolean rest = consequence == Consequence.SEEN && of.isEmpty();
          assertThat(rest || of.size() == 1 && of.get(0).startsWith("`" + consequence.word()))
              .as(family)
              .isTrue();
        });
  }

  @ParameterizedTest
  @MethodSource("cases")
  void a_case_gives_exactly_what_its_page_expects(Path page) {
    Case golden = Case.of(page);
    golden.verify(ChangesText.of(Edition.changes(golden)));
  }

  @Test
  void every_sort_is_told_in_a_case_outside_its_page() {
    TreeSet<String> told = new TreeSet<>();
    for (Path page : cases()) {
      Pattern.compile("(?m)^    \\[([a-z-]+)]$")
          .matcher(Case.of(page).expected())
          .results()
          .forEach(m -> told.add(m.group(1)));
    }
    assertThat(told)
        .containsExactlyInAnyOrderElementsOf(Arrays.stream(Sort.values()).map(Sort::word).toList());
  }

  private static Path page(Sort sort) {
    return FOLDER.resolve(sort.word() + ".md");
  }
}
