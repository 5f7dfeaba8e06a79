package dev.doublet.rulebook;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.golden.Case;
import dev.doublet.report.TextRendering;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The pages about what can be wrong with a rulebook tell the truth. */
class LanguagePagesTest {
  private static final Path SOURCES = Path.of("src/main/java/dev/doublet");

  static List<Path> pages() {
    return Stream.of("syntax", "rulebook")
        .flatMap(name -> Case.pages(SOURCES.resolve(name)).stream())
        .toList();
  }

  @ParameterizedTest
  @MethodSource("pages")
  void badGivesExactlyTheOutputShown(Path page) {
    Case bad = Case.section(page, "Bad");
    List<Diagnostic> said = said(bad);
    assertThat(said).extracting(Diagnostic::name).containsOnly(name(page));
    bad.verify(new TextRendering(false).draw(said));
  }

  @ParameterizedTest
  @MethodSource("pages")
  void goodGivesNothing(Path page) {
    assertThat(said(Case.section(page, "Good"))).isEmpty();
  }

  @ParameterizedTest
  @MethodSource("pages")
  void hasItsPartsInOrder(Path page) throws IOException {
    List<String> lines = Files.readAllLines(page);
    assertThat(lines.get(0)).isEqualTo("# " + name(page));
    assertThat(lines.get(2)).matches("[A-Z].*\\.");
    assertThat(lines.get(3)).isEmpty();
    assertThat(lines.stream().filter(l -> l.startsWith("## ")))
        .containsExactly("## Finds", "## Why", "## Bad", "## Good", "## Mend");
  }

  @Test
  void everyNameSaidInACaseHasAPageAndTheOtherWayRound() throws IOException {
    Set<String> said = names("language", "(?m)^  \\[([a-z-]+)]$");
    assertThat(pages())
        .extracting(LanguagePagesTest::name)
        .containsExactlyInAnyOrderElementsOf(said);
  }

  @Test
  void aPageOfWhatIsSaidOfLayoutsTooSaysSo() throws IOException {
    Set<String> ofLayouts = names("layout", "(?ms)^\\S+\\.yaml:.*?^  \\[([a-z-]+)]$");
    List<Path> shared = pages().stream().filter(p -> ofLayouts.contains(name(p))).toList();
    assertThat(shared).hasSizeGreaterThan(3);
    for (Path page : shared) {
      String finds = Files.readString(page).replaceAll("(?s).*## Finds(.*)## Why.*", "$1");
      assertThat(finds).as(name(page)).containsIgnoringCase("in a layout");
    }
  }

  /** What the cases of a folder print that fits a pattern. */
  private static Set<String> names(String folder, String pattern) throws IOException {
    Set<String> names = new TreeSet<>();
    for (Path page : Case.pages(Path.of("src/test/resources/cases").resolve(folder))) {
      Pattern.compile(pattern)
          .matcher(Files.readString(page))
          .results()
          .forEach(m -> names.add(m.group(1)));
    }
    return names;
  }

  private static List<Diagnostic> said(Case part) {
    return RulebookResolver.resolve(part.root(), part.reader()).diagnostics();
  }

  private static String name(Path page) {
    return page.getFileName().toString().replace(".md", "");
  }
}
