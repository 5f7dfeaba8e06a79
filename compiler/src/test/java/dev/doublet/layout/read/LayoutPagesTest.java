package dev.doublet.layout.read;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Fix;
import dev.doublet.diagnostic.Outcome;
import dev.doublet.golden.Case;
import dev.doublet.golden.Run;
import dev.doublet.layout.Layout;
import dev.doublet.source.SourceFile;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The pages of what is said of layout files tell the truth. */
class LayoutPagesTest {
  private static final Path FOLDER = Path.of("src/main/java/dev/doublet/layout/read");

  static List<Path> pages() {
    return Case.pages(FOLDER).stream().filter(p -> !p.endsWith("keys.md")).toList();
  }

  @ParameterizedTest
  @MethodSource("pages")
  void theBadSampleGivesExactlyTheOutputPrintedAndNothingElse(Path page) {
    Case bad = Case.section(page, "Bad");
    bad.verify(Run.check(bad, false));
    assertThat(Run.findings(bad)).isNotEmpty().allMatch(d -> d.name().equals(name(page)));
  }

  @ParameterizedTest
  @MethodSource("pages")
  void theGoodSampleGivesNoFinding(Path page) {
    assertThat(Run.findings(Case.section(page, "Good"))).isEmpty();
  }

  @Test
  void writingTheKeyThatWasMeantMendsTheBadSample() {
    Case bad = Case.section(FOLDER.resolve("unknown-key.md"), "Bad");
    Fix fix = Run.findings(bad).get(0).fixes().get(0);
    String text = bad.files().get(bad.root());
    String mended =
        text.substring(0, fix.edits().get(0).span().start())
            + fix.edits().get(0).replacement()
            + text.substring(fix.edits().get(0).span().end());
    Outcome<Layout> outcome =
        LayoutResolver.resolve(
            bad.root(),
            path ->
                path.equals(bad.root()) ? new SourceFile(path, mended) : bad.reader().read(path));
    assertThat(outcome.diagnostics()).noneMatch(Diagnostic::isFinding);
  }

  @ParameterizedTest
  @MethodSource("pages")
  void thePageHasItsNameASummaryAndTheHeadingsInOrder(Path page) throws IOException {
    List<String> lines = Files.readAllLines(page);
    assertThat(lines.get(0)).isEqualTo("# " + name(page));
    assertThat(lines.get(2)).endsWith(".");
    assertThat(lines.stream().filter(l -> l.startsWith("## ")).toList())
        .containsExactly("## Finds", "## Why", "## Bad", "## Good", "## Mend");
  }

  private static String name(Path page) {
    return page.getFileName().toString().replace(".md", "");
  }
}
