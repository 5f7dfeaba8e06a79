package dev.doublet.editor;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.Compiler;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.facts.CheckOptions;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

class RootTest {
  private static final String BOOK =
      """
      rulebook "Brackwater & Northern"
      speeds in mph { normal 60  slow 15 }
      colours { red yellow green }
      rhythms { flashing 50 per minute }
      head searchlight { lamp main shows red, yellow, green }
      form one-head { top }
      form two-head { top, bottom }
      imperfect signals read as lit
      aspect "Clear" { number 2 allows normal then normal on one-head show green }
      aspect "Slow" { number 1 allows slow then stop on two-head show green over yellow }
      aspect "Stop" { number 0 allows stop on two-head show red over red }
      """;

  private static final SourceReader DISK =
      path -> {
        try {
          return new SourceFile(path, Files.readString(Path.of("..").resolve(path)));
        } catch (IOException e) {
          throw new SourceReader.Unreadable("there is no such file");
        }
      };

  private static List<Diagnostic> whole(String name, SourceReader reader) {
    return Root.quick(name, reader).whole().findings();
  }

  private static List<Diagnostic> commandLine(String path) {
    return Stream.of(path)
        .map(
            p ->
                p.endsWith(".yaml")
                    ? Compiler.checkLayout(p, DISK, CheckOptions.FINDINGS)
                    : Compiler.checkRulebook(p, DISK, CheckOptions.FINDINGS))
        .flatMap(c -> c.diagnostics().stream())
        .filter(Diagnostic::isFinding)
        .toList();
  }

  @Test
  void what_is_checked_quickly_and_then_wholly_finds_what_the_command_line_does() {
    for (String path :
        List.of("rulebooks/brackwater.aspects", "examples/yard/layout.yaml", "no/layout.yaml")) {
      assertThat(whole(path, DISK).stream().map(RootTest::said))
          .as(path)
          .isEqualTo(commandLine(path).stream().map(RootTest::said).toList());
    }
  }

  private static String said(Diagnostic finding) {
    return finding.primary().span().start() + " " + finding.name() + " " + finding.message();
  }

  private static SourceReader holding(String text) {
    return path -> new SourceFile(path, text);
  }

  private static List<String> words(List<Diagnostic> findings) {
    return findings.stream().map(d -> d.primary().span().text() + ": " + d.message()).toList();
  }

  @Test
  void slow_findings_move_with_the_text_and_drop_with_the_words_they_speak_of() {
    List<Diagnostic> slow =
        whole("b.aspects", holding(BOOK)).stream()
            .filter(d -> d.name().equals("risky-pattern"))
            .toList();
    assertThat(slow).isNotEmpty();
    CarriedFindings carried = new CarriedFindings(slow);
    for (String other :
        List.of(
            "# said above\n\n" + BOOK, BOOK.replace("show", " show"), BOOK.replace("\n", "\r\n"))) {
      assertThat(words(carried.over(Map.of("b.aspects", new SourceFile("b.aspects", other)))))
          .isEqualTo(words(slow));
    }
    for (String changed :
        List.of(
            BOOK.replace("green over yellow", "green over red"),
            BOOK.replace("show green }", "show yellow }"))) {
      assertThat(carried.over(Map.of("b.aspects", new SourceFile("b.aspects", changed)))).isEmpty();
    }
  }
}
