package dev.doublet.diagnostic;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.source.SourceFile;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What people read is made of what programs read. */
class DatumTest {
  @Test
  void a_sentence_is_filled_with_its_data() {
    assertThat(
            Datum.fill(
                "form \"{form}\" has {heads} for \"{aspects}\", {volts} V at LED {led}",
                Datum.of("form", "home"),
                Datum.count("heads", 2, "head"),
                Datum.of("aspects", List.of("Stop", "Clear")),
                Datum.of("volts", 5.0),
                Datum.of("led", 17)))
        .isEqualTo("form \"home\" has 2 heads for \"Stop\" and \"Clear\", 5 V at LED 17");
  }

  @Test
  void what_names_no_datum_stays_and_no_value_is_filled_again() {
    assertThat(
            Datum.fill(
                "{n} { top } of \"{name}\" and {$1}",
                Datum.of("name", "{form} $1 \\"),
                Datum.of("form", "home")))
        .isEqualTo("{n} { top } of \"{form} $1 \\\" and {$1}");
  }

  @Test
  void the_data_of_all_sentences_are_the_findings_own_each_once() {
    SourceFile file = new SourceFile("book.aspects", "form");
    Datum form = Datum.of("form", "home");
    Diagnostic said =
        Diagnostic.error("incomplete", Tier.NAMES, file.span(0, 4), "form {form}", form)
            .label("its {form}", form)
            .related(file.span(0, 1), "{led}", Datum.of("led", 1))
            .ways(List.of("one", "two"));
    assertThat(said.help()).isEqualTo("one; or two");
    assertThat(said.data())
        .containsExactly(form, Datum.of("led", 1), Datum.of("ways", List.of("one", "two")));
  }
}
