package dev.doublet.editor;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Edits;
import dev.doublet.diagnostic.Fix;
import dev.doublet.golden.Misspelt;
import dev.doublet.source.SourceReader;
import java.util.List;
import org.junit.jupiter.api.Test;

class MendsTest {
  private static final SourceReader TEXTS = Misspelt::read;

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
