package dev.doublet.chart;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.facts.CheckOptions;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.golden.Case;
import dev.doublet.layout.Layout;
import dev.doublet.layout.read.LayoutResolver;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class PartsListTest {
  private static final Path CASES = Path.of("src/test/resources/cases/parts");

  static List<Path> pages() {
    return Case.pages(CASES);
  }

  @ParameterizedTest
  @MethodSource("pages")
  void each_case_gives_exactly_its_list_and_labels(Path page) {
    Case input = Case.of(page);
    LayoutFacts facts = facts(input);
    PartsList list = PartsList.of(facts);
    Labels labels = Labels.of(facts);
    StringBuilder said = new StringBuilder();
    labels
        .signals()
        .forEach(l -> said.append(l.name()).append(": ").append(l.lines()).append('\n'));
    labels.cables().forEach(l -> said.append(l.name()).append(": ").append(l.lines()).append('\n'));
    input.verify(
        String.join(
            "\n----\n",
            PartsListText.text(list),
            PartsListText.markdown(list),
            PartsListText.csv(list),
            said));
  }

  /** Of each part that wiring lists by controller, the list has as many. */
  @Test
  void it_has_what_all_wirings_have() {
    for (Path page : pages()) {
      LayoutFacts facts = facts(Case.of(page));
      PartsList list = PartsList.of(facts);
      List<Wiring> wirings = Wiring.of(facts);
      for (int i = 0; i < wirings.size(); i++) {
        for (Item item : wirings.get(i).parts()) {
          int of = i;
          assertThat(list.parts())
              .filteredOn(part -> part.what().equals(item.what()))
              .singleElement()
              .satisfies(part -> assertThat(part.counts().get(of)).isEqualTo(item.count()));
        }
      }
    }
  }

  private static LayoutFacts facts(Case input) {
    Layout layout = LayoutResolver.resolve(input.root(), input.reader()).value().orElseThrow();
    return LayoutFacts.of(layout, CheckOptions.ALL);
  }
}
