package dev.doublet.editor;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Edits;
import dev.doublet.diagnostic.Fix;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class MendsTest {
  private static final SourceReader TEXTS =
      path ->
          new SourceFile(
              path,
              Map.of(
                      "layout.yaml",
                      """
                      layout: Yard
                      rulebook: book.aspects
                      scael: N
                      otherwise: most-restrictive
                      controllers:
                        west:
                          chains:
                            main:
                              signals:
                              - {name: W1, form: one-head, heads: [main], by: aspect-number, aspects: [Stop, Clear, Claer]}
                      """,
                      "book.aspects",
                      """
                      rulebook "Yard"
                      speeds in mph { slow 15 }
                      colours { red green }
                      head main { lamp main shows red, green }
                      form one-head { top }
                      aspect "Clear" { number 1 allows slow then stop on one-head show green }
                      aspect "Stop" { number 0 allows stop on one-head show red }
                      """)
                  .get(path));

  @Test
  void a_sure_mend_that_makes_an_error_is_not_offered_and_the_others_are() {
    Root root = Root.quick("layout.yaml", TEXTS);
    List<Diagnostic> sure =
        root.findings().stream().filter(f -> Edits.sure(f).isPresent()).toList();
    assertThat(sure.stream().map(f -> f.primary().span().text())).contains("scael", "Claer");
    assertThat(sure.stream().flatMap(f -> Mends.of(root, TEXTS, f).stream()))
        .flatMap(Fix::edits)
        .extracting(Fix.Edit::replacement)
        .containsExactly("scale");
  }

  @Test
  void what_is_a_choice_is_offered_as_it_is() {
    for (Diagnostic finding : Root.quick("layout.yaml", TEXTS).findings()) {
      if (Edits.sure(finding).isEmpty()) {
        assertThat(Mends.of(Root.quick("layout.yaml", TEXTS), TEXTS, finding))
            .isEqualTo(finding.fixes());
      }
    }
  }
}
